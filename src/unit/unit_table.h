// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "unit/application_chart.h"

#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// A chart read from a table, and what had to be assumed, one sentence each.
struct UnitTable {
    ApplicationChart chart;
    std::vector<std::string> assumed;
};

/// Reads an application chart from a table as it is pasted from a sheet: separated by tabs,
/// semicolons or commas, fields in quotes where they hold such (RFC 4180). Its first row names the
/// columns: gear, then "clutch P", "brake X", "one-way W", and "solenoid A" or plain names (a
/// column of states is taken for a solenoid, any other for a clutch). Every further row is a gear;
/// rows that begin with one of the words shown in unitTableHelp() say more of the solenoids or of
/// the unit.
///
/// Throws UsageError naming the line, the column and what to write instead.
/// Checked: tests/unit/unit_table_test.cpp.
UnitTable unitFromTable(const std::string& unit, std::string_view text);

/// The table's form in a few lines, with an example that unitFromTable() reads.
std::string_view unitTableHelp();

} // namespace swarfbook
