// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/copy_book.h"

#include "record/kept_originals.h"
#include "record/leftovers.h"
#include "record/photo_store.h"
#include "record/reading_rights.h"
#include "unit/application_chart.h"

#include <fmt/format.h>

#include <cstdint>

namespace swarfbook {
namespace {

constexpr mode_t fileMode = 0600;

/// The copying under way.
class Copying {
  public:
    Copying(const Folder& from, const Folder& to) : from_(from), to_(to) {}

    CopiedFiles run(Database& entries) {
        copyOriginals(entries);
        copyFolder("units", largestChartBytes, fileMode);
        copyFolder(setAsideFolder, largestPhotoBytes, originalMode);
        return std::move(copied_);
    }

  private:
    void trouble(std::string sentence) { copied_.troubles.push_back(std::move(sentence)); }

    void copyOriginals(Database& entries) {
        Statement rows = entries.prepare(
            fmt::format("SELECT sha256, extension, byte_count, file_name FROM {} ORDER BY sha256",
                        keptOriginals));
        std::set<std::string> done;
        while (rows.step()) {
            const auto name = photoNameFrom(rows.text(0) + "." + rows.text(1));
            // An entry that names no photo's file is told by the verification of the copy.
            if (name && done.insert(name->file()).second)
                copyOriginal(*name, rows.text(3));
        }
    }

    void copyOriginal(const PhotoName& name, const std::string& called) {
        try {
            const auto photos = from_.maybeChild("photos");
            const auto folder = photos ? photos->maybeChild(name.folder()) : std::nullopt;
            if (!folder || !folder->kindOf(name.file()))
                return notCopied(name, called, "is missing");
            const Folder target = to_.makeChild("photos").makeChild(name.folder());
            const FileDigest read =
                folder->copyInto(target, name.file(), originalMode, largestPhotoBytes);
            if (read.sha256 == name.sha256) {
                ++copied_.photos;
                return;
            }
            target.remove(name.file());
            notCopied(name, called, "has changed since it was put into the book");
        } catch (const WriteTrouble&) {
            throw;
        } catch (const FileTrouble& unreadable) {
            const std::string file = fmt::format("photos/{}/{}", name.folder(), name.file());
            notCopied(fmt::format("The photo {}", called), unreadable, file);
            copied_.missing.insert(name.sha256);
        }
    }

    void notCopied(const PhotoName& name, const std::string& called, std::string_view why) {
        trouble(fmt::format("The photo {} was not copied: its original {} {}. Bring it back from "
                            "an earlier backup, or add the same photo file again.",
                            called,
                            (from_.path() / "photos" / name.folder() / name.file()).string(), why));
        copied_.missing.insert(name.sha256);
    }

    void notCopied(const std::string& what, const FileTrouble& unreadable,
                   const std::filesystem::path& file) {
        trouble(fmt::format("{} was not copied: {}{}{}", what, unreadable.what(),
                            lacksRight(unreadable) ? " " : "",
                            lacksRight(unreadable) ? adviceOnRights(from_.path(), file) : ""));
    }

    /// A folder of the book, file by file.
    void copyFolder(const std::string& name, std::uint64_t mostBytes, mode_t mode) {
        try {
            const auto folder = from_.maybeChild(name);
            if (!folder)
                return;
            const Folder target = to_.makeChild(name);
            for (const FolderEntry& entry : folder->entries())
                copyFile(*folder, target, entry, {mostBytes, mode});
        } catch (const WriteTrouble&) {
            throw;
        } catch (const FileTrouble& unreadable) {
            notCopied(fmt::format("The folder {}", name), unreadable, name);
        }
    }

    struct Limits {
        std::uint64_t mostBytes;
        mode_t mode;
    };

    void copyFile(const Folder& folder, const Folder& target, const FolderEntry& entry,
                  const Limits& limits) {
        if (isHalfChart(entry.name))
            return;
        try {
            if (entry.kind == EntryKind::folder)
                return trouble(fmt::format("{} was not copied: no folder belongs there.",
                                           (folder.path() / entry.name).string()));
            (void)folder.copyInto(target, entry.name, limits.mode, limits.mostBytes);
            copied_.charts += entry.name.ends_with(".json") ? 1 : 0;
        } catch (const WriteTrouble&) {
            throw;
        } catch (const FileTrouble& unreadable) {
            notCopied("A file", unreadable, folder.path().filename() / entry.name);
        }
    }

    const Folder& from_;
    const Folder& to_;
    CopiedFiles copied_;
};

} // namespace

CopiedFiles copyFiles(const Folder& from, const Folder& to, Database& entries) {
    return Copying(from, to).run(entries);
}

} // namespace swarfbook
