// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/report_model.h"

#include <string>

namespace swarfbook {

/// The report as plain text (UTF-8, lines not broken) to paste into a quote: job, verdict, reasons,
/// suggestion, results of each sample with intervals, comparison, places not looked at, the next
/// check and the standing line.
/// Checked: tests/report/report_text_test.cpp (approved text of a hand-made model).
std::string reportText(const ReportModel& model);

} // namespace swarfbook
