// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/flush_words.h"
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

DebrisFinding trayWith(int pieces) {
    DebrisFinding tray;
    tray.detectionLimit = Millimetres(0.75);
    Particle piece;
    piece.maxFeret = {Millimetres(0.9), Millimetres(0.02)};
    piece.sizeClass = "J"; // ISO 16232: 0.6 to 1 mm
    tray.particles.assign(static_cast<std::size_t>(pieces), piece);
    return tray;
}

struct Pass {
    FlushStep step;
    int pieces;
};

FlushOfPart flushOf(const std::string& part, const std::vector<Pass>& passes, int inCleanTray = 0) {
    std::vector<DebrisFinding> trays;
    for (const Pass& pass : passes)
        trays.push_back(trayWith(pass.pieces));
    std::vector<PassSeen> seen;
    for (std::size_t i = 0; i < passes.size(); ++i)
        seen.push_back({passes[i].step, &trays[i]});
    const DebrisFinding clean = trayWith(inCleanTray);
    return {1, part, true, flushSeries(seen, &clean)};
}

constexpr FlushStep wash = FlushStep::wash, demagnetise = FlushStep::demagnetise;

} // namespace

// The figures are worked out by hand: last over sum; the rule is ISO 16232's, 10 % within six.
TEST_CASE("the verdict of a flush says its figures and the rule") {
    CHECK_THAT(flushVerdictSentence(flushOf("solenoid A", {{wash, 400}, {wash, 20}})),
               Contains("Flush of solenoid A: clean. Pass 2 washed out 5 % (95 %: 3 to 7 %)") &&
                   Contains("10 % or less") && !Contains("make it sure"));
    CHECK_THAT(flushVerdictSentence(flushOf("solenoid A", {{wash, 46}, {wash, 4}})),
               Contains("clean. Pass 2 washed out 8 %") && Contains("One more pass"));
    CHECK_THAT(flushVerdictSentence(flushOf("solenoid A", {{wash, 40}, {wash, 20}})),
               Contains("not clean yet. Pass 2 washed out 33 %") && Contains("Flush on"));
    CHECK_THAT(flushVerdictSentence(flushOf("x", std::vector<Pass>(6, {wash, 10}))),
               Contains("Change the method") && Contains("six passes"));
    CHECK_THAT(
        flushVerdictSentence(flushOf("x", {{wash, 400}, {wash, 20}, {demagnetise, 200}})),
        Contains("not clean any more. Pass 2 had come down to 10 %. Pass 3 washed out 32 %"));
    CHECK_THAT(flushVerdictSentence(flushOf("x", {{wash, 0}})),
               Contains("nothing of 0.75 mm or larger"));
    CHECK_THAT(flushVerdictSentence(flushOf("x", {})), Contains("no pass was photographed"));
}

TEST_CASE("demagnetising is reported with the counts before and after it") {
    CHECK_THAT(demagnetisingSentence(flushOf("x", {{wash, 20}, {demagnetise, 60}})),
               Contains("released more than washing alone had: 60 pieces in pass 2 after 20 in "
                        "pass 1"));
    CHECK_THAT(demagnetisingSentence(flushOf("x", {{wash, 60}, {demagnetise, 20}})),
               Contains("no more than"));
    CHECK_THAT(demagnetisingSentence(flushOf("x", {{wash, 3}, {demagnetise, 4}})),
               Contains("cannot be told"));
    CHECK(demagnetisingSentence(flushOf("x", {{wash, 60}})).empty());
}

// ISO 16232, blank value: at most 10 % in every class.
TEST_CASE("a tray that was not clean is named, and one that was not photographed") {
    CHECK(cleanTraySentence(flushOf("x", {{wash, 40}}, 4)).empty());
    CHECK_THAT(cleanTraySentence(flushOf("x", {{wash, 40}}, 5)),
               Contains("5 pieces in class J, where the first pass has 40"));
    FlushOfPart none = flushOf("x", {{wash, 40}});
    none.trayPhotographed = false;
    CHECK_THAT(cleanTraySentence(none), Contains("was not photographed"));
    CHECK(flushSentences(none).size() == 2);
}

TEST_CASE("a solenoid finds its newest flush by name, however it is written") {
    const std::vector<FlushOfPart> all{flushOf("Solenoid A", {{wash, 9}}),
                                       flushOf("solenoid a", {{wash, 3}}),
                                       flushOf("valve body", {{wash, 1}})};
    CHECK(flushOfSolenoid(all, "A") == &all[1]);
    CHECK(flushOfSolenoid(all, "B") == nullptr);
}

// Source: a solenoid that is as good as its siblings once flushed was dirty and goes back in; what
// is not at its end is flushed on. Common practice, no source.
TEST_CASE("the suggestion says what the flush log of a solenoid shows") {
    const auto solenoid = [](const std::string& name, const std::string& rest) {
        return observed("solenoid", R"({"name": ")" + name + R"(", )" + rest + "}");
    };
    Evidence evidence = evidenceOf({observed("codes", R"({"codes": [], "when": "before"})"),
                                    observed("level", R"({"found": "right"})"),
                                    observed("complaint", R"({"symptom": "flare"})"),
                                    observed("debris", R"({"place": "pan", "what": "clean"})"),
                                    solenoid("A", R"("leak_off": "leaks")"),
                                    solenoid("B", R"("leak_off": "seals")")});
    evidence.now.flushes = {flushOf("solenoid A", {{wash, 40}, {wash, 20}})};
    CHECK_THAT(suggest(evidence, suggestionModel()).nextTest,
               Contains("Flush solenoid A on until it is clean"));
    evidence.now.flushes = {flushOf("solenoid A", std::vector<Pass>(6, {wash, 10}))};
    CHECK_THAT(suggest(evidence, suggestionModel()).nextTest,
               Contains("Flush solenoid A in another way, with a new log, until it is clean"));
    evidence.now.flushes = {flushOf("solenoid A", {{wash, 400}, {wash, 20}})};
    CHECK_THAT(suggest(evidence, suggestionModel()).nextTest,
               Contains("test solenoid A again in the same way"));
    evidence.now.observations.push_back(
        solenoid("A", R"("leak_off": "seals", "siblings": "alike", "flushed": true)"));
    const Suggestion clean = suggest(evidence, suggestionModel());
    CHECK(clean.outcome == Recommendation::cleanAndRefit);
    CHECK(std::any_of(clean.all.begin(), clean.all.end(), [](const Reason& r) {
        return r.rule == "flush_decline" && r.supports &&
               r.sentence.find("washed out 5 %") != std::string::npos;
    }));
}
