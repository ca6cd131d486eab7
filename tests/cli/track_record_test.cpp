// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/typed_bench.h"

using namespace swarfbook::test;
using Catch::Contains;
using nlohmann::json;

namespace {

/// A visit with an open coil and its outcome.
void addCase(const Bench& bench, int visit, const std::string& outcome) {
    const std::string number = std::to_string(visit);
    if (visit > 1)
        REQUIRE(bench
                    .run({"visit", "add", "DEMO-03", "--date",
                          "2025-04-" + std::string(visit < 10 ? "0" : "") + number, "--odometer",
                          std::to_string(120500 + 100 * visit)})
                    .exit == 0);
    for (const char* line : {"codes P0753", "complaint fail-safe", "debris pan film",
                             "debris filter clean", "solenoid A --ohm open"})
        REQUIRE(bench.observe(wordsOf(line), number).exit == 0);
    if (!outcome.empty())
        REQUIRE(bench.observe(wordsOf(outcome), number).exit == 0);
}

} // namespace

TEST_CASE("a book learns how often a suggestion held, and never from fewer than five cases") {
    const Bench bench;
    CHECK_THAT(bench.run({"track-record"}).out,
               Contains("No visit in this book has an outcome yet"));
    for (int visit = 1; visit <= 4; ++visit)
        addCase(bench, visit, "outcome fixed");
    CHECK_THAT(bench.run({"track-record"}).out,
               Contains("no success rate yet: 4 of the 5 finished jobs that it takes"));
    addCase(bench, 5, "outcome came-back");
    addCase(bench, 6, "outcome not-known");
    addCase(bench, 7, "outcome fixed --did \"repair bores\"");
    // Wilson, 4 of 5: 0.3755 to 0.9638 (formula of Wilson 1927, computed separately)
    CHECK_THAT(bench.run({"track-record"}).out,
               Contains("held in 4 of 5 cases (95 %: 38 to 96 %)") &&
                   Contains("outcome not known: 1") && Contains("something else was done: 1"));
    const json rows = json::parse(bench.run({"track-record", "--json"}).out).at("rows");
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].at("pattern") == "electrical code, shifts badly, fines");
    CHECK(rows[1].at("pattern").is_null());
    CHECK(rows[1].at("share_95")[0].get<double>() == Approx(0.3755).margin(0.0001));
    addCase(bench, 8, "");
    const json s = bench.suggestion("8");
    CHECK(s.at("outcome") == "replace solenoids");
    CHECK_THAT(s.at("learned")[0].get<std::string>(), Contains("held in 4 of 5 cases"));
}
