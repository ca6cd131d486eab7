// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/work_sheet.h"
#include "report/page_writer.h"

#include <vector>

namespace swarfbook {

/// The work sheet as a PDF: two pages for a unit of six gears, a third where the unit has more rows
/// than fit. No title is cut, and no line is separated from its step.
/// Checked: tests/report/work_sheet_pdf_test.cpp.
std::vector<unsigned char> workSheetPdf(const WorkSheetJob& job, const Paper& paper);

} // namespace swarfbook
