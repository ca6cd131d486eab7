// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/text_table.h"

#include "base/text.h"

#include <algorithm>
#include <cctype>

namespace swarfbook::cli {
namespace {

using Rows = std::vector<std::vector<std::string>>;

/// A column as it is set: the same for every row.
struct Column {
    std::size_t width = 0;
    bool isNumeric = true;
};

std::string inOneLine(std::string cell) {
    std::replace(cell.begin(), cell.end(), '\n', ' ');
    return shown(cell);
}

/// Every cell's lines, row by row.
std::vector<std::vector<std::vector<std::string>>> linesOf(const Rows& rows) {
    std::vector<std::vector<std::vector<std::string>>> all;
    for (const auto& row : rows) {
        all.emplace_back();
        for (const std::string& cell : row)
            all.back().push_back(piecesOf(inOneLine(cell), widestCell));
    }
    return all;
}

std::vector<Column> columnsOf(const std::vector<std::vector<std::vector<std::string>>>& rows) {
    std::vector<Column> columns(rows.front().size());
    for (std::size_t row = 0; row < rows.size(); ++row)
        for (std::size_t i = 0; i < rows[row].size(); ++i) {
            for (const std::string& line : rows[row][i])
                columns[i].width = std::max(columns[i].width, characterCount(line));
            const std::string& first = rows[row][i].front();
            columns[i].isNumeric = columns[i].isNumeric &&
                                   (row == 0 || first.empty() ||
                                    std::isdigit(static_cast<unsigned char>(first.front())) != 0);
        }
    return columns;
}

std::string lineOf(const std::vector<std::vector<std::string>>& cells, std::size_t number,
                   const std::vector<Column>& columns) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const std::string cell = number < cells[i].size() ? cells[i][number] : std::string();
        const std::string fill(columns[i].width - characterCount(cell), ' ');
        line += i == 0 ? "" : "  ";
        line += columns[i].isNumeric ? fill + cell : cell + fill;
    }
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

} // namespace

std::string textTable(const Rows& rows) {
    if (rows.empty())
        return {};
    const auto lines = linesOf(rows);
    const std::vector<Column> columns = columnsOf(lines);
    std::string text;
    for (const auto& cells : lines) {
        std::size_t most = 1;
        for (const auto& cell : cells)
            most = std::max(most, cell.size());
        for (std::size_t number = 0; number < most; ++number)
            text += lineOf(cells, number, columns) + "\n";
    }
    return text;
}

} // namespace swarfbook::cli
