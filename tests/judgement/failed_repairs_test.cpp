// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/failed_repairs.h"
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

// A part exchanged without success is not suggested again for the same complaint: common practice,
// no source.
namespace {

Evidence withStep(const std::string& number, const std::vector<Observation>& step) {
    Evidence evidence = scenario(number).evidence;
    evidence.now.date = "2025-03-14";
    for (const Observation& observation : step)
        evidence.now.observations.push_back(observation);
    return evidence;
}

Evidence nextVisit(const Evidence& before, std::vector<Observation> observations) {
    Evidence evidence;
    evidence.earlier = {before.now};
    evidence.now.visitId = 2;
    evidence.now.observations = std::move(observations);
    return evidence;
}

const auto cameBack = [] { return observed("outcome", R"({"held": "came-back"})"); };
const auto replacedA = [] {
    return observed("after-repair", R"({"did": "replace solenoids", "parts": ["solenoid A"]})");
};

} // namespace

TEST_CASE("a repair that held, or of which nothing is known, is no evidence") {
    CHECK(suggest(withStep("04", {replacedA()}), suggestionModel()).which ==
          std::vector<std::string>{"A"});
    CHECK(suggest(withStep("04", {replacedA(), observed("outcome", R"({"held": "fixed"})")}),
                  suggestionModel())
              .outcome == Recommendation::replaceSolenoids);
}

TEST_CASE("a solenoid exchanged in vain is not suggested again, and that speaks first") {
    for (const auto& step :
         {std::vector{replacedA(), cameBack()},
          std::vector{replacedA(), observed("codes", R"({"codes": ["P0753"], "when": "after"})")},
          std::vector{cameBack()}}) { // what was done is then what was suggested
        const Suggestion s = suggest(withStep("04", step), suggestionModel());
        INFO(toJson(s).dump(1));
        CHECK(s.outcome != Recommendation::replaceSolenoids);
        CHECK_THAT(s.strongestContrary, Catch::Contains("solenoid A") &&
                                            Catch::Contains("2025-03-14") &&
                                            Catch::Contains("did not cure it"));
    }
}

TEST_CASE("the next visit of the vehicle starts with what was done in vain") {
    const Evidence before = withStep("04", {replacedA(), cameBack()});
    const auto code = observed("codes", R"({"codes": ["P0753"], "when": "before"})");
    const auto open = observed("solenoid", R"({"name": "A", "open_circuit": true})");
    const auto clean = observed("debris", R"({"place": "pan", "what": "clean"})");
    const Suggestion s = suggest(nextVisit(before, {code, open, clean}), suggestionModel());
    CHECK(s.outcome != Recommendation::replaceSolenoids);
    CHECK_THAT(s.strongestContrary, Catch::Contains("solenoid A"));
    // a repair in between that held ends the story
    Evidence later = nextVisit(before, {code, open, clean});
    later.earlier.push_back(withStep("04", {observed("outcome", R"({"held": "fixed"})")}).now);
    CHECK(suggest(later, suggestionModel()).outcome == Recommendation::replaceSolenoids);
    // another complaint knows nothing of it
    const auto otherCode = observed("codes", R"({"codes": ["P0758"], "when": "before"})");
    const auto otherOpen = observed("solenoid", R"({"name": "B", "open_circuit": true})");
    const Suggestion other =
        suggest(nextVisit(before, {otherCode, otherOpen, clean}), suggestionModel());
    CHECK(other.which == std::vector<std::string>{"B"});
    CHECK(other.strongestContrary.find("solenoid A") == std::string::npos);
}

TEST_CASE("the codes and the drive after a repair that did not hold lead to the next answer") {
    const Suggestion s = suggest(
        withStep("04", {replacedA(), observed("codes", R"({"codes": ["P0733"], "when": "after"})"),
                        observed("road-test", R"({"gear": "3", "symptom": "slip"})")}),
        suggestionModel());
    const std::string all = toJson(s).dump();
    CHECK_THAT(all, Catch::Contains("slip in gear 3"));
    CHECK_THAT(all, !Catch::Contains("P0753"));
}

TEST_CASE("a code of a solenoid exchanged in vain sends to its circuit, not back to it") {
    const Evidence before = withStep("04", {replacedA(), cameBack()});
    const auto code = observed("codes", R"({"codes": ["P0753"], "when": "before"})");
    const auto clean = observed("debris", R"({"place": "pan", "what": "clean"})");
    const auto supply = observed("outside", R"({"item": "supply", "result": "good"})");
    const Suggestion s = suggest(nextVisit(before, {code, clean, supply}), suggestionModel());
    CHECK_THAT(s.nextTest, Catch::Contains("harness of that circuit"));
    CHECK(s.wouldChange.find("replace the solenoid") == std::string::npos);
}

TEST_CASE("a bore repaired and a clean made in vain are not suggested again") {
    const Suggestion bore = suggest(withStep("16", {cameBack()}), suggestionModel());
    CHECK(bore.outcome != Recommendation::repairBores);
    const Suggestion clean = suggest(withStep("01", {cameBack()}), suggestionModel());
    CHECK(clean.outcome != Recommendation::cleanAndRefit);
}
