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

/// Common parts of backup and restore.
/// Checked: tests/record/book_backup_test.cpp, tests/record/restore_book_test.cpp.
namespace swarfbook {

/// The name of a copy in messages, and the option that gives its place.
struct CopyWords {
    std::string what;   ///< "The backup"
    std::string option; ///< "--out"
};

/// A new folder beside the target, under a name of its own. All copies go in there, and it becomes
/// the target in one step. It touches nothing that was there before, and it is removed again unless
/// it was finished. It also removes folders that a killed command left beside the target: those
/// with this form of name and this program's mark that no command holds.
class UnfinishedFolder {
  public:
    /// Makes missing folders above the target. Throws ToolError if the disk refuses.
    UnfinishedFolder(const std::filesystem::path& target, CopyWords words);
    ~UnfinishedFolder();
    UnfinishedFolder(const UnfinishedFolder&) = delete;
    UnfinishedFolder& operator=(const UnfinishedFolder&) = delete;

    [[nodiscard]] const Folder& folder() const { return *folder_; }
    /// The new file book.db in it, private and empty.
    [[nodiscard]] std::filesystem::path makeDatabaseFile() const;

    /// Runs a function that writes into the folder. Turns its WriteTrouble into a ToolError that
    /// names the target, which the user knows, and says what to do.
    void fill(const std::function<void()>& write) const;

    /// What may exist in the target's place when it appears.
    enum class InPlace { nothing, emptyFolder };
    /// Makes sure that everything is on the disk and gives the folder the target's name. Throws
    /// UsageError if something else is there by now, which stays as it is.
    void finish(InPlace allowed);

  private:
    [[noreturn]] void fail(int systemError) const;

    std::filesystem::path target_;
    CopyWords words_;
    std::filesystem::path path_;
    std::optional<Folder> folder_;
    bool finished_ = false;
};

/// The copied files, and the files that could not be copied.
struct CopiedFiles {
    std::size_t photos = 0, charts = 0;
    std::vector<std::string> troubles; ///< sentences
    std::set<std::string> missing;     ///< SHA-256 of the originals with trouble
};

/// Copies the originals that `entries` names, the charts, the unfinished interviews and the photos
/// set aside, and checks each as it is read. A file that cannot be read or has changed is reported
/// and left out; a target that cannot be written throws WriteTrouble.
CopiedFiles copyFiles(const Folder& from, const Folder& to, Database& entries);

} // namespace swarfbook
