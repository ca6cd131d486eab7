// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// A text of rows and cells. Every row has at least one cell; empty lines are left out.
struct SeparatedText {
    struct Row {
        std::vector<std::string> cells; ///< blanks at both ends cut off
        int line = 0;                   ///< where it starts in the text, from 1 on
    };
    std::vector<Row> rows;
    char separator = ',';
};

/// Reads text whose cells are separated by tabs, semicolons or commas, whichever its first line
/// has, in this order. Cells in double quotes may hold separators, line ends and doubled quotes.
/// A byte order mark and CR LF are understood. Throws UsageError for a quote that does not end.
/// Source of the form: RFC 4180. Checked: tests/unit/unit_table_test.cpp.
SeparatedText separatedText(std::string_view text);

} // namespace swarfbook
