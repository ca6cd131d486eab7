// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace swarfbook::cli {

/// A cell with more characters than this goes on in the next lines, cut at blanks where it can be.
inline constexpr std::size_t widestCell = 70;

/// Rows as aligned text, the first row being the headings, two blanks between columns, no blanks at
/// line ends. Line breaks inside a cell become blanks; what is unprintable is escaped. Time and
/// room grow with what is printed. Numbers (a digit first) stand to the right when all of their
/// column's cells are numbers or empty. Checked: tests/cli/text_table_test.cpp.
std::string textTable(std::vector<std::vector<std::string>> rows);

} // namespace swarfbook::cli
