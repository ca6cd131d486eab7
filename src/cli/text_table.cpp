// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/text_table.h"

#include <algorithm>
#include <cctype>

namespace swarfbook::cli {
namespace {

using Rows = std::vector<std::vector<std::string>>;

/// Characters of UTF-8 text: bytes that do not continue one.
std::size_t width(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }));
}

bool isNumeric(const Rows& rows, std::size_t column) {
    return std::all_of(rows.begin() + 1, rows.end(), [&](const auto& row) {
        return row[column].empty() || std::isdigit(static_cast<unsigned char>(row[column][0])) != 0;
    });
}

std::size_t columnWidth(const Rows& rows, std::size_t column) {
    std::size_t widest = 0;
    for (const auto& row : rows)
        widest = std::max(widest, width(row[column]));
    return widest;
}

} // namespace

std::string textTable(const Rows& rows) {
    if (rows.empty())
        return {};
    std::string text;
    for (const auto& row : rows) {
        std::string line;
        for (std::size_t column = 0; column < row.size(); ++column) {
            std::string cell = row[column];
            std::replace(cell.begin(), cell.end(), '\n', ' ');
            const std::string fill(columnWidth(rows, column) - width(cell), ' ');
            line += column == 0 ? "" : "  ";
            line += isNumeric(rows, column) ? fill + cell : cell + fill;
        }
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + "\n";
    }
    return text;
}

} // namespace swarfbook::cli
