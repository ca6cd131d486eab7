// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

namespace swarfbook::cli {

/// Rows as aligned text, the first row being the headings, two blanks between columns, no blanks at
/// line ends. Line breaks inside a cell become blanks. Numbers (a digit first) stand to the right
/// when all of their column's cells are numbers or empty.
/// Checked: tests/cli/text_table_test.cpp.
std::string textTable(const std::vector<std::vector<std::string>>& rows);

} // namespace swarfbook::cli
