// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/page_writer.h"
#include "report/report_model.h"

#include <functional>
#include <string>
#include <vector>

namespace swarfbook {

/// Whom a report is for: the customer reads two to three pages, the workshop all of it.
enum class Reader { customer, workshop };

/// The report as a PDF file's bytes: the customer's pages, then for the workshop the evidence.
/// Black on white, readable when printed grey. Its title names vehicle and date, its author is the
/// workshop; it carries no dates of files, camera data or names of this machine. Headings,
/// paragraphs and pictures are tagged for screen readers (ISO 32000-1, 14.8).
///
/// Throws std::runtime_error when a page cannot be drawn. Touches no disk.
/// Checked: tests/report/pdf_report_test.cpp (text, margins, overlaps, metadata).
std::vector<unsigned char> pdfReport(const ReportModel& model, const Paper& paper = a4Paper,
                                     Reader reader = Reader::workshop);

/// The texts on every page and in the file's own data; "" leaves one out.
struct PdfNames {
    std::string header, title = {}, author = {};
    bool bareFirst = false; ///< no header on page one
};

using WritePages = std::function<void(PageWriter&)>;

/// Turns the output of `write` into a PDF. Calls it twice, so that each page knows the number of
/// pages. The PDF holds no data of files or cameras.
std::vector<unsigned char> pdfOfPages(const Paper& paper, const PdfNames& names,
                                      const WritePages& write);

} // namespace swarfbook
