// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/typed_bench.h"
#include "entry/repair_done.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::cli;
using Catch::Matchers::Contains;

// The lines are as a technician would type them, thought up; common practice, no source.
namespace {

using Texts = std::vector<std::string>;

WorkDone work(const std::string& line) {
    INFO(line);
    return workDone(line, WorkAsked::wholeWork, Sure::ask);
}

std::string asked(const std::string& line) {
    try {
        workDone(line, WorkAsked::wholeWork, Sure::ask);
        return "nothing was asked";
    } catch (const UsageError& question) {
        return question.what();
    }
}

} // namespace

TEST_CASE("parts and what was done to them are read from one line") {
    CHECK(work("filter and neck seal renewed").after.work ==
          Texts{"filter renewed", "neck seal renewed"});
    CHECK(work("renewed filter, seals and O-rings").after.work ==
          Texts{"filter renewed", "seals renewed", "O-rings renewed"});
    CHECK(work("connector cleaned and refitted; wiring strap replaced").after.work ==
          Texts{"connector cleaned and refitted", "wiring strap renewed"});
    CHECK(work("new filter fitted, both magnets wiped, spacers refitted").after.work ==
          Texts{"filter renewed", "both magnets cleaned", "spacers refitted"});
    CHECK(work("solenoids A and B exchanged. Bore 2-3 shift valve sleeved").after.work ==
          Texts{"solenoid A renewed", "solenoid B renewed", "bore 2-3 shift valve sleeved"});
    CHECK(work("accumulators cleaned, oil cooler flushed, pan put back").after.work ==
          Texts{"accumulators cleaned", "oil cooler flushed", "pan refitted"});
}

TEST_CASE("a part that was only cleaned or refitted does not count as repaired") {
    const AfterRepair cleaned = work("solenoid A cleaned and refitted").after;
    CHECK(cleaned.did == "clean and refit");
    CHECK(cleaned.parts.empty());
    const AfterRepair renewed = work("solenoid A renewed, filter renewed").after;
    CHECK(renewed.did == "replace solenoids");
    CHECK(renewed.parts == Texts{"solenoid A", "filter"});
    CHECK(work("connector checked").after.did.empty());
}

TEST_CASE("fluid, level, codes, adaptation and drive go where their own kinds keep them") {
    const WorkDone all =
        work("6,5 l of Demo fluid filled in, level right at 104F, codes cleared, adaptation done, "
             "selector cycled, no leaks, road test 2-3 good hot firm, no codes afterwards");
    REQUIRE(all.others.size() == 4);
    const auto& refill = std::get<Refill>(all.others[0]);
    CHECK(refill.filled->value.value() == Approx(6.5));
    CHECK(refill.fluid == "Demo");
    const auto& level = std::get<LevelCheck>(all.others[1]);
    CHECK(level.found == LevelFound::right);
    CHECK(level.at->value.value() == Approx(40.0));
    const auto& drive = std::get<RoadTest>(all.others[2]);
    CHECK(drive.shift == "2-3");
    CHECK(drive.symptom == Symptom::good);
    CHECK(drive.load == Load::firm);
    CHECK(drive.warmth == Warmth::hot);
    CHECK(std::get<Codes>(all.others[3]).when == CodesWhen::after);
    CHECK(all.after.work == Texts{"codes cleared"});
    CHECK(all.after.adaptation == AdaptationDone::done);
    CHECK(all.after.selectorCycled == true);
    CHECK(all.after.leaks == false);
}

TEST_CASE("words that are not understood, or say that work was not done, are asked about and never "
          "dropped") {
    CHECK_THAT(asked("frobnicator renewed"), Contains("names no part"));
    CHECK_THAT(asked("filter zingly renewed"), Contains("\"zingly\" in \"filter zingly renewed\""));
    CHECK_THAT(asked("filter renewed, seals not renewed"), Contains("was not done"));
    CHECK_THAT(asked("filter should be renewed next time"), Contains("was not done"));
    CHECK_THAT(asked("filter"), Contains("What was done to \"filter\"?"));
    CHECK_THAT(asked("solenoid renewed"), Contains("Which solenoid?"));
    CHECK_THAT(asked("road test"), Contains("How did it drive?"));
    CHECK_THAT(asked("60 l of fluid filled in"), Contains("litres"));
    CHECK_THAT(asked(" , and "), Contains("Say what was done"));
    const WorkDone meant = workDone("frobnicator renewed", WorkAsked::wholeWork, Sure::meant);
    CHECK(meant.after.work == Texts{"frobnicator renewed"});
    CHECK(meant.after.parts.empty());
}

TEST_CASE("lines of work add up in the book, with the unit's own names, and stand in the report") {
    const test::Bench bench;
    REQUIRE(bench.observe("codes P0753").exit == 0);
    REQUIRE(bench.observe("solenoid A --ohm OL").exit == 0);
    const auto first = bench.observe("did \"solenoid a renewed, filter and neck seal renewed\"");
    INFO(first.err);
    REQUIRE(first.exit == 0);
    CHECK_THAT(first.out, Contains("done: solenoid A renewed, filter renewed, neck seal renewed"));
    REQUIRE(bench.observe("did \"6.5 l of fluid filled in, codes cleared, road test good\"").exit ==
            0);
    CHECK(bench.observe("did \"solenoid Z renewed\"").exit == 2);
    const auto text = bench.run({"report", "--visit", "1", "--text"});
    INFO(text.err);
    CHECK_THAT(text.out, Contains("What was done: Solenoid A renewed. Found before: ") &&
                             Contains("Filter renewed. Neck seal renewed. Codes cleared.") &&
                             Contains("6.5 l"));
    const auto said = nlohmann::json::parse(bench.run({"report", "--visit", "1", "--json"}).out);
    CHECK(said.at("work_done").size() == 6);
}

TEST_CASE("work that did not hold counts with every part that was named, in several lines too") {
    const test::Bench bench;
    for (const char* line : {"codes P0753", "complaint fail-safe", "debris pan clean",
                             "solenoid A --ohm OL", "did \"solenoid A renewed\"",
                             "did \"filter renewed\"", "codes P0753 --after", "outcome came-back"})
        REQUIRE(bench.observe(line).exit == 0);
    const std::string why = bench.run({"suggest", "--visit", "1", "--why"}).out;
    CHECK_THAT(why, Contains("solenoid A") && Contains("filter") && Contains("did not cure it"));
}
