// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/reason_sources.h"
#include "judgement/sensitivity.h"
#include "scenario.h"

#include <catch2/catch.hpp>

#include <set>
#include <tuple>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

bool anySays(const std::vector<DecisiveChange>& turns, const std::string& text) {
    return std::any_of(turns.begin(), turns.end(), [&](const DecisiveChange& turn) {
        return (turn.observation + ": " + turn.headline).find(text) != std::string::npos;
    });
}

std::vector<Scenario> allScenarios() {
    std::vector<Scenario> all;
    for (const auto& entry : fs::directory_iterator(scenarioFolder()))
        all.push_back(readScenario(entry.path()));
    return all;
}

} // namespace

// Brute force: the suggestion for the changed evidence is worked out without the code that lists
// the changes.
TEST_CASE(
    "every change that is named is real, and no tried one that turns the suggestion is left out") {
    for (const Scenario& one : allScenarios()) {
        INFO(one.file);
        const Suggestion s = suggestWithTurns(one.evidence, suggestionModel());
        std::size_t turning = 0;
        std::vector<Counterfactual> flips =
            counterfactuals(one.evidence.now.observations, suggestionModel());
        const Facts facts = factsOf(one.evidence, suggestionModel());
        for (const Counterfactual& flip :
             untestedBothWays(one.evidence.now.observations, facts, suggestionModel()))
            flips.push_back(flip);
        for (const Counterfactual& flip : flips) {
            const Suggestion then =
                suggest(evidenceOf(observationsWith(one.evidence.now.observations, flip)),
                        suggestionModel());
            const bool named =
                std::any_of(s.turns.begin(), s.turns.end(), [&](const DecisiveChange& t) {
                    return t.observation == flip.label && t.outcome == then.outcome;
                });
            if (then.outcome != s.outcome) {
                INFO(flip.label);
                CHECK(named);
                ++turning;
            }
        }
        CHECK(s.turns.size() >= turning);
        CHECK(s.outcome == suggest(one.evidence, suggestionModel()).outcome);
    }
}

TEST_CASE("the contrast pairs name the very fact in which they differ") {
    const auto turnsOf = [](const char* number) {
        return suggestWithTurns(scenario(number).evidence, suggestionModel()).turns;
    };
    CHECK(anySays(turnsOf("04"), "coil measures right (recorded: open): Outside the transmission"));
    CHECK(anySays(turnsOf("15"), "the fault stays at the exchange (recorded: moves)"));
    CHECK(turnsOf("11").empty()); // chips at three places: no single one of them decides
    CHECK(anySays(turnsOf("07"), "level right (recorded: low)"));
    CHECK(anySays(turnsOf("01"), "finger test: pieces are felt"));
}

TEST_CASE("the cheapest observation that would change it stands first") {
    for (const Scenario& one : allScenarios()) {
        INFO(one.file);
        std::tuple<bool, bool, double> before{};
        for (const DecisiveChange& turn : suggestWithTurns(one.evidence, suggestionModel()).turns) {
            const std::tuple now(turn.unexpected, !turn.reachable, turn.minutes);
            CHECK(now >= before);
            before = now;
        }
    }
}

TEST_CASE("no change is named twice") {
    for (const Scenario& one : allScenarios()) {
        INFO(one.file);
        std::set<std::string> named;
        for (const DecisiveChange& turn : suggestWithTurns(one.evidence, suggestionModel()).turns)
            CHECK(named.insert(turn.observation + turn.headline).second);
    }
}

TEST_CASE("a test that is not possible yet is not offered") {
    for (const DecisiveChange& turn :
         suggestWithTurns(
             evidenceOf({observed("codes", R"({"codes": ["P0753"], "when": "before"})")}),
             suggestionModel())
             .turns)
        for (const char* behindThePan : {"magnet under", "finger", "squeezed", "air check", "bore",
                                         "converter", "its own pins", "filter neck"})
            CHECK(turn.observation.find(behindThePan) == std::string::npos);
}

// Source: common practice, no source: with the pan off nothing is driven, and the fluid has run
// out.
TEST_CASE("with the pan off neither a drive nor a level check is offered") {
    const std::vector<Observation> panOff{
        observed("codes", R"({"codes": [], "when": "before"})"),
        observed("complaint", R"({"symptom": "good"})"), observed("level", R"({"found": "right"})"),
        observed("debris", R"({"place": "pan", "what": "film"})")};
    const auto turns = suggestWithTurns(evidenceOf(panOff), suggestionModel()).turns;
    CHECK(anySays(turns, "finger test: pieces are felt"));
    CHECK(anySays(turns, "level low (recorded: right)"));
    for (const DecisiveChange& turn : turns) {
        INFO(turn.observation);
        for (const char* running : {"noise:", "road test", "pressure:", "squeezed"})
            CHECK(turn.observation.find(running) == std::string::npos);
        const bool asItCame =
            turn.observation.starts_with("level") || turn.observation.starts_with("driving");
        CHECK(turn.reachable != asItCame);
    }
}

TEST_CASE("after a repair no test behind the pan is offered") {
    const auto turns =
        suggestWithTurns(evidenceOf({observed("codes", R"({"codes": [], "when": "before"})"),
                                     observed("debris", R"({"place": "pan", "what": "film"})"),
                                     observed("after-repair", R"({"did": "clean and refit"})")}),
                         suggestionModel())
            .turns;
    for (const DecisiveChange& turn : turns) {
        INFO(turn.observation);
        const bool behindThePan = turn.observation.find("finger") != std::string::npos ||
                                  turn.observation.find("air check") != std::string::npos;
        CHECK_FALSE(behindThePan);
    }
    CHECK(anySays(turns, "noise: a whine"));
}

TEST_CASE("a reading near a limit is called borderline, one far from it is not") {
    Evidence evidence = scenario("16").evidence;
    const auto bordersAt = [&](const char* vacuum) {
        for (Observation& observation : evidence.now.observations)
            if (auto* bore = std::get_if<BoreReadings>(&observation))
                bore->vacuum = parseVacuum(vacuum);
        return suggestWithTurns(evidence, suggestionModel()).nearBorders;
    };
    CHECK(bordersAt("11inHg").empty());
    const auto borders = bordersAt("17.5inHg"); // the limit for a pass is 18 inHg
    CHECK(anySays(borders, "reads 17.5inHg, which may be 1.0 inHg (3.4 kPa) off; were it higher"));
}

TEST_CASE("a count whose interval holds the limit of plenty turns the suggestion and is called "
          "borderline") {
    Evidence evidence = evidenceOf({observed("codes", R"({"codes": [], "when": "before"})"),
                                    observed("noise", R"({"noise": "whine"})")});
    DebrisSample sample;
    sample.place = Place::pan;
    sample.finding.emplace();
    sample.finding->detectionLimit = Millimetres(0.2);
    const auto fill = [&](int count) {
        sample.finding->particles.clear();
        for (int i = 0; i < count; ++i) {
            Particle p;
            p.maxFeret = {Millimetres(0.35), Millimetres(0.02)};
            p.type = ParticleType::brightMetal;
            p.typeProbability = 0.95;
            p.ferrous = Ferrous::no;
            sample.finding->particles.push_back(p);
        }
        evidence.now.samples = {sample};
        return suggestWithTurns(evidence, suggestionModel());
    };
    // exact Poisson 95 % of 8: 3.45 to 15.76 holds the limit of 10; of 30: 20.2 to 42.8 does not
    CHECK(anySays(fill(8).nearBorders, "upper end of the counts' 95 % limits"));
    CHECK_FALSE(anySays(fill(30).nearBorders, "counts"));
}

TEST_CASE("with very many observations the newest hundred are tried the other way") {
    std::vector<Observation> many;
    for (int i = 0; i < 3000; ++i) {
        SolenoidReadings reading;
        reading.name = std::to_string(i);
        reading.resistance = Typed<Ohms>{Ohms(12.6), "12.6 ohm"};
        reading.swap = SwapResult::moves;
        many.emplace_back(reading);
    }
    for (const auto& flips : {counterfactuals(many, suggestionModel()),
                              readingsAtTheirLimits(many, suggestionModel())}) {
        REQUIRE_FALSE(flips.empty());
        CHECK(flips.size() <= 10 * mostTried);
        for (const Counterfactual& flip : flips)
            CHECK(flip.index >= many.size() - mostTried);
    }
}

TEST_CASE("a suggestion says when older observations were not tried the other way") {
    Evidence evidence;
    const auto after = [&](std::size_t count) {
        while (evidence.now.observations.size() < count) {
            SolenoidReadings reading;
            reading.name = std::to_string(evidence.now.observations.size());
            evidence.now.observations.emplace_back(reading);
        }
        const Suggestion s = suggestWithTurns(evidence, suggestionModel());
        CHECK(toJson(s).at("not_tried") == s.notTried);
        return s.notTried;
    };
    const std::string newest =
        "Only the newest 100 observations of this visit were tried the other way; ";
    CHECK(after(100).empty());
    CHECK(after(101) == newest + "the one before them was not.");
    CHECK(after(107) == newest + "the 7 before them were not.");
}

TEST_CASE("each reason names its limits and only the observations it rests on") {
    const Scenario one = scenario("16");
    const Suggestion s = suggest(one.evidence, suggestionModel());
    for (const Reason& reason : s.all)
        if (reason.rule == "bore_leaks") {
            const ReasonSources sources = sourcesOf(reason, one.evidence.now, suggestionModel());
            CHECK(std::find(sources.limits.begin(), sources.limits.end(), "bore_pass") !=
                  sources.limits.end());
            for (const std::size_t i : sources.observations)
                CHECK(observationKind(one.evidence.now.observations.at(i)) == "bore");
            CHECK_FALSE(sources.observations.empty());
        }
}

// The work grows with the observations, not with their pairs; how long it takes is measured by
// tests/benchmark/elimination_benchmark.cpp.
TEST_CASE("each observation is taken the other way by itself, whatever else was observed") {
    for (const Scenario& one : allScenarios()) {
        INFO(one.file);
        const auto& recorded = one.evidence.now.observations;
        std::size_t alone = 0;
        for (const Observation& observation : recorded)
            alone += counterfactuals({observation}, suggestionModel()).size();
        CHECK(counterfactuals(recorded, suggestionModel()).size() <= alone);
    }
}
