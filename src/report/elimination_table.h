// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/elimination.h"

#include <string>
#include <vector>

namespace swarfbook {

/// The elimination as rows of text, gear by part: the titles, what was seen in each gear, then one
/// row per part with its state last. Circuits are listed only while they are suspect, and parts
/// that all gears share only if something is known of them.
/// Checked: tests/report/elimination_table_test.cpp.
std::vector<std::vector<std::string>> eliminationRows(const Elimination& elimination);

/// How to read the rows.
std::string eliminationLegend();

/// Sentences for the customer, one per entry: suspects first, then cleared parts; the others are
/// named together.
std::vector<std::string> eliminationSentences(const Elimination& elimination);

} // namespace swarfbook
