// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"

#include <filesystem>
#include <memory>
#include <string>

namespace swarfbook {

/// The database of the book in `folder`, opened for reading: beside other readers and writers if
/// the folder can be written, otherwise from the files as they are.
/// Throws as Database and versionOfBook do.
/// Checked: tests/record/book_reading_test.cpp.
std::unique_ptr<Database> databaseToRead(const std::filesystem::path& folder,
                                         const std::string& where);

/// The database itself if it has the present version, else a copy in memory brought to the present
/// version. Neither can be written.
std::unique_ptr<Database> atPresentVersion(std::unique_ptr<Database> database);

} // namespace swarfbook
