// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <string>

namespace swarfbook {

/// Why the file cannot be read, as a sentence that says what to do: it is missing, it is a folder,
/// a pipe or a device, or access is denied. "" for a regular file, also through a link. Call it
/// before opening a file, because reading a pipe that nobody writes to never ends. Checked:
/// tests/base/regular_file_test.cpp.
std::string whyNotReadable(const std::filesystem::path& file);

} // namespace swarfbook
