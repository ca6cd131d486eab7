// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"
#include "record/folder.h"

#include <string>
#include <vector>

namespace swarfbook {

/// Files in a book's folder that belong to no entry, by their paths in the book's folder.
struct Leftovers {
    /// Files that killed commands left half written. No entry ever named them.
    std::vector<std::string> halfWritten;
    /// Whole photos under an original's name that no entry names.
    std::vector<std::string> unnamedPhotos;
    /// Files in the folder of the photos that this program did not put there.
    std::vector<std::string> foreign;
};

/// Looks through the whole book. Call it while holding the book's write transaction, otherwise it
/// also finds files that another command is just writing. Throws ToolError if the folder cannot be
/// read.
/// Checked: tests/record/leftovers_test.cpp.
Leftovers findLeftovers(const Folder& book, Database& database);

/// Puts that in order, in the same transaction: removes half-written files, moves unnamed photos to
/// the folder set-aside in the book, and leaves foreign files. @return one sentence each.
std::vector<std::string> mendLeftovers(const Folder& book, const Leftovers& found);

/// Removes what killed commands left, at the start of every writing command. It looks only in the
/// places where they leave files, so that it costs nothing otherwise. It removes a photo that was
/// being added and has no entry; the user still has it. Call it first in the write transaction. It
/// never throws.
void clearAfterKill(const std::filesystem::path& book, Database& database) noexcept;

/// Whether a name in units/ belongs to a chart or an interview's answers that are being written.
bool isHalfChart(const std::string& name);

/// The folder in a book for photos that no entry names.
inline constexpr const char* setAsideFolder = "set-aside";
/// Marks the folder of an unfinished backup or restore. The program that makes the folder holds a
/// lock (flock) on this file until it is finished.
inline constexpr const char* unfinishedMark = ".swarfbook-unfinished";

} // namespace swarfbook
