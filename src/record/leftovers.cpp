// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/leftovers.h"

#include "base/output_file.h"
#include "record/kept_originals.h"
#include "record/photo_store.h"
#include "record/unit_charts.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <ctime>
#include <fcntl.h>
#include <set>
#include <sys/stat.h>

namespace swarfbook {
namespace {

/// Names of the originals that the book has entries of.
std::set<std::string> namedPhotos(Database& database) {
    Statement rows =
        database.prepare(fmt::format("SELECT sha256, extension FROM {}", keptOriginals));
    std::set<std::string> names;
    while (rows.step())
        names.insert(rows.text(0) + "." + rows.text(1));
    return names;
}

bool isNamed(Database& database, const PhotoName& photo) {
    Statement rows = database.prepare(
        fmt::format("SELECT 1 FROM {} WHERE sha256 = ? AND extension = ?", keptOriginals));
    return rows.with(photo.sha256, photo.extension).step();
}

bool isHexFolder(const std::string& name) {
    return name.size() == 2 && name.find_first_not_of("0123456789abcdef") == std::string::npos;
}

/// The photo that photos/incoming/<entry> says is on its way in.
std::optional<PhotoName> arrivingPhoto(const std::string& entry) {
    if (!entry.ends_with(arrivingEnding))
        return std::nullopt;
    return photoNameFrom(std::string_view(entry).substr(0, entry.size() - arrivingEnding.size()));
}

void findIncoming(const Folder& photos, Database& database, Leftovers& found) {
    const auto incoming = photos.maybeChild("incoming");
    if (!incoming)
        return;
    for (const FolderEntry& entry : incoming->entries()) {
        const auto arriving = arrivingPhoto(entry.name);
        const bool own = arriving || photoNameFrom(entry.name);
        const std::string name = "photos/incoming/" + entry.name;
        if (entry.kind != EntryKind::file || !own)
            found.foreign.push_back(name);
        else if (!arriving || !isNamed(database, *arriving))
            found.halfWritten.push_back(name);
    }
}

void findInPhotos(const Folder& photos, Database& database, Leftovers& found) {
    const std::set<std::string> named = namedPhotos(database);
    for (const FolderEntry& two : photos.entries()) {
        if (two.name == "incoming" && two.kind == EntryKind::folder)
            continue;
        if (two.kind != EntryKind::folder || !isHexFolder(two.name)) {
            found.foreign.push_back("photos/" + two.name);
            continue;
        }
        for (const FolderEntry& entry : photos.child(two.name).entries()) {
            const auto photo = photoNameFrom(entry.name);
            const std::string name = fmt::format("photos/{}/{}", two.name, entry.name);
            if (entry.kind != EntryKind::file || !photo || photo->folder() != two.name) {
                if (!named.contains(entry.name)) // else the verification says so
                    found.foreign.push_back(name);
            } else if (!named.contains(entry.name)) {
                found.unnamedPhotos.push_back(name);
            }
        }
    }
}

/// Common practice, no source: a chart is written within a second, so a temporary file that old has
/// no program behind it. The book's lock does not say so: an interview does not hold it.
bool isAbandoned(const Folder& folder, const std::string& name) {
    struct stat facts {};
    constexpr std::time_t oneHour = 3600;
    return ::fstatat(folder.number(), name.c_str(), &facts, AT_SYMLINK_NOFOLLOW) == 0 &&
           facts.st_mtime + oneHour < std::time(nullptr);
}

void findHalfCharts(const Folder& book, Leftovers& found) {
    const auto units = book.maybeChild("units");
    if (!units)
        return;
    for (const FolderEntry& entry : units->entries())
        if (entry.kind == EntryKind::file && isHalfChart(entry.name) &&
            isAbandoned(*units, entry.name))
            found.halfWritten.push_back("units/" + entry.name);
}

void findMark(const Folder& book, Leftovers& found) {
    if (book.kindOf(unfinishedMark) == EntryKind::file)
        found.halfWritten.emplace_back(unfinishedMark);
}

/// The folder that holds a file named from the book's folder on, and its name there.
std::pair<Folder, std::string> placeOf(const Folder& book, const std::string& file) {
    Folder folder = Folder::open(book.path());
    std::string rest = file;
    for (auto slash = rest.find('/'); slash != std::string::npos; slash = rest.find('/')) {
        folder = folder.child(rest.substr(0, slash));
        rest.erase(0, slash + 1);
    }
    return {std::move(folder), rest};
}

/// A name that is not taken in the folder yet.
std::string freeName(const Folder& folder, const std::string& wanted) {
    std::string name = wanted;
    for (int number = 2; folder.kindOf(name); ++number)
        name = fmt::format("{}-{}", wanted, number);
    return name;
}

/// Removes a photo that was on its way in and got no entry.
void takeBack(const Folder& photos, const PhotoName& photo) {
    if (const auto folder = photos.maybeChild(photo.folder()))
        folder->remove(photo.file());
}

void clearIncoming(const Folder& photos, const Folder& incoming, Database& database) {
    for (const FolderEntry& entry : incoming.entries()) {
        const auto arriving = arrivingPhoto(entry.name);
        if (entry.kind != EntryKind::file || !(arriving || photoNameFrom(entry.name)))
            continue;
        if (arriving && !isNamed(database, *arriving))
            takeBack(photos, *arriving);
        incoming.remove(entry.name);
    }
}

} // namespace

bool isHalfChart(const std::string& name) {
    const auto goal = goalOfTemporary(name);
    return goal && (goal->ends_with(".json") || goal->ends_with(".unfinished"));
}

Leftovers findLeftovers(const Folder& book, Database& database) {
    Leftovers found;
    if (const auto photos = book.maybeChild("photos")) {
        findIncoming(*photos, database, found);
        findInPhotos(*photos, database, found);
    }
    findHalfCharts(book, found);
    findMark(book, found);
    return found;
}

std::vector<std::string> mendLeftovers(const Folder& book, const Leftovers& found) {
    std::vector<std::string> said;
    for (const std::string& file : found.halfWritten) {
        const auto [folder, name] = placeOf(book, file);
        folder.remove(name);
        said.push_back(fmt::format("{} was removed: a command that was stopped left it.", file));
    }
    for (const std::string& file : found.unnamedPhotos) {
        const auto [folder, name] = placeOf(book, file);
        const Folder aside = book.makeChild(setAsideFolder);
        const std::string free = freeName(aside, name);
        folder.moveInto(aside, name, free);
        aside.synchronise();
        folder.synchronise();
        said.push_back(fmt::format("{} was moved to {}/{}: no entry of the book names it.", file,
                                   setAsideFolder, free));
    }
    return said;
}

void clearAfterKill(const std::filesystem::path& book, Database& database) noexcept {
    try {
        const Folder folder = Folder::open(book);
        const auto photos = folder.maybeChild("photos");
        const auto incoming = photos ? photos->maybeChild("incoming") : std::nullopt;
        Leftovers found;
        findHalfCharts(folder, found);
        findMark(folder, found);
        const bool photosComing = incoming && !incoming->entries().empty();
        if (photosComing)
            clearIncoming(*photos, *incoming, database);
        mendLeftovers(folder, found);
    } catch (const std::exception&) {
        // The command itself says what is wrong with the book; leftovers can wait.
        return;
    }
}

} // namespace swarfbook
