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

constexpr std::size_t gap = 2;            // blanks between two columns
constexpr std::size_t longestNumber = 20; // bytes, with its unit
constexpr std::size_t longestWord = 24;   // a longer one is cut where the terminal is narrow

/// The layout of a column: the same for every row.
struct Column {
    std::size_t width = 0;
    std::size_t narrowest = 0; ///< its longest word
    bool isNumeric = true;
};

std::string inOneLine(std::string cell) {
    std::replace(cell.begin(), cell.end(), '\n', ' ');
    return shown(cell);
}

/// Bytes of the text's first `count` characters.
std::size_t bytesOf(std::string_view text, std::size_t count) {
    std::size_t at = 0;
    for (; at < text.size() && count > 0; --count) {
        ++at;
        while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U)
            ++at;
    }
    return at;
}

/// A cell in lines of at most `most` characters, cut at a blank if there is one.
std::vector<std::string> linesOf(std::string_view cell, std::size_t most) {
    std::vector<std::string> lines;
    for (std::size_t end = bytesOf(cell, most); end < cell.size(); end = bytesOf(cell, most)) {
        const std::size_t blank = cell.rfind(' ', end);
        const bool atBlank = blank != std::string_view::npos && blank > 0;
        lines.emplace_back(cell.substr(0, atBlank ? blank : end));
        cell.remove_prefix(atBlank ? blank + 1 : end);
    }
    lines.emplace_back(cell);
    return lines;
}

std::size_t lengthOfLongestWord(std::string_view cell) {
    std::size_t longest = 0;
    while (!cell.empty()) {
        const std::size_t end = std::min(cell.find(' '), cell.size());
        longest = std::max(longest, characterCount(cell.substr(0, end)));
        cell.remove_prefix(std::min(end + 1, cell.size()));
    }
    return std::min(longest, longestWord);
}

std::size_t widthOf(const std::string& cell, std::size_t most) {
    if (cell.size() <= most)
        return characterCount(cell);
    std::size_t widest = 0;
    for (const std::string& line : linesOf(cell, most))
        widest = std::max(widest, characterCount(line));
    return widest;
}

std::vector<Column> columnsOf(const Rows& rows, bool mayNarrow) {
    std::vector<Column> columns(rows.front().size());
    for (std::size_t row = 0; row < rows.size(); ++row)
        for (std::size_t i = 0; i < rows[row].size(); ++i) {
            const std::string& cell = rows[row][i];
            columns[i].width = std::max(columns[i].width, widthOf(cell, widestCell));
            if (mayNarrow)
                columns[i].narrowest = std::max(columns[i].narrowest, lengthOfLongestWord(cell));
            columns[i].isNumeric = columns[i].isNumeric &&
                                   (row == 0 || cell.empty() ||
                                    (cell.size() <= longestNumber &&
                                     std::isdigit(static_cast<unsigned char>(cell.front())) != 0));
        }
    return columns;
}

std::size_t totalWidth(const std::vector<Column>& columns) {
    std::size_t total = gap * (columns.size() - 1);
    for (const Column& column : columns)
        total += column.width;
    return total;
}

/// Narrows the widest column that can be narrowed until all fit. @return whether they fit.
bool narrowed(std::vector<Column>& columns, std::size_t width) {
    while (totalWidth(columns) > width) {
        Column* widest = nullptr;
        for (Column& column : columns)
            if (column.width > column.narrowest &&
                (widest == nullptr || column.width > widest->width))
                widest = &column;
        if (widest == nullptr)
            return false;
        --widest->width;
    }
    return true;
}

void addLine(std::string& text, const std::vector<std::string>& cells,
             const std::vector<Column>& columns) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const std::size_t fill = columns[i].width - characterCount(cells[i]);
        text.append(i == 0 ? 0 : gap, ' ');
        text.append(columns[i].isNumeric ? fill : 0, ' ');
        text += cells[i];
        text.append(columns[i].isNumeric ? 0 : fill, ' ');
    }
    text.erase(text.find_last_not_of(' ') + 1);
    text += '\n';
}

/// A row; some cells may continue in further lines.
std::string linesOfRow(const std::vector<std::string>& cells, const std::vector<Column>& columns) {
    Rows pieces;
    std::size_t most = 1;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        pieces.push_back(linesOf(cells[i], columns[i].width));
        most = std::max(most, pieces.back().size());
    }
    std::string text;
    for (std::size_t number = 0; number < most; ++number) {
        std::vector<std::string> line;
        for (const auto& cell : pieces)
            line.push_back(number < cell.size() ? cell[number] : std::string());
        addLine(text, line, columns);
    }
    return text;
}

/// Every row as lines of "heading: cell".
std::string asRecords(const Rows& rows) {
    std::string text;
    for (std::size_t row = 1; row < rows.size(); ++row) {
        text += row > 1 ? "\n" : "";
        for (std::size_t i = 0; i < rows[row].size(); ++i)
            if (!rows[row][i].empty())
                text += rows.front()[i] + ": " + rows[row][i] + "\n";
    }
    return text;
}

/// Each line of the headings in bold.
std::string headings(const std::string& lines) {
    std::string text;
    for (std::size_t at = 0; at < lines.size();) {
        const std::size_t end = lines.find('\n', at);
        text += heading(std::string_view(lines).substr(at, end - at)) + "\n";
        at = end + 1;
    }
    return text;
}

} // namespace

std::string textTable(Rows rows, std::optional<std::size_t> width) {
    if (rows.empty())
        return {};
    for (auto& row : rows)
        for (std::string& cell : row)
            cell = inOneLine(std::move(cell));
    std::vector<Column> columns = columnsOf(rows, width.has_value());
    if (width && !narrowed(columns, *width))
        return asRecords(rows);
    std::string text = headings(linesOfRow(rows.front(), columns));
    for (std::size_t row = 1; row < rows.size(); ++row)
        text += linesOfRow(rows[row], columns);
    return text;
}

} // namespace swarfbook::cli
