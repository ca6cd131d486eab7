// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/judge_visit.h"

#include <string>
#include <vector>

namespace swarfbook {

/// A table of test results, as every kind of report shows it.
struct ReportedTable {
    struct Column {
        std::string key; ///< in the JSON document
        std::string title;
        double share = 1.0; ///< of the width in print
    };
    std::string key, title;
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows; ///< one text a column; "" = not tested
    std::string conditions;                     ///< units, and the uncertainty of the readings
};

/// Tables of solenoids, bores and the time after the repair, with units, conditions and the
/// verdicts of the judgement. Empty tables are left out. Columns that no row fills are left out.
/// Checked: tests/report/bench_tables_test.cpp.
std::vector<ReportedTable> benchTables(const VisitEvidence& visit, const SuggestionModel& model,
                                       const PartVerdicts& parts);

/// Whether one of these tables already shows this observation.
bool isInBenchTables(const Observation& observation);

} // namespace swarfbook
