// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>

namespace swarfbook {

/// Takes every right of other users from a book's files. Closes its folder as well unless it holds
/// other things than the book.
/// @return whether others could read any of it before.
/// Checked: tests/record/book_privacy_test.cpp.
bool closeBookToOthers(const std::filesystem::path& folder);

} // namespace swarfbook
