// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/bench_tables.h"
#include "report/pdf_reader.h"
#include "report/pdf_report.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

SuggestionModel model() {
    return loadSuggestionModel(SWARFBOOK_SOURCE_DIR "/models/suggestion.json");
}

Observation observed(const char* kind, const char* json) {
    return observationFromJson(kind, nlohmann::json::parse(json));
}

std::string cell(const ReportedTable& table, const char* key, std::size_t row = 0) {
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (table.columns[i].key == key)
            return table.rows.at(row).at(i);
    return "no such column";
}

PartVerdicts verdicts(const VisitEvidence& visit) {
    Evidence evidence;
    evidence.now = visit;
    return partVerdicts(evidence, model());
}

} // namespace

TEST_CASE("the solenoid table shows each reading with temperature, limit and verdict") {
    VisitEvidence visit;
    visit.observations = {
        observed("solenoid", R"({"name": "A", "ohm": {"value": 12.6, "typed": "12.6 ohm"},
                 "at_c": {"value": 80, "typed": "176F"}, "leak_off": "seals"})")};
    const auto tables = benchTables(visit, model(), verdicts(visit));
    REQUIRE(tables.size() == 1);
    CHECK(cell(tables[0], "resistance") == "12.6 ohm at 176F (80 C)");
    // 12.6 ohm at 80 C are 10.1958 ohm at 20 C (copper, 0.00393 per kelvin); 0.2 ohm are 0.16
    CHECK(cell(tables[0], "at_20_c") == "10.2\u00a0\u00b1\u00a00.2");
    CHECK(cell(tables[0], "leak_off_on") == "seals / -");
    CHECK(cell(tables[0], "hot") == "no such column"); // nothing was tested hot
    CHECK_THAT(tables[0].conditions, Catch::Contains("0.2 ohm") && Catch::Contains("0.00393"));
}

TEST_CASE("the bore table shows typed and converted vacuum, the stand and the repair") {
    VisitEvidence visit;
    visit.observations = {
        observed("bore", R"({"name": "stand", "open_kpa": {"value": 0, "typed": "0 inHg"},
                 "blocked_kpa": {"value": 84.66, "typed": "25 inHg"}})"),
        observed("bore", R"({"name": "X", "vacuum_kpa": {"value": 42.33, "typed": "12.5 inHg"},
                 "repaired_kpa": {"value": 71.1, "typed": "21 inHg"}})")};
    const auto tables = benchTables(visit, model(), verdicts(visit));
    REQUIRE(tables.size() == 1);
    CHECK(cell(tables[0], "vacuum", 1) == "12.5 inHg (42.3 kPa), 50 % of the stand's reach");
    CHECK(cell(tables[0], "repaired", 1) == "21 inHg (71.1 kPa)");
    CHECK_THAT(cell(tables[0], "verdict", 1), Catch::Contains("leaking"));
    CHECK_THAT(tables[0].conditions, Catch::Contains("1 inHg (3.4 kPa)"));
}

TEST_CASE("the entries after the repair are in their own table and nowhere else") {
    VisitEvidence visit;
    visit.observations = {observed("refill", R"({"filled_l": {"value": 4.5, "typed": "4.5 l"}})"),
                          observed("codes", R"({"codes": [], "when": "after"})"),
                          observed("codes", R"({"codes": ["P0733"], "when": "before"})"),
                          observed("outcome", R"({"held": "fixed"})")};
    const auto tables = benchTables(visit, model(), verdicts(visit));
    REQUIRE(tables.size() == 1);
    CHECK(tables[0].key == "after_repair");
    REQUIRE(tables[0].rows.size() == 3);
    CHECK(tables[0].rows[1][0] == "Codes again");
    CHECK_FALSE(isInBenchTables(visit.observations[2]));
    CHECK(isInBenchTables(visit.observations[3]));
    CHECK(benchTables({}, model(), {}).empty());
}
