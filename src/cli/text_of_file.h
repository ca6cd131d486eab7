// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

namespace swarfbook::cli {

/// The text of a file that was typed by hand; "-" reads what is pasted. UsageError, naming the
/// file, when it cannot be read, holds more than a megabyte or is no plain text.
/// @param what  what it should be, "table"
/// Checked: tests/cli/unit_test.cpp.
std::string textOfFile(const std::string& file, const std::string& what);

} // namespace swarfbook::cli
