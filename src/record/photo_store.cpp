// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/photo_store.h"

#include "base/errors.h"
#include "base/regular_file.h"
#include "base/sha256.h"
#include "record/folder.h"
#include "record/stored_values.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <stdexcept>
#include <system_error>
#include <utility>

namespace fs = std::filesystem;

namespace swarfbook {
namespace {

[[noreturn]] void throwCannotKeep(const fs::path& folder, const FileTrouble& trouble) {
    const int systemError = trouble.systemError();
    if (systemError == ENOSPC || systemError == EDQUOT)
        throw ToolError(fmt::format("The disk that holds the book is full: the photo could not be "
                                    "copied to {}. Nothing of this command was kept. Make room on "
                                    "that disk, then give the command again.",
                                    folder.string()));
    throw ToolError(fmt::format("The photo could not be copied to {}: {} Nothing of this command "
                                "was kept. Put that right, then give the command again.",
                                folder.string(), trouble.what()));
}

/// Removes files that killed programs left half written.
void clearHalfWritten(const Folder& incoming) {
    for (const FolderEntry& entry : incoming.entries())
        if (entry.kind != EntryKind::folder && !entry.name.ends_with(arrivingEnding))
            incoming.remove(entry.name);
}

bool holdsThese(const Folder& folder, const PhotoName& photo) {
    return folder.kindOf(photo.file()) == EntryKind::file &&
           folder.digestOf(photo.file()).sha256 == photo.sha256;
}

/// Stores a photo's bytes under its name, marked as arriving until it is known whether the book has
/// an entry for it. Removes what a failure leaves.
void bringIn(const Folder& incoming, const Folder& folder, const PhotoName& photo,
             std::span<const std::byte> bytes) {
    const std::string arriving = photo.file() + std::string(arrivingEnding);
    incoming.remove(arriving);
    incoming.write(arriving, {}, 0600);
    try {
        incoming.write(photo.file(), bytes, originalMode);
        incoming.moveInto(folder, photo.file(), photo.file());
    } catch (const FileTrouble&) {
        incoming.remove(photo.file());
        incoming.remove(arriving);
        throw;
    }
}

bool startsWith(std::span<const std::byte> bytes, std::size_t from, std::string_view text) {
    return bytes.size() >= from + text.size() &&
           std::memcmp(bytes.data() + from, text.data(), text.size()) == 0;
}

PhotoName requiredName(const std::string& sha256, std::string_view extension) {
    auto name = photoNameFrom(fmt::format("{}.{}", sha256, extension));
    if (!name)
        throw std::logic_error("no name of an original photo");
    return *std::move(name);
}

} // namespace

std::string_view photoExtension(std::span<const std::byte> bytes) {
    if (startsWith(bytes, 0, "\xFF\xD8\xFF"))
        return "jpg";
    if (startsWith(bytes, 0, "\x89PNG\r\n\x1A\n"))
        return "png";
    return startsWith(bytes, 4, "ftyp") ? "heic" : "photo";
}

bool isPhotoExtension(std::string_view extension) {
    return extension == "jpg" || extension == "png" || extension == "heic" || extension == "photo";
}

std::string PhotoName::file() const {
    return fmt::format("{}.{}", sha256, extension);
}

std::optional<PhotoName> photoNameFrom(std::string_view fileName) {
    const auto point = fileName.find('.');
    if (point == std::string_view::npos || !isSha256(fileName.substr(0, point)) ||
        !isPhotoExtension(fileName.substr(point + 1)))
        return std::nullopt;
    return PhotoName{std::string(fileName.substr(0, point)),
                     std::string(fileName.substr(point + 1))};
}

std::vector<std::byte> readWholeFile(const fs::path& file) {
    if (const std::string why = whyNotReadable(file); !why.empty())
        throw ToolError(why);
    std::error_code error;
    const auto size = fs::file_size(file, error);
    std::ifstream in(file, std::ios::binary);
    std::vector<std::byte> bytes(error ? 0 : size);
    in.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    if (error || !in)
        throw ToolError(fmt::format("{} cannot be read ({}). Check that it is there and that you "
                                    "may read it.",
                                    file.string(), error ? error.message() : "it ended too soon"));
    return bytes;
}

PhotoStore::PhotoStore(fs::path bookFolder) : bookFolder_(std::move(bookFolder)) {}

fs::path PhotoStore::fileOf(const std::string& sha256, std::string_view extension) const {
    const PhotoName name = requiredName(sha256, extension);
    return bookFolder_ / "photos" / name.folder() / name.file();
}

bool PhotoStore::holds(const PhotoName& photo) const {
    const auto photos = Folder::open(bookFolder_).maybeChild("photos");
    const auto folder = photos ? photos->maybeChild(photo.folder()) : std::nullopt;
    const auto kind = folder ? folder->kindOf(photo.file()) : std::nullopt;
    if (kind && *kind != EntryKind::file)
        (void)folder->openFile(photo.file()); // reports what is in its place
    return kind == EntryKind::file;
}

std::vector<std::byte> PhotoStore::read(const PhotoName& photo) const {
    return Folder::open(bookFolder_)
        .child("photos")
        .child(photo.folder())
        .read(photo.file(), largestPhotoBytes);
}

bool PhotoStore::keep(const std::string& sha256, std::string_view extension,
                      std::span<const std::byte> bytes) const {
    const PhotoName photo = requiredName(sha256, extension);
    try {
        const Folder photos = Folder::open(bookFolder_).makeChild("photos");
        const Folder incoming = photos.makeChild("incoming");
        clearHalfWritten(incoming);
        const Folder folder = photos.makeChild(photo.folder());
        const bool there = holdsThese(folder, photo);
        if (!there)
            bringIn(incoming, folder, photo, bytes);
        folder.synchronise();
        return !there;
    } catch (const FileTrouble& trouble) {
        throwCannotKeep(bookFolder_ / "photos", trouble);
    }
}

void PhotoStore::settle(const PhotoName& photo, bool committed) const {
    try {
        const Folder photos = Folder::open(bookFolder_).child("photos");
        if (!committed)
            photos.child(photo.folder()).remove(photo.file());
        photos.child("incoming").remove(photo.file() + std::string(arrivingEnding));
    } catch (const FileTrouble&) {
        // The next writing command removes what is still there.
        return;
    }
}

} // namespace swarfbook
