// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/typed_bench.h"

using namespace swarfbook::test;
using Catch::Contains;

namespace {

std::string allObserved(const Bench& bench) {
    return bench.observe(std::vector<std::string>{}).out;
}

ProgramResult typedAfterObserve(const Bench& bench, const std::string& line) {
    std::vector<std::string> words = wordsOf(line);
    words.insert(words.begin(), "observe");
    return bench.run(words);
}

std::filesystem::path written(const Bench& bench, const std::string& text) {
    const auto file = bench.folder() / "sheet.txt";
    std::ofstream(file) << text;
    return file;
}

} // namespace

TEST_CASE("several observations are typed in one command") {
    const Bench bench;
    const ProgramResult typed = bench.observe(
        "gear 3 slip --load firm and gear 4 good, codes P0733 and P0735 and level low 1.5l");
    INFO(typed.err);
    REQUIRE(typed.exit == 0);
    CHECK_THAT(typed.out, Contains("complaint: slip in 3, load firm (number 1)") &&
                              Contains("complaint: good in 4 (number 2)") &&
                              Contains("P0733 (ratio") && Contains("P0735 (ratio") &&
                              Contains("level: low by 1.5l (number 4)"));
    CHECK(std::count(typed.out.begin(), typed.out.end(), '\n') == 4);
}

TEST_CASE("of several observations none is kept where one is wrong") {
    const Bench bench;
    CHECK(bench.observe("gear 3 slip and gear 9 slip").exit == 2);
    CHECK(bench.observe("gear 3 slip and level sideways").exit == 2);
    CHECK_THAT(allObserved(bench), Contains("nothing observed yet"));
}

TEST_CASE("without a number the newest visit of the vehicle named or last used is meant") {
    const Bench bench;
    REQUIRE(bench.run({"visit", "add", "DEMO-03", "--date", "2025-06-01"}).exit == 0); // 2
    REQUIRE(bench.run({"vehicle", "add", "DEMO-04", "--unit", "Demo 5"}).exit == 0);
    REQUIRE(bench.run({"visit", "add", "DEMO-04", "--date", "2025-05-01"}).exit == 0); // 3
    const ProgramResult last = typedAfterObserve(bench, "codes none");
    CHECK_THAT(last.out, Contains("visit 3: codes"));
    CHECK_THAT(last.err, Contains("visit 3 of DEMO-04 on 2025-05-01") && Contains("last used"));
    const ProgramResult named = typedAfterObserve(bench, "codes none --vehicle DEMO-03");
    CHECK_THAT(named.out, Contains("visit 2: codes"));
    CHECK_THAT(named.err, Contains("visit 2 of DEMO-03 on 2025-06-01"));
    CHECK(typedAfterObserve(bench, "codes none --visit 1 --vehicle DEMO-03").exit == 2);
    CHECK_THAT(typedAfterObserve(bench, "codes none --vehicle DEMO-33").err, Contains("DEMO-03"));
    CHECK(typedAfterObserve(bench, "codes none --visit 1").err.find("newest") == std::string::npos);
}

TEST_CASE("add and report without a number mean the newest visit too, and say which it is") {
    const Bench bench;
    REQUIRE(bench.run({"visit", "add", "DEMO-03", "--date", "2025-06-01"}).exit == 0); // 2
    REQUIRE(bench.run({"vehicle", "add", "DEMO-04", "--unit", "Demo 5"}).exit == 0);
    REQUIRE(bench.run({"visit", "add", "DEMO-04", "--date", "2025-05-01"}).exit == 0); // 3
    for (const char* visit : {"2", "3"}) // else there is nothing to report
        REQUIRE(bench.observe({"codes", "none"}, visit).exit == 0);
    const ProgramResult last = bench.run({"report", "--text"});
    CHECK_THAT(last.err, Contains("visit 3 of DEMO-04 on 2025-05-01") && Contains("last used"));
    CHECK_THAT(last.out, Contains("DEMO-04"));
    const ProgramResult named = bench.run({"report", "--json", "--vehicle", "DEMO-03"});
    CHECK(nlohmann::json::parse(named.out).at("job") ==
          nlohmann::json::parse(bench.run({"report", "--json", "--visit", "2"}).out).at("job"));
    const auto text = written(bench, "no photo").string();
    const ProgramResult added = bench.run({"add", text, "--place", "pan"});
    CHECK(added.exit == 1); // it is no photo
    CHECK_THAT(added.err, Contains("visit 3 of DEMO-04") && Contains("last used"));
    CHECK(bench.run({"add", text, "--place", "pan", "--visit", "1", "--vehicle", "DEMO-03"}).exit ==
          2);
    const ProgramResult sheet = bench.run({"report", "--work-sheet", "--text"});
    CHECK(sheet.exit == 0);
    CHECK_THAT(sheet.out, !Contains("DEMO-0")); // a bare sheet is nobody's
    CHECK_THAT(bench.run({"report", "--work-sheet", "--text", "--vehicle", "DEMO-03"}).out,
               Contains("DEMO-03") && Contains("2025-06-01"));
}

TEST_CASE("a book without a visit says how one is added, whatever the verb") {
    const TemporaryFolder folder;
    for (const char* verb : {"report --text", "suggest", "add photo.jpg --place pan"}) {
        std::vector<std::string> words = wordsOf(verb);
        words.insert(words.end(), {"--book", (folder / "book").string()});
        const ProgramResult said = runWordsHere(words);
        CAPTURE(verb, said.err);
        CHECK(said.exit == 2);
        CHECK_THAT(said.err, Contains("swarfbook visit add") || Contains("swarfbook vehicle add"));
    }
}

TEST_CASE("a file holds one observation a line") {
    const Bench bench;
    const auto file = written(bench, "# typed from the sheet\n\ncodes none stored\n"
                                     "gear 3 slip --load F --at 80C\n"
                                     "fluid --colour \"dark red\" --smell burnt --milky n\n"
                                     "solenoid A --ohm 12,6 --at 176F and solenoid B --ohm 12.4 "
                                     "--at 80C\n");
    const ProgramResult typed = bench.observe({"--file", file.string(), "--by", "R. Demo"});
    INFO(typed.err);
    REQUIRE(typed.exit == 0);
    CHECK_THAT(typed.out, Contains("no codes stored") && Contains("slip in 3, load firm, 80C") &&
                              Contains("dark red, smells burnt, not milky") &&
                              Contains("solenoid: B: 12.4 ohm") && Contains("by R. Demo"));
    CHECK(std::count(typed.out.begin(), typed.out.end(), '\n') == 5);
}

TEST_CASE("every wrong line of a file is named by its number, and nothing is kept") {
    const Bench bench;
    const auto wrong = written(bench, "codes none\ngear 3 wobbles\nlevel low 1l\nfluid --smell \"\n"
                                      "weather fine\ncodes none --visit 2\n");
    const ProgramResult refused = bench.observe({"--file", wrong.string()});
    CHECK(refused.exit == 2);
    CHECK_THAT(refused.err, Contains("Line 2: ") && Contains("Line 4: ") && Contains("Line 5: ") &&
                                Contains("Line 6: ") && !Contains("Line 1: ") &&
                                !Contains("Line 3: "));
    // what only the chart or the visit contradicts is named by its line as well
    const auto unlikely = written(bench, "codes none\ngear 9 slip\n");
    const ProgramResult asked = bench.observe({"--file", unlikely.string()});
    CHECK(asked.exit == 2);
    CHECK_THAT(asked.err, Contains("Line 2: ") && Contains("no gear 9"));
    CHECK_THAT(allObserved(bench), Contains("nothing observed yet"));
    CHECK(bench.observe({"--file", (bench.folder() / "none.txt").string()}).exit == 2);
    CHECK(bench.observe({"--file", written(bench, "# nothing\n").string()}).exit == 2);
    CHECK(bench.observe({"--file", unlikely.string(), "codes", "none"}).exit == 2);
}

TEST_CASE("what is pasted is read as a file is") {
    const Bench bench;
    const ProgramResult typed =
        bench.run({"observe", "--visit", "1", "--file", "-"}, "codes none\n");
    CHECK_THAT(typed.out, Contains("no codes stored"));
}

TEST_CASE("the help of one kind shows that kind alone") {
    const Bench bench;
    const ProgramResult help = bench.run({"observe", "solenoid", "--help"});
    CHECK(help.exit == 0);
    CHECK_THAT(help.out, Contains("solenoid NAME [options]") && Contains("--leak-off") &&
                             !Contains("--vacuum") && !Contains("filter-neck"));
    CHECK_THAT(bench.run({"observe", "gear", "--help"}).out,
               Contains("no-drive") && Contains("--load") && !Contains("--shift"));
}

TEST_CASE("a caution is said once in a visit, whatever kind calls for it") {
    const Bench bench;
    const auto count = [](const std::string& text) {
        int times = 0;
        for (std::size_t at = text.find("fluid burns"); at != std::string::npos;
             at = text.find("fluid burns", at + 1))
            ++times;
        return times;
    };
    CHECK(count(bench.observe("level right and fluid --milky no and refill 4l").err) == 1);
    CHECK(count(bench.observe("level-check right --at 40C").err) == 0);
}

TEST_CASE("a leak's amount is shown beside those of the other solenoids") {
    const Bench bench;
    REQUIRE(bench.observe("solenoid B --leak-off 3ml/min").exit == 0);
    CHECK_THAT(bench.observe("solenoid A --leak-off 12ml/min").err,
               Contains("solenoid A passes 12 ml/min when off; beside it: B 3 ml/min"));
}

TEST_CASE("distances and dates are taken as people write them") {
    const Bench bench;
    const auto visit = [&](const std::vector<std::string>& words) {
        std::vector<std::string> all{"visit", "add", "DEMO-03"};
        all.insert(all.end(), words.begin(), words.end());
        return bench.run(all);
    };
    CHECK_THAT(visit({"--date", "12.05.2025", "--odometer", "125 500 km"}).out,
               Contains("on 2025-05-12 at 125,500 km"));
    // 1 mile = 1.609344 km: 80000 miles are 128747.52 km
    CHECK_THAT(visit({"--date", "2025-06-12", "--odometer", "80000mi"}).out,
               Contains("at 128,748 km"));
    CHECK_THAT(visit({"--date", "2025-07-12", "--odometer", "129,500"}).out,
               Contains("at 129,500 km"));
    CHECK_THAT(visit({"--date", "2025-08-12", "--odometer", "130.500 km"}).err,
               Contains("two ways"));
    CHECK_THAT(visit({"--date", "2025-04-12", "--odometer", "75000mi", "--earlier"}).out,
               Contains("at 120,701 km")); // 75000 x 1.609344
    CHECK_THAT(visit({"--date", "05/06/2025"}).err, Contains("2025-05-06"));
    CHECK(visit({"--date", "yesterday"}).exit == 0);
}

// What a technician types who has not read the help; common practice, no source.
TEST_CASE("a kind in the singular is understood, an unknown word is answered with what was meant") {
    const test::Bench bench;
    const auto code = bench.observe("code P0741");
    INFO(code.err);
    CHECK(code.exit == 0);
    CHECK_THAT(code.out, Contains("P0741"));
    CHECK_THAT(bench.observe("gear 3 slip and DTC P0733").out,
               Contains("slip in 3") && Contains("P0733"));
    CHECK_THAT(bench.run({"observe", "code", "--help"}).out,
               Contains("usage: swarfbook observe [--visit N] codes"));
    const auto near = bench.observe("cods P0741");
    CHECK(near.exit == 2);
    CHECK_THAT(near.err, Contains("Did you mean codes"));
    CHECK_THAT(bench.observe("P0741").err, Contains("swarfbook observe codes P0741"));
    CHECK_THAT(bench.run({"mesure"}).err, Contains("Did you mean measure?"));
    // Parts in the plural stay parts of a line of work.
    CHECK_THAT(bench.observe("did filter renewed , solenoids A and B renewed").out,
               Contains("filter renewed, solenoid A renewed, solenoid B renewed"));
}
