// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/work_sheet.h"
#include "cli/typed_bench.h"

#include <array>

using namespace swarfbook::test;
using namespace swarfbook;
using Catch::Contains;

namespace {

// How the questions of the sheet begin for the unit Demo 5, from top to bottom.
constexpr std::array sheetOrder{"since the last clean",
                                "first opening",
                                "codes",
                                "how it drives in general",
                                "gear R",
                                "gear 5",
                                "shift 1-2",
                                "shift 4-5",
                                "noise",
                                "level",
                                "fluid's colour",
                                "supply",
                                "cooler line",
                                "pan: what",
                                "magnet: what",
                                "converter drain: what",
                                "rubbed",
                                "filter neck",
                                "all ranges",
                                "solenoid A: ohm",
                                "solenoid line: ohm",
                                "solenoid converter: ohm",
                                "solenoid A: leaks off",
                                "stand: hose open",
                                "bore main regulator",
                                "casting cracked",
                                "air check clutch P",
                                "air check one way clutch W",
                                "cooler passes",
                                "converter drains",
                                "end play",
                                "adaptation"};

ProgramResult walked(const Bench& bench, const std::string& typed) {
    return bench.run({"walk", "--visit", "1"}, typed);
}

/// The questions of a walk, in order.
std::vector<std::string> questionsOf(const std::string& talk) {
    std::vector<std::string> questions;
    std::istringstream in(talk);
    std::string before;
    for (std::string line; std::getline(in, line);) {
        if (line.starts_with("> "))
            questions.push_back(before);
        before = line.starts_with("> ") ? line.substr(2) : line;
    }
    return questions;
}

std::size_t placeOf(const std::vector<std::string>& questions, const std::string& start) {
    for (std::size_t i = 0; i < questions.size(); ++i)
        if (questions[i].starts_with(start))
            return i;
    return questions.size();
}

} // namespace

TEST_CASE("the walk asks the printed sheet's questions in its order, with the unit's own parts") {
    const Bench bench;
    const ProgramResult all = walked(bench, std::string(400, '\n'));
    INFO(all.err);
    REQUIRE(all.exit == 0);
    const auto questions = questionsOf(all.err);
    std::size_t last = 0;
    for (const char* start : sheetOrder) {
        INFO(start);
        const std::size_t place = placeOf(questions, start);
        CHECK(place < questions.size());
        CHECK((place > last || place == 0));
        last = place;
    }
    CHECK(placeOf(questions, "gear 6") == questions.size()); // the unit has five
    CHECK_THAT(all.err, Contains("swarfbook suggest --visit 1"));
}

TEST_CASE("a row skipped in the walk is kept as not inspected, never as good") {
    const Bench bench;
    REQUIRE(walked(bench, std::string(400, '\n')).exit == 0);
    std::istringstream kept(bench.observe(std::vector<std::string>{}).out);
    int count = 0;
    for (std::string line; std::getline(kept, line); ++count) {
        INFO(line);
        CHECK_THAT(line, Contains("visit 1: not inspected: "));
    }
    CHECK(count > 30);
    CHECK(bench.suggestion().at("outcome") == "not enough evidence");
    CHECK(questionsOf(walked(bench, "").err).empty()); // all is answered
}

TEST_CASE("answers of the walk are kept as given") {
    const Bench bench;
    const ProgramResult typed =
        walked(bench, "28,000 miles\ny\n\n\nn\n\n" // past: first opening, cooler not flushed
                      "P0733 P0735\nyes\n\n"       // codes, only hot
                      "shudder\nn\nhot\n60 to 80 km/h\n"
                      "good\nL\n80C\n" // gear R
                      "stop\n");
    INFO(typed.err);
    REQUIRE(typed.exit == 0);
    CHECK_THAT(typed.err, Contains("Stopped at: gear 1") && Contains("swarfbook walk --visit 1"));
    CHECK_THAT(bench.observe(std::vector<std::string>{}).out,
               Contains("28,000 miles (45062 km) since the last") &&
                   Contains("history: first opening, no cooler flush on record") &&
                   Contains("P0735 (ratio") && Contains("only when hot") &&
                   Contains("shudder, hot, goes on at a tap of the brake, 60 to 80 km/h") &&
                   Contains("good in R, load light, 80C"));
}

TEST_CASE("a stopped walk continues where it stopped, also within a row") {
    const Bench bench;
    REQUIRE(walked(bench, "unknown\nskip all\nnone stored\n\n\nskip all\nslip\nF\nstop\n").exit ==
            0);
    CHECK_THAT(bench.observe(std::vector<std::string>{}).out,
               Contains("slip in R, load firm (number") && Contains("gear R from"));
    const ProgramResult goesOn = walked(bench, "80C\nslip\n");
    INFO(goesOn.err);
    const auto questions = questionsOf(goesOn.err);
    REQUIRE(questions.size() >= 2);
    CHECK_THAT(questions[0], Catch::StartsWith("gear R"));
    CHECK_THAT(questions[0], Contains("\u00b0C"));
    CHECK_THAT(questions[1], Catch::StartsWith("gear 1"));
    const std::string kept = bench.observe(std::vector<std::string>{}).out;
    CHECK_THAT(kept, Contains("slip in R, load firm, 80C (number"));
    CHECK_THAT(kept, Contains("slip in 1 (number")); // the walk also stops when the answers end
    const auto last = questionsOf(walked(bench, "").err);
    REQUIRE(last.size() == 1);
    CHECK_THAT(last[0], Catch::StartsWith("gear 1: load"));
}

TEST_CASE(
    "the walk asks again about an answer that it does not understand or that is very unusual") {
    const Bench bench;
    const ProgramResult typed =
        walked(bench, "900000km\nagain\n45000 km\nskip all\nnone stored\n\n\nskip all\nskip "
                      "all\nskip all\nskip all\nlow\n14 l\nwarm\n\n\n\nsure\nstop\n");
    INFO(typed.err);
    // more than the odometer shows, so the row is asked again
    CHECK_THAT(typed.err, Contains("more than the odometer shows") && Contains("cannot be read"));
    CHECK_THAT(bench.observe(std::vector<std::string>{}).out,
               Contains("45000 km since") && Contains("low by 14 l"));
}

TEST_CASE(
    "the walk shows what can be typed on \"?\", and refuses an answer without naming an option") {
    const Bench bench;
    const ProgramResult typed = walked(bench, "?\nunknown\nperhaps\nstop\n");
    INFO(typed.err);
    const std::size_t first = typed.err.find("skip all");
    REQUIRE(first != std::string::npos);
    CHECK(typed.err.find("skip all", first + 1) !=
          std::string::npos); // once at the start, once for "?"
    CHECK_THAT(typed.err,
               Contains("The answer is yes or no, not \"perhaps\".") && !Contains("--first"));
    CHECK_THAT(typed.err, Contains("1 observed, 0 not inspected.\nStopped at: first opening"));
}

TEST_CASE("after the repair the walk asks the sheet's last step") {
    const Bench bench;
    const ProgramResult typed =
        bench.run({"walk", "--visit", "1", "--after-repair"},
                  "\nyes\ndone\nno\n4.5 l\n25C\n\nright\n40C\n\ngood\nF\n\n\n");
    INFO(typed.err);
    CHECK_THAT(bench.observe(std::vector<std::string>{}).out,
               Contains("adaptation done, selector cycled, no leaks seen") &&
                   Contains("filled 4.5 l, at 25C") && Contains("read inside the window") &&
                   Contains("road test: good, load firm"));
}
