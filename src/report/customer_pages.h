// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/page_writer.h"
#include "report/report_model.h"

namespace swarfbook {

/// What the customer reads. Page one: the verdict, the pieces that it rests on, what changed since
/// the last visit, why, and what we suggest. Then: the work in photos, before and now side by side,
/// what waiting risks, what was not looked at, the lines of the quote with the prices left open,
/// and the authorisation. Nothing is left out, however long it is. Checked:
/// tests/report/pdf_report_test.cpp.
void writeCustomerPages(PageWriter& page, const ReportModel& model);

} // namespace swarfbook
