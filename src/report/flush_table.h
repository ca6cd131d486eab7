// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "report/page_writer.h"

#include <string>
#include <vector>

namespace swarfbook {

/// From which size up the passes of a flush were counted, and what was left out: one sentence.
std::string flushHead(const FlushOfPart& flush);

/// A line for each pass with a bar of signs as long as its count: "Pass 1, wash: ######## 64
/// pieces, ...". Checked: tests/report/flush_report_test.cpp.
std::vector<std::string> flushBars(const FlushOfPart& flush);

/// A row for each pass: step, pieces, area, largest, types, ratio.
Table flushTable(const FlushOfPart& flush);

} // namespace swarfbook
