// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"
#include "record/photo_store.h"

#include <cstddef>
#include <filesystem>
#include <span>

namespace swarfbook {

/// Puts a photo on the disk, and removes it again if the transaction is rolled back. If the photo
/// already has an entry, its file was lost; then the file stays.
///
/// @param folder    the book's folder.
/// @param database  its book.db, in a transaction that writes.
/// @param photo     its name as PhotoStore takes it.
/// @param bytes     the photo file, whole; `photo` holds their SHA-256.
/// Throws ToolError if the disk refuses.
/// Checked: tests/record/book_photos_test.cpp, tests/record/book_failures_test.cpp.
void keepOriginal(const std::filesystem::path& folder, Database& database, const PhotoName& photo,
                  std::span<const std::byte> bytes);

} // namespace swarfbook
