// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book.h"

#include <filesystem>

namespace swarfbook {

/// Brings a backup back: the whole book to a folder that is not there yet or is empty, where it
/// appears in one step after all of it was read back. The backup itself is only read, so it may lie
/// on a disk that cannot be written. One of an older program comes back as a book of the present
/// version.
///
/// @param backup  a folder that Book::backUp made, or any book that nobody uses.
/// @return what came back, and the sentences on what the backup lacks or has damaged; the rest came
///         back all the same.
/// Throws UsageError: no backup there, `book` not empty or in the backup. ToolError: book.db of the
/// backup is damaged or in use, the disk is full; then nothing appears.
/// Checked: tests/record/restore_book_test.cpp (every table and file of the book comes back).
Book::Copied restoreBook(const std::filesystem::path& backup, const std::filesystem::path& book);

} // namespace swarfbook
