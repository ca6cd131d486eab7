// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"
#include "record/folder.h"

#include <string>
#include <vector>

namespace swarfbook {

/// Files in a book's folder that belong to no entry, named from the book's folder on.
struct Leftovers {
    /// What killed commands left half written. No entry ever named it.
    std::vector<std::string> halfWritten;
    /// Whole photos under an original's name that no entry names.
    std::vector<std::string> unnamedPhotos;
    /// What is in the folder of the photos and was not put there by this program.
    std::vector<std::string> foreign;
};

/// Looks through the whole book. Call it while holding the book's write transaction, else what
/// another command is writing just now is found as well.
/// Throws ToolError where the folder cannot be read.
/// Checked: tests/record/leftovers_test.cpp.
Leftovers findLeftovers(const Folder& book, Database& database);

/// Puts that in order, in the same transaction: what is half written is removed, unnamed photos are
/// moved to the folder set-aside in the book, foreign files stay. @return one sentence each.
std::vector<std::string> mendLeftovers(const Folder& book, const Leftovers& found);

/// Clears what killed commands left, for the start of every writing command: looks only where they
/// leave it, so that it costs nothing where there is nothing. A photo that was on its way in and
/// has no entry is removed: whoever added it still has it. Call it first thing in the write
/// transaction. It never throws.
void clearAfterKill(const std::filesystem::path& book, Database& database) noexcept;

/// Whether a name in units/ is that of a chart, or of an interview's answers, that is being
/// written.
bool isHalfChart(const std::string& name);

/// The folder in a book for photos that no entry names.
inline constexpr const char* setAsideFolder = "set-aside";
/// Marks a folder of a backup or restoring that is not finished. Who makes the folder holds a lock
/// (flock) on this file until it is finished.
inline constexpr const char* unfinishedMark = ".swarfbook-unfinished";

} // namespace swarfbook
