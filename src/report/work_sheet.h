// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/page_writer.h"

#include <string>
#include <vector>

namespace swarfbook {

/// A sheet to print before the job starts and to fill in by hand at the bench, in the order in
/// which the observations are typed in later.
struct WorkSheetJob {
    std::string workshop, vehicle, unit, date; ///< "" leaves room to write
    std::string visit;                         ///< its number, "" = none yet
    std::vector<std::string> gears;            ///< of the unit; empty = R and 1 to 6
    std::vector<std::string> solenoids, bores; ///< names known beforehand; rows are left for more
};

/// One step: what it is called when it is typed in, and what is to be filled in. In a line "[]" is
/// a box to tick and "_" to "____" is room to write, longer with each stroke.
struct SheetSection {
    std::vector<std::string> kinds; ///< observation kinds it holds, in order
    std::string title;
    std::vector<std::string> lines;
    std::vector<std::string> gridTitles;            ///< "" leaves the grid out
    std::vector<std::vector<std::string>> gridRows; ///< texts that stand already; "[]" a box
    std::vector<std::string> cautions;              ///< that the step needs, not said before
};

/// All steps in order. Each caution stands at the first step that needs it.
/// Checked: tests/cli/work_sheet_test.cpp (order as observe takes them).
std::vector<SheetSection> workSheetSections(const WorkSheetJob& job);

/// The sheet as plain text.
std::string workSheetText(const WorkSheetJob& job);
/// The sheet as a PDF of one or two pages.
/// Checked: tests/report/bench_tables_test.cpp.
std::vector<unsigned char> workSheetPdf(const WorkSheetJob& job, const Paper& paper);

} // namespace swarfbook
