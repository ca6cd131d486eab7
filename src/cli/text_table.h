// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/terminal.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook::cli {

/// A cell with more characters than this continues in the next lines, cut at blanks if possible.
inline constexpr std::size_t widestCell = 70;

/// The text, or a dash in place of an empty one.
inline std::string orDash(const std::string& text) {
    return text.empty() ? "-" : text;
}

/// Rows as aligned text, the first row being the headings, two blanks between columns, no blanks at
/// line ends. Line breaks inside a cell become blanks; unprintable characters are escaped. Time and
/// memory grow with the size of the text. Numbers (short, a digit first) stand to the right when
/// all of their column's cells are numbers or empty.
///
/// @param width  of the terminal, if there is one: the widest columns are narrowed, and their cells
/// continue in the next lines, until the table fits. If not even whole words fit, each row is
/// written as lines of "heading: cell".
/// Checked: tests/cli/text_table_test.cpp.
std::string textTable(std::vector<std::vector<std::string>> rows,
                      std::optional<std::size_t> width = terminalWidth(Stream::output));

} // namespace swarfbook::cli
