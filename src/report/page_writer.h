// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/drawing.h"

#include <opencv2/core.hpp>

#include <map>
#include <string>
#include <vector>

namespace swarfbook {

/// Points (1/72 inch).
struct Paper {
    double width = 595.276, height = 841.890;
};
inline constexpr Paper a4Paper{595.276, 841.890}; // ISO 216: 210 x 297 mm
inline constexpr Paper letterPaper{612.0, 792.0}; // ANSI/ASME Y14.1: 8.5 x 11 in
inline constexpr double pointsPerMillimetre = 72.0 / 25.4;
inline constexpr double pageMargin = 16.0 * pointsPerMillimetre;

/// Pictures for embedding in a page: JPEG made from the pixels alone. Kept for both passes over the
/// pages, by the address of their pixels.
class PictureStore {
  public:
    cairo_surface_t* surfaceOf(const cv::Mat& bgr);

  private:
    std::map<const unsigned char*, CairoSurface> kept_;
};

/// A table. It stays on one page if it fits on one; a longer table continues on the next page with
/// the titles repeated.
struct TableColumn {
    std::string title;
    double share = 1.0; ///< share of the width, relative to the other columns
    Align align = Align::left;
};
struct Table {
    std::vector<TableColumn> columns;
    std::vector<std::vector<std::string>> rows; ///< one text per column
};

struct PageFrame {
    Paper paper = a4Paper;
    std::string header;     ///< the job, on every page
    int pageCount = 0;      ///< for "page 2 of 7"; 0 while they are being counted
    bool bareFirst = false; ///< page one names the job itself and has no header
};

/// Writes headings, paragraphs, tables and pictures one after the other, page after page. Nothing
/// is drawn outside the margins, and no block of 30 lines is cut. Longer texts continue in further
/// blocks, on the next pages if needed, and nothing of them is left out. Checked:
/// tests/report/long_text_test.cpp.
class PageWriter {
  public:
    PageWriter(cairo_surface_t* pdf, PageFrame frame, PictureStore& pictures);
    PageWriter(const PageWriter&) = delete;
    PageWriter& operator=(const PageWriter&) = delete;

    [[nodiscard]] cairo_t* pen() const { return pen_.get(); }
    [[nodiscard]] double left() const { return pageMargin; }
    [[nodiscard]] double width() const { return frame_.paper.width - 2.0 * pageMargin; }
    [[nodiscard]] double y() const { return y_; }
    [[nodiscard]] double bottom() const;
    /// Height left on this page.
    [[nodiscard]] double room() const { return bottom() - y_; }
    /// Height of an empty page.
    [[nodiscard]] double pageRoom() const;
    [[nodiscard]] int pages() const { return page_; }

    /// A new page unless `height` still fits on this one.
    void need(double height);
    void newPage();
    void gap(double height) { y_ += height; }
    void moveTo(double y) { y_ = y; }

    /// A heading that stays together with at least `with` points of what follows.
    void heading(const std::string& text, double with = 60.0);
    void subheading(const std::string& text, double with = 50.0);
    void paragraph(const std::string& text, const TextStyle& style = {.size = 9.5});
    /// Height of a paragraph and the gap below it, where it stands on one page; 0 for no text.
    [[nodiscard]] double paragraphHeight(const std::string& text,
                                         const TextStyle& style = {.size = 9.5}) const;
    /// Height of a subheading with the gaps round it.
    [[nodiscard]] double subheadingHeight(const std::string& text) const;
    void bullets(const std::vector<std::string>& list, const TextStyle& style = {.size = 9.5});
    void table(const Table& table);
    /// Height of a table that stands on one page.
    [[nodiscard]] double tableHeight(const Table& table) const;
    /// A picture at most `width` points wide and `height` high, in proportion, left at x; gives
    /// the room it took. Does not move down.
    Extent picture(const cv::Mat& bgr, Spot at, Extent most);
    /// Ends the last page.
    void finish();

  private:
    void startPage();
    double rowHeight(const Table& table, const std::vector<std::string>& row, bool title) const;
    void row(const Table& table, const std::vector<std::string>& row, bool title);
    void underline(bool title);
    /// A row in parts that fit on a page, one after the other.
    [[nodiscard]] std::vector<std::vector<std::string>>
    partsOfRow(const Table& table, const std::vector<std::string>& row) const;

    PageFrame frame_;
    PictureStore& pictures_;
    CairoPen pen_;
    double y_ = 0.0;
    int page_ = 0;
};

} // namespace swarfbook
