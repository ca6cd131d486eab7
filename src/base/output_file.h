// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace swarfbook {

/// What becomes of a file that is there already.
enum class IfThere { refuse, replace };

/// Writes a file whole or not at all, for the owner alone: the bytes are on the disk before the
/// name is there. A command that fails or is killed does not leave half a file. It leaves no
/// temporary file either if the file system knows files without a name (O_TMPFILE); otherwise the
/// next writing of the same file removes it.
///
/// @param ifThere  refuse: UsageError where the name is taken, however late; replace: the old file
///                 is there until the new one is whole.
/// Throws UsageError when `file` is a folder; ToolError, saying which disk is full or why else it
/// cannot be written.
/// Checked: tests/base/output_file_test.cpp.
void writeFile(const std::filesystem::path& file, std::span<const std::byte> bytes,
               IfThere ifThere);
/// The same with the bytes of a text or of an encoder.
void writeFile(const std::filesystem::path& file, std::span<const unsigned char> bytes,
               IfThere ifThere);

/// The file that a temporary file of writeFile was meant for, by the temporary file's name:
/// "demo.json" for ".demo.json.swarfbook-1234". Nothing for any other name.
/// Checked: tests/base/output_file_test.cpp, tests/record/leftovers_test.cpp.
std::optional<std::string> goalOfTemporary(std::string_view name);

} // namespace swarfbook
