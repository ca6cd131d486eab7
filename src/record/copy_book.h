// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"
#include "record/folder.h"
#include "record/verify_book.h"

#include <cstddef>
#include <filesystem>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

/// What a backup and the way back from one have in common.
/// Checked: tests/record/book_backup_test.cpp, tests/record/restore_book_test.cpp.
namespace swarfbook {

/// What a copy is called in messages, and the option that says where it goes.
struct CopyWords {
    std::string what;   ///< "The backup"
    std::string option; ///< "--out"
};

/// A new folder beside the one that is to appear, under a name of its own: all that is copied goes
/// in there, and it becomes the target in one step. Nothing that was there before is touched, and
/// it is removed again unless it was finished. Folders that a killed command left beside the target
/// are removed: those with this name's form and this program's mark that no command holds.
class UnfinishedFolder {
  public:
    /// Missing folders above the target are made. Throws ToolError where the disk refuses.
    UnfinishedFolder(const std::filesystem::path& target, CopyWords words);
    ~UnfinishedFolder();
    UnfinishedFolder(const UnfinishedFolder&) = delete;
    UnfinishedFolder& operator=(const UnfinishedFolder&) = delete;

    [[nodiscard]] const Folder& folder() const { return *folder_; }
    /// The new file book.db in it, private and empty.
    [[nodiscard]] std::filesystem::path makeDatabaseFile() const;

    /// Runs what writes into the folder. A WriteTrouble of it becomes a ToolError that names the
    /// target, which the user knows, and says what to do.
    void fill(const std::function<void()>& write) const;

    /// What may be in the target's place when it appears.
    enum class InPlace { nothing, emptyFolder };
    /// Puts all that was written on the disk and gives the folder the target's name. UsageError
    /// when something else is there by now, which stays as it is.
    void finish(InPlace allowed);

  private:
    [[noreturn]] void fail(int systemError) const;

    std::filesystem::path target_;
    CopyWords words_;
    std::filesystem::path path_;
    std::optional<Folder> folder_;
    bool finished_ = false;
};

/// Files that were copied, and what could not be.
struct CopiedFiles {
    std::size_t photos = 0, charts = 0;
    std::vector<std::string> troubles; ///< sentences
    std::set<std::string> missing;     ///< SHA-256 of the originals that the troubles speak of
};

/// Copies the originals that `entries` names, the charts, the interviews broken off and the photos
/// set aside, each checked as it is read. What cannot be read, or is no longer what was put in, is
/// told and left out; a target that cannot be written throws WriteTrouble.
CopiedFiles copyFiles(const Folder& from, const Folder& to, Database& entries);

} // namespace swarfbook
