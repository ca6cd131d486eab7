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

/// What stands on every page, and what the file says of itself; "" says nothing.
struct PdfNames {
    std::string header, title = {}, author = {};
};

using WritePages = std::function<void(PageWriter&)>;

/// What `write` writes as a PDF, twice over so that each page knows how many there are. No file's
/// or camera's data is in it.
std::vector<unsigned char> pdfOfPages(const Paper& paper, const PdfNames& names,
                                      const WritePages& write);

} // namespace swarfbook
