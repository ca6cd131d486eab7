// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"
#include "record/photo_store.h"

#include <cstddef>
#include <filesystem>
#include <span>

namespace swarfbook {

/// Puts a photo on the disk, and takes it away again if the transaction comes to nothing. One that
/// has an entry already had lost its file: that stays.
///
/// @param folder    the book's folder.
/// @param database  its book.db, in a transaction that writes.
/// @param photo     its name as PhotoStore takes it.
/// @param bytes     the photo file, whole; `photo` holds their SHA-256.
/// Throws ToolError when the disk refuses.
/// Checked: tests/record/book_photos_test.cpp, tests/record/book_failures_test.cpp.
void keepOriginal(const std::filesystem::path& folder, Database& database, const PhotoName& photo,
                  std::span<const std::byte> bytes);

} // namespace swarfbook
