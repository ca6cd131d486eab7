// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/page_writer.h"
#include "report/report_model.h"

#include <functional>
#include <vector>

namespace swarfbook {

/// The report as a PDF file's bytes: page one to hand over, then the evidence. Black on white,
/// readable when printed grey. Carries no author, title, dates or camera data; the drawing library
/// leaves its own name as producer, nothing else.
///
/// Throws std::runtime_error when a page cannot be drawn. Touches no disk.
/// Checked: tests/report/pdf_report_test.cpp (text, margins, overlaps, metadata).
std::vector<unsigned char> pdfReport(const ReportModel& model, const Paper& paper = a4Paper);

using WritePages = std::function<void(PageWriter&)>;

/// What `write` writes as a PDF, twice over so that each page knows how many there are. No file's
/// or camera's data is in it.
std::vector<unsigned char> pdfOfPages(const Paper& paper, const std::string& header,
                                      const WritePages& write);

} // namespace swarfbook
