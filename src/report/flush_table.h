// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "report/page_writer.h"

#include <string>
#include <vector>

namespace swarfbook {

/// The size limit from which the passes of a flush were counted, and what was left out: one
/// sentence.
std::string flushHead(const FlushOfPart& flush);

/// A pass of a flush in words, and how long its bar is.
struct PassInWords {
    std::string pass;    ///< "Pass 1, wash"
    std::string found;   ///< "64 pieces, ...", "not counted"
    double ofMost = 0.0; ///< its count as a share of the largest one, 0 to 1
};
std::vector<PassInWords> passesInWords(const FlushOfPart& flush);

/// A line for each pass with a bar of signs as long as its count: "Pass 1, wash: ######## 64
/// pieces, ...". Checked: tests/report/flush_report_test.cpp.
std::vector<std::string> flushBars(const FlushOfPart& flush);

/// A row for each pass: step, pieces, area, largest, types, ratio.
Table flushTable(const FlushOfPart& flush);

} // namespace swarfbook
