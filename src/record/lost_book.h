// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>

namespace swarfbook {

/// Whether the folder's book.db is missing or holds nothing.
bool hasNoDatabase(const std::filesystem::path& folder);

/// Where there is no book.db, or an empty one: throws ToolError when the folder holds photos,
/// charts or a write-ahead log all the same. The book has lost its entries then, and a new one in
/// its place would hide that. The message says what is there and what to do.
/// Checked: tests/record/lost_book_test.cpp.
void refuseLostBook(const std::filesystem::path& folder);

/// Throws ToolError when book.db is a link, a folder or a device: only an ordinary file is opened.
void requireOrdinaryDatabase(const std::filesystem::path& folder);

/// Throws ToolError when the folder of the charts is a link: a chart would be written elsewhere.
void requireOwnCharts(const std::filesystem::path& folder);

} // namespace swarfbook
