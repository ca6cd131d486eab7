// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "record/book.h"
#include "unit/application_chart.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

/// Application charts beside a book: typed by the user in its folder units/, or shipped in
/// models/units/. The book's own come first.
/// Checked: tests/record/unit_charts_test.cpp.
namespace swarfbook {

/// Where the charts of a book lie.
std::filesystem::path unitsFolder(const std::filesystem::path& bookFolder);
/// "demo-5.json" for "Demo 5": lower case, with dashes for anything but letters and digits. Throws
/// UsageError for a name without any letter or digit.
std::string chartFileName(const std::string& unit);

/// Where to look, in this order.
struct ChartFolders {
    std::filesystem::path ofBook; ///< unitsFolder(); may be missing
    std::filesystem::path shipped;
};
/// The file of a unit, by its name or its file's name, case ignored; nothing if there is none.
std::optional<std::filesystem::path> findChart(const ChartFolders& folders,
                                               const std::string& unit);
/// All chart files, the book's first; a shipped chart that the book replaces is left out.
std::vector<std::filesystem::path> allCharts(const ChartFolders& folders);

/// The chart of a vehicle's unit, or a sentence that says why there is none. `detail` names the
/// faulty file, for the user alone; no report prints it.
struct UnitAtHand {
    std::optional<ApplicationChart> chart;
    std::string none;
    std::string detail{};
};
UnitAtHand unitAtHand(const ChartFolders& folders, const std::string& unit);

/// The evidence of a visit with the chart of its vehicle's unit, or why there is none.
/// @param models  the folder of models/: charts in units/, times of tests in bench-tests.json.
Evidence evidenceWithUnit(const Book& book, std::int64_t visitId,
                          const std::filesystem::path& models);
/// The same with the chart of a unit named by the user; throws UsageError if there is none.
Evidence evidenceWithUnit(const Book& book, std::int64_t visitId,
                          const std::filesystem::path& models, const std::string& unit);

} // namespace swarfbook
