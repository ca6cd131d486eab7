// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/text_table.h"

#include "base/text.h"

#include <algorithm>
#include <cctype>
#include <utility>

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

/// Whether a cell goes on in further lines; nearly none does.
bool isWide(const std::string& cell) {
    return cell.size() > widestCell && characterCount(cell) > widestCell;
}

std::size_t widthOf(const std::string& cell) {
    if (!isWide(cell))
        return characterCount(cell);
    std::size_t widest = 0;
    for (const std::string& piece : piecesOf(cell, widestCell))
        widest = std::max(widest, characterCount(piece));
    return widest;
}

std::vector<Column> columnsOf(const Rows& rows) {
    std::vector<Column> columns(rows.front().size());
    for (std::size_t row = 0; row < rows.size(); ++row)
        for (std::size_t i = 0; i < rows[row].size(); ++i) {
            const std::string& cell = rows[row][i];
            columns[i].width = std::max(columns[i].width, widthOf(cell));
            columns[i].isNumeric = columns[i].isNumeric &&
                                   (row == 0 || cell.empty() ||
                                    std::isdigit(static_cast<unsigned char>(cell.front())) != 0);
        }
    return columns;
}

void addLine(std::string& text, const std::vector<std::string>& cells,
             const std::vector<Column>& columns) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const std::size_t fill = columns[i].width - characterCount(cells[i]);
        text.append(i == 0 ? 0 : 2, ' ');
        text.append(columns[i].isNumeric ? fill : 0, ' ');
        text += cells[i];
        text.append(columns[i].isNumeric ? 0 : fill, ' ');
    }
    text.erase(text.find_last_not_of(' ') + 1);
    text += '\n';
}

/// A row of which some cells go on in further lines.
void addLines(std::string& text, const std::vector<std::string>& cells,
              const std::vector<Column>& columns) {
    Rows pieces;
    std::size_t most = 1;
    for (const std::string& cell : cells) {
        pieces.push_back(piecesOf(cell, widestCell));
        most = std::max(most, pieces.back().size());
    }
    for (std::size_t number = 0; number < most; ++number) {
        std::vector<std::string> line;
        for (const auto& cell : pieces)
            line.push_back(number < cell.size() ? cell[number] : std::string());
        addLine(text, line, columns);
    }
}

} // namespace

std::string textTable(Rows rows) {
    if (rows.empty())
        return {};
    for (auto& row : rows)
        for (std::string& cell : row)
            cell = inOneLine(std::move(cell));
    const std::vector<Column> columns = columnsOf(rows);
    std::string text;
    for (const auto& row : rows)
        if (std::any_of(row.begin(), row.end(), isWide))
            addLines(text, row, columns);
        else
            addLine(text, row, columns);
    return text;
}

} // namespace swarfbook::cli
