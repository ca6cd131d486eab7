// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <string>

namespace swarfbook {

/// Why nothing can be read from there, as a sentence with what to do: it is missing, a folder, a
/// pipe or a device, or may not be looked at. "" for a regular file, also through a link. Ask
/// before opening a file: reading a pipe that nobody writes to never ends. Checked:
/// tests/base/regular_file_test.cpp.
std::string whyNotReadable(const std::filesystem::path& file);

} // namespace swarfbook
