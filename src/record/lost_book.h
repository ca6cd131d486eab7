// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <functional>

namespace swarfbook {

/// Whether the folder's book.db is missing or holds nothing.
bool hasNoDatabase(const std::filesystem::path& folder);

/// If there is no book.db, or an empty one: throws ToolError if the folder nevertheless holds
/// photos, charts or (beside an empty book.db) a write-ahead log. Then the book has lost its
/// entries, and a new book in its place would hide that. The message says what is there and what to
/// do.
/// @param stillLost  called again at the end, as another program may have started the book
/// meanwhile.
/// Checked: tests/record/lost_book_test.cpp, tests/record/book_errors_test.cpp (two programs that
/// start one book).
void refuseLostBook(const std::filesystem::path& folder, const std::function<bool()>& stillLost);

/// Throws ToolError if book.db is a link, a folder or a device: only an ordinary file is opened.
void requireOrdinaryDatabase(const std::filesystem::path& folder);

/// Throws ToolError if the folder of the charts is a link, because a chart would be written
/// elsewhere.
void requireOwnCharts(const std::filesystem::path& folder);

} // namespace swarfbook
