// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book.h"

#include <filesystem>

namespace swarfbook {

/// Restores a backup: the whole book to a folder that is missing or empty, where it appears in one
/// step after all of it was read back. The backup itself is only read, so it may be on a disk that
/// cannot be written. A backup of an older program becomes a book of the present version.
///
/// @param backup  a folder that Book::backUp made, or any book that nobody uses.
/// @return what was restored, and sentences on what is missing or damaged in the backup; the rest
/// is restored nevertheless.
/// Throws UsageError if there is no backup, or `book` is not empty or in the backup. Throws
/// ToolError if book.db of the backup is damaged or in use, or the disk is full; then nothing
/// appears.
/// Checked: tests/record/restore_book_test.cpp (every table and file of the book is restored).
Book::Copied restoreBook(const std::filesystem::path& backup, const std::filesystem::path& book);

} // namespace swarfbook
