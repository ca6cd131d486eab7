// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/page_writer.h"

#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace swarfbook {
namespace {

constexpr double headerSize = 7.5;
constexpr double bandHeight = 16.0; // of the header and of the footer
constexpr double pageTop = pageMargin + bandHeight + 6.0;
constexpr double cellPad = 2.5;
constexpr double tableText = 8.5, titleText = 7.6;

struct Stroke {
    double thickness = 0.5;
    Ink ink;
};

/// As long as it lives, marks everything drawn as a part of the document, for screen readers.
class Tagged {
  public:
    Tagged(cairo_t* pen, const char* tag) : pen_(pen), tag_(tag) {
        cairo_tag_begin(pen_, tag_, nullptr);
    }
    ~Tagged() { cairo_tag_end(pen_, tag_); }
    Tagged(const Tagged&) = delete;
    Tagged& operator=(const Tagged&) = delete;

  private:
    cairo_t* pen_;
    const char* tag_;
};

void line(cairo_t* pen, Spot from, double width, const Stroke& stroke) {
    setInk(pen, stroke.ink);
    cairo_set_line_width(pen, stroke.thickness);
    cairo_move_to(pen, from.x, from.y);
    cairo_line_to(pen, from.x + width, from.y);
    cairo_stroke(pen);
}

std::vector<std::string> titlesOf(const Table& table) {
    std::vector<std::string> titles;
    for (const TableColumn& column : table.columns)
        titles.push_back(column.title);
    return titles;
}

double shareSum(const Table& table) {
    return std::accumulate(table.columns.begin(), table.columns.end(), 0.0,
                           [](double sum, const TableColumn& c) { return sum + c.share; });
}

/// A text in blocks that fit on a page, each of some 30 lines at most: cut at its own line breaks,
/// at blanks, and inside a word only if the word alone is longer.
std::vector<std::string> blocksOf(const std::string& text, const TextStyle& style) {
    constexpr std::size_t mostLines = 30;
    // A letter of DejaVu Sans is on average 0.6 of its size wide, and hardly ever twice that.
    const auto perLine = static_cast<std::size_t>(std::max(1.0, style.width / (0.6 * style.size)));
    std::vector<std::string> blocks{""};
    std::size_t lines = 0, start = 0;
    while (start <= text.size()) {
        const std::size_t end = std::min(text.find('\n', start), text.size());
        for (const std::string& piece :
             piecesOf(std::string_view(text).substr(start, end - start), perLine * mostLines)) {
            const std::size_t taken = 1 + characterCount(piece) / perLine;
            if (lines > 0 && lines + taken > mostLines) {
                blocks.emplace_back();
                lines = 0;
            }
            blocks.back() += (lines > 0 ? "\n" : "") + piece;
            lines += taken;
        }
        start = end + 1;
    }
    return blocks;
}

} // namespace

PageWriter::PageWriter(cairo_surface_t* pdf, PageFrame frame, PictureStore& pictures)
    : frame_(std::move(frame)), pictures_(pictures), pen_(cairo_create(pdf)) {
    startPage();
}

double PageWriter::bottom() const {
    return frame_.paper.height - pageMargin - bandHeight;
}

void PageWriter::startPage() {
    ++page_;
    const TextStyle style{.size = headerSize, .ink = grey(0.25), .width = width(), .maxLines = 1};
    const bool bare = page_ == 1 && frame_.bareFirst;
    if (!bare) {
        drawText(pen(), {left(), pageMargin}, frame_.header, style);
        line(pen(), {left(), pageMargin + 12.0}, width(), {0.5, grey(0.6)});
    }
    const double foot = frame_.paper.height - pageMargin - headerSize * 1.2;
    line(pen(), {left(), foot - 4.0}, width(), {0.5, grey(0.6)});
    TextStyle right = style;
    right.align = Align::right;
    drawText(pen(), {left(), foot},
             frame_.pageCount > 0 ? fmt::format("Page {} of {}", page_, frame_.pageCount)
                                  : fmt::format("Page {}", page_),
             right);
    y_ = bare ? pageMargin : pageTop;
}

void PageWriter::newPage() {
    cairo_show_page(pen());
    startPage();
}

double PageWriter::pageRoom() const {
    return bottom() - pageTop;
}

void PageWriter::need(double height) {
    if (y_ + height > bottom() && y_ > pageTop)
        newPage();
}

void PageWriter::heading(const std::string& text, double with) {
    const TextStyle style{.size = 13.0, .bold = true, .width = width()};
    const double height = textExtent(pen(), text, style).height;
    need(height + 14.0 + with);
    y_ += 6.0;
    {
        const Tagged tagged(pen(), "H1");
        drawText(pen(), {left(), y_}, text, style);
    }
    y_ += height + 2.0;
    line(pen(), {left(), y_}, width(), {0.8, black});
    y_ += 6.0;
}

void PageWriter::subheading(const std::string& text, double with) {
    const TextStyle style{.size = 10.5, .bold = true, .width = width()};
    const double height = textExtent(pen(), text, style).height;
    need(height + 6.0 + with);
    y_ += 4.0;
    const Tagged tagged(pen(), "H2");
    drawText(pen(), {left(), y_}, text, style);
    y_ += height + 2.0;
}

void PageWriter::paragraph(const std::string& text, const TextStyle& style) {
    if (text.empty())
        return;
    TextStyle wide = style;
    wide.width = width();
    for (const std::string& block : blocksOf(text, wide)) {
        const double height = textExtent(pen(), block, wide).height;
        need(height);
        const Tagged tagged(pen(), "P");
        drawText(pen(), {left(), y_}, block, wide);
        y_ += height;
    }
    y_ += 3.0;
}

void PageWriter::bullets(const std::vector<std::string>& list, const TextStyle& style) {
    const double indent = 1.1 * style.size;
    TextStyle wide = style;
    wide.width = width() - indent;
    for (const std::string& text : list) {
        bool first = true;
        for (const std::string& block : blocksOf(text, wide)) {
            const double height = textExtent(pen(), block, wide).height;
            need(height);
            const Tagged tagged(pen(), "P");
            if (std::exchange(first, false))
                drawText(pen(), {left(), y_}, "\u2022", {.size = style.size});
            drawText(pen(), {left() + indent, y_}, block, wide);
            y_ += height;
        }
        y_ += 2.0;
    }
    y_ += 2.0;
}

double PageWriter::rowHeight(const Table& table, const std::vector<std::string>& row,
                             bool title) const {
    const double unit = width() / shareSum(table);
    double height = 0.0;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const TextStyle style{.size = title ? titleText : tableText,
                              .bold = title,
                              .width = table.columns[i].share * unit - 2.0 * cellPad};
        height = std::max(height, textExtent(pen(), row.at(i), style).height);
    }
    return height + 2.0 * cellPad;
}

void PageWriter::row(const Table& table, const std::vector<std::string>& row, bool title) {
    const double unit = width() / shareSum(table), height = rowHeight(table, row, title);
    double x = left();
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const double cell = table.columns[i].share * unit;
        const TextStyle style{.size = title ? titleText : tableText,
                              .bold = title,
                              .align = table.columns[i].align,
                              .width = cell - 2.0 * cellPad};
        drawText(pen(), {x + cellPad, y_ + cellPad}, row.at(i), style);
        x += cell;
    }
    y_ += height;
}

void PageWriter::underline(bool title) {
    line(pen(), {left(), y_}, width(), title ? Stroke{0.8, black} : Stroke{0.3, grey(0.6)});
}

std::vector<std::vector<std::string>>
PageWriter::partsOfRow(const Table& table, const std::vector<std::string>& row) const {
    const double unit = width() / shareSum(table);
    std::vector<std::vector<std::string>> parts(1, std::vector<std::string>(row.size()));
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const TextStyle style{.size = tableText,
                              .width = table.columns[i].share * unit - 2.0 * cellPad};
        const std::vector<std::string> blocks = blocksOf(row.at(i), style);
        while (parts.size() < blocks.size())
            parts.emplace_back(row.size());
        for (std::size_t k = 0; k < blocks.size(); ++k)
            parts[k][i] = blocks[k];
    }
    return parts;
}

double PageWriter::tableHeight(const Table& table) const {
    double height = rowHeight(table, titlesOf(table), true);
    for (const std::vector<std::string>& cells : table.rows)
        height += rowHeight(table, cells, false);
    return height + 6.0;
}

void PageWriter::table(const Table& table) {
    const std::vector<std::string> titles = titlesOf(table);
    const double titleHeight = rowHeight(table, titles, true);
    if (const double all = tableHeight(table); all <= pageRoom())
        need(all);
    bool titled = false;
    for (const std::vector<std::string>& cells : table.rows) {
        for (const std::vector<std::string>& part : partsOfRow(table, cells)) {
            const int before = page_;
            need(rowHeight(table, part, false) + (titled ? 0.0 : titleHeight));
            if (!titled || page_ != before) {
                row(table, titles, true);
                underline(true);
            }
            titled = true;
            row(table, part, false);
        }
        underline(false);
    }
    y_ += 6.0;
}

Extent PageWriter::picture(const cv::Mat& bgr, Spot at, Extent most) {
    const double scale = std::min(most.width / bgr.cols, most.height / bgr.rows);
    const Tagged tagged(pen(), "Figure");
    cairo_save(pen());
    cairo_translate(pen(), at.x, at.y);
    cairo_scale(pen(), scale, scale);
    cairo_set_source_surface(pen(), pictures_.surfaceOf(bgr), 0.0, 0.0);
    cairo_paint(pen());
    cairo_restore(pen());
    return {bgr.cols * scale, bgr.rows * scale};
}

// NOLINTNEXTLINE(readability-make-member-function-const): it ends the page
void PageWriter::finish() {
    cairo_show_page(pen());
}

} // namespace swarfbook
