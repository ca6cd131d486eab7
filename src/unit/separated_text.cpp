// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/separated_text.h"

#include "base/errors.h"
#include "base/text.h"
#include "unit/chart_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

char separatorOf(std::string_view text) {
    const std::string_view first = text.substr(0, text.find('\n'));
    for (const char candidate : {'\t', ';'})
        if (first.find(candidate) != std::string_view::npos)
            return candidate;
    return ',';
}

class Splitter {
  public:
    explicit Splitter(std::string_view text) : text_(text) {
        result_.separator = separatorOf(text);
    }

    SeparatedText split() {
        for (at_ = 0; at_ < text_.size(); ++at_)
            take(text_[at_]);
        if (quoted_)
            throw UsageError(
                fmt::format("Line {}: a quote that begins there does not end.", quoteLine_));
        endRow();
        return std::move(result_);
    }

  private:
    void take(char c) {
        if (c == '\n')
            ++line_;
        if (quoted_)
            return takeQuoted(c);
        if (c == '"' && trimmed(cell_).empty()) {
            cell_.clear();
            quoted_ = true;
            quoteLine_ = line_;
        } else if (c == result_.separator) {
            endCell();
        } else if (c == '\n') {
            endRow();
        } else {
            cell_ += c;
        }
    }

    void takeQuoted(char c) {
        if (c != '"') {
            cell_ += c;
        } else if (at_ + 1 < text_.size() && text_[at_ + 1] == '"') {
            cell_ += c;
            ++at_;
        } else {
            quoted_ = false;
        }
    }

    void endCell() {
        row_.cells.push_back(trimmed(cell_));
        cell_.clear();
    }

    void endRow() {
        endCell();
        const bool empty = std::all_of(row_.cells.begin(), row_.cells.end(),
                                       [](const std::string& cell) { return cell.empty(); });
        if (!empty) {
            row_.line = rowsLine_;
            result_.rows.push_back(std::move(row_));
        }
        row_ = {};
        rowsLine_ = line_;
    }

    std::string_view text_;
    SeparatedText result_;
    SeparatedText::Row row_;
    std::string cell_;
    bool quoted_ = false;
    std::size_t at_ = 0;
    int line_ = 1, rowsLine_ = 1, quoteLine_ = 1;
};

} // namespace

SeparatedText separatedText(std::string_view text) {
    if (text.starts_with("\xEF\xBB\xBF"))
        text.remove_prefix(3);
    return Splitter(text).split();
}

} // namespace swarfbook
