// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

namespace swarfbook::cli {

/// The text of a file typed by hand; "-" reads pasted text. Throws UsageError, naming the file, if
/// it cannot be read, has more than a megabyte or is not plain text.
/// @param what  what it should be, "table"
/// Checked: tests/cli/unit_test.cpp.
std::string textOfFile(const std::string& file, const std::string& what);

} // namespace swarfbook::cli
