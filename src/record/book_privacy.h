// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>

namespace swarfbook {

/// Takes every right of other users from a book's files. Its folder is closed as well, unless it
/// holds other things than the book's.
/// @return whether others could read any of it, and no longer can.
/// Checked: tests/record/book_privacy_test.cpp.
bool closeBookToOthers(const std::filesystem::path& folder);

} // namespace swarfbook
