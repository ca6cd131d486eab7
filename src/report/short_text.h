// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/report_model.h"

#include <cstddef>
#include <string>

namespace swarfbook {

/// The most lines that the short text takes.
inline constexpr std::size_t mostShortLines = 15;

/// The report to paste into a quote: plain text of `mostShortLines` lines at most, whatever the
/// visit holds. Items without room are counted ("and 3 more").
/// Checked: tests/report/report_text_test.cpp.
std::string shortReportText(const ReportModel& model);

} // namespace swarfbook
