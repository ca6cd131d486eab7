// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/elimination.h"

#include <string>
#include <vector>

namespace swarfbook {

/// The elimination as rows of text, gear by part: the titles, what was seen in each gear, then one
/// row a part with its state last. Circuits stand in it only while they are suspect, and what all
/// gears share only when something is known of it.
/// Checked: tests/report/elimination_table_test.cpp.
std::vector<std::vector<std::string>> eliminationRows(const Elimination& elimination);

/// How to read the rows.
std::string eliminationLegend();

/// What a customer may be told, a sentence an entry: suspects first, then what is cleared; the
/// others are named together.
std::vector<std::string> eliminationSentences(const Elimination& elimination);

} // namespace swarfbook
