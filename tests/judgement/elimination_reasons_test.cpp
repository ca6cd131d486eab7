// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/facts.h"
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

UnitKnown demoUnit() {
    const auto models = std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models";
    return {loadApplicationChart(models / "units/demo-5.json"),
            loadBenchTests(models / "bench-tests.json")};
}

std::vector<Observation> controlChainStory() {
    return {observed("complaint", R"({"gear": "3", "symptom": "slip"})"),
            observed("codes", R"({"codes": ["P0733"], "when": "before"})"),
            observed("level", R"({"found": "right"})"),
            observed("debris", R"({"place": "pan", "what": "film"})"),
            observed("finger", R"({"feel": "smears"})")};
}

bool reasonNamed(const Suggestion& s, const std::string& rule, bool supports) {
    return std::any_of(s.all.begin(), s.all.end(),
                       [&](const Reason& r) { return r.rule == rule && r.supports == supports; });
}

} // namespace

TEST_CASE(
    "with the unit's chart the next test is the one that removes most candidates per minute") {
    Evidence evidence = evidenceOf(controlChainStory());
    const Suggestion without = suggest(evidence, suggestionModel());
    CHECK(without.suspects.empty());
    evidence.unit = demoUnit();
    const Suggestion with = suggest(evidence, suggestionModel());
    const Facts facts = factsOf(evidence, suggestionModel());
    const auto& found = facts.elimination;
    REQUIRE(found);
    CHECK(with.outcome == without.outcome);
    CHECK(with.outcome == Recommendation::notEnoughEvidence);
    CHECK(with.nextTest == found->tests.front().what + ".");
    CHECK(with.suspects.size() == found->inState(PartState::suspect).size());
}

TEST_CASE("elimination is a reason for opening if an element remains, else evidence against it") {
    const auto reason = [](const char* good) {
        std::vector<Observation> story = controlChainStory();
        story.push_back(observed("debris", R"({"place": "pan", "what": "lining",
                                               "amount": "plenty", "paper_texture": true})"));
        story.push_back(observed("complaint", good));
        Evidence evidence = evidenceOf(std::move(story));
        evidence.unit = demoUnit();
        const Suggestion s = suggest(evidence, suggestionModel());
        REQUIRE(s.outcome == Recommendation::openTheTransmission);
        return s;
    };
    const Suggestion element = reason(R"({"gear": "4", "symptom": "good"})");
    CHECK(reasonNamed(element, "elimination", true));
    CHECK_FALSE(reasonNamed(element, "elimination", false));
}

// The cases are from other vehicles: their coils have other bands than Demo 5's, and their pressure
// solenoid A is called A.
TEST_CASE("a chart of the gears alone changes no outcome of any worked case") {
    UnitKnown gearsAlone = demoUnit();
    for (ApplicationChart::Solenoid& solenoid : gearsAlone.chart.solenoids) {
        solenoid.bandLow.reset();
        solenoid.bandHigh.reset();
        if (solenoid.name == "line")
            solenoid.code = "pressure F";
    }
    for (const auto& entry : std::filesystem::directory_iterator(scenarioFolder())) {
        Scenario one = readScenario(entry.path());
        const Recommendation without = suggest(one.evidence, suggestionModel()).outcome;
        one.evidence.unit = gearsAlone;
        const Suggestion with = suggest(one.evidence, suggestionModel());
        INFO(one.file);
        CHECK(with.outcome == without);
        for (const Reason& reason : with.all)
            CHECK(suggestionModel().rules.contains(reason.rule));
    }
}

TEST_CASE("a missing chart is mentioned if gears were entered, and only then") {
    Evidence evidence = evidenceOf(controlChainStory());
    evidence.noUnit = "There is no chart.";
    const auto says = [](const Suggestion& s) {
        return std::any_of(s.notKnown.begin(), s.notKnown.end(), [](const std::string& line) {
            return line.find("Nothing is eliminated") != std::string::npos;
        });
    };
    CHECK(says(suggest(evidence, suggestionModel())));
    evidence.now.observations = {observed("complaint", R"({"symptom": "good"})")};
    CHECK_FALSE(says(suggest(evidence, suggestionModel())));
}
