// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/charts.h"
#include "report/elimination_table.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

TEST_CASE("the table has a column for each gear and a row for each part, suspects first") {
    const Elimination e =
        eliminate(workedChart(), slipAndGood({"2", "4"}, {"1", "3"}), benchTests());
    const auto rows = eliminationRows(e);
    using Row = std::vector<std::string>;
    CHECK(rows[0] == Row{"Part", "R", "1", "2", "3", "4", "State"});
    CHECK(rows[1] == Row{"Seen in that gear", "not driven", "good", "slips", "good", "slips", ""});
    CHECK(rows[2] == Row{"clutch X", "", "", "slips", "", "slips", "suspect"});
    for (const auto& row : rows) {
        CHECK(row.size() == rows[0].size());
        CHECK(row[0].find("circuit") == std::string::npos);
    }
    CHECK(rows[3].back() == "cleared, if driven alike");
}

TEST_CASE("every shown part is in the sentences, suspects first, none of them condemned") {
    const Elimination e = eliminate(demoChart(), slipAndGood({"2"}, {"1"}), benchTests());
    const auto sentences = eliminationSentences(e);
    REQUIRE_FALSE(sentences.empty());
    std::string all;
    for (const std::string& sentence : sentences)
        all += sentence + "\n";
    for (const auto& row : eliminationRows(e))
        if (row[0] != "Part" && row[0] != "Seen in that gear") {
            const std::string name = row[0].substr(row[0].find(' ') + 1);
            INFO(row[0] << "\n" << all);
            CHECK(all.find(name) != std::string::npos);
        }
    CHECK(all.find("Solenoid B is bad") == std::string::npos);
    CHECK(all.find("does not condemn it") != std::string::npos);
}
