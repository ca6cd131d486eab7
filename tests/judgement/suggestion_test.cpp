// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {
Suggestion after(std::vector<Observation> observations) {
    return suggest(evidenceOf(std::move(observations)), suggestionModel());
}
} // namespace

TEST_CASE("taking evidence away never turns a suggestion into clean and refit") {
    // missing evidence never counts as good evidence: if any single observation is removed, a case
    // that was not clean does not become clean just because less is known
    for (const auto& entry : std::filesystem::directory_iterator(scenarioFolder())) {
        const Scenario whole = readScenario(entry.path());
        if (suggest(whole.evidence, suggestionModel()).outcome == Recommendation::cleanAndRefit)
            continue;
        const auto& all = whole.evidence.now.observations;
        for (std::size_t i = 0; i < all.size(); ++i) {
            const bool isDebrisOrComplaint = std::holds_alternative<DebrisSeen>(all[i]) ||
                                             std::holds_alternative<Complaint>(all[i]) ||
                                             std::holds_alternative<Codes>(all[i]) ||
                                             std::holds_alternative<FluidSeen>(all[i]) ||
                                             std::holds_alternative<Noise>(all[i]) ||
                                             std::holds_alternative<FingerTest>(all[i]) ||
                                             std::holds_alternative<History>(all[i]) ||
                                             std::holds_alternative<ConverterSeen>(all[i]);
            if (isDebrisOrComplaint)
                continue; // these are the faults; without them no fault is known
            Evidence less = whole.evidence;
            less.now.observations.erase(less.now.observations.begin() +
                                        static_cast<std::ptrdiff_t>(i));
            INFO(whole.file << " without " << describe(all[i]));
            CHECK(suggest(less, suggestionModel()).outcome != Recommendation::cleanAndRefit);
        }
    }
}

TEST_CASE("without a look at the debris nothing is cleared and no part is ordered") {
    const Suggestion s = after({observed("codes", R"({"codes": ["P0753"], "when": "before"})"),
                                observed("solenoid", R"({"name": "A", "open_circuit": true})")});
    CHECK(s.outcome == Recommendation::notEnoughEvidence);
    CHECK_THAT(s.nextTest, Catch::Contains("pan off"));
    const Suggestion good = after({observed("codes", R"({"codes": [], "when": "before"})"),
                                   observed("complaint", R"({"symptom": "good"})")});
    CHECK(good.outcome == Recommendation::notEnoughEvidence);
}

TEST_CASE("stops for metal outweigh all other evidence") {
    for (const auto& entry : std::filesystem::directory_iterator(scenarioFolder())) {
        Evidence evidence = readScenario(entry.path()).evidence;
        evidence.now.observations.push_back(
            observed("debris", R"({"place": "pan", "what": "bright-metal", "size": "S4"})"));
        const Suggestion s = suggest(evidence, suggestionModel());
        INFO(entry.path().filename());
        CHECK(s.outcome == Recommendation::openTheTransmission);
        CHECK(s.doNotDrive);
        CHECK(s.converter);
        CHECK(s.cooler);
        CHECK_THAT(s.cautions.front(), Catch::Contains("Do not drive"));
    }
}

TEST_CASE("paste alone never opens a transmission") {
    for (const char* coat : {"F1", "F2", "F3", "F4"})
        for (const char* symptom : {"good", "slip", "shudder", "harsh", "no-drive"}) {
            const Suggestion s =
                after({observed("debris",
                                std::string(R"({"place": "magnet", "what": "paste", "coat": ")") +
                                    coat + "\"}"),
                       observed("complaint", std::string(R"({"symptom": ")") + symptom + "\"}")});
            INFO(coat << " " << symptom);
            CHECK(s.outcome != Recommendation::openTheTransmission);
        }
}

TEST_CASE("a level found low explains a slip but never clears felt metal") {
    const auto low = observed("level", R"({"found": "low"})");
    const auto slip = observed("complaint", R"({"symptom": "slip"})");
    const auto film = observed("debris", R"({"place": "pan", "what": "film"})");
    CHECK(after({low, slip, film}).outcome == Recommendation::outsideTheUnit);
    CHECK(after({low, slip, film, observed("finger", R"({"feel": "felt"})")}).outcome !=
          Recommendation::outsideTheUnit);
    const Suggestion bad =
        after({low, slip,
               observed("debris", R"({"place": "pan", "what": "lining", "amount": "plenty"})")});
    CHECK(bad.outcome == Recommendation::outsideTheUnit);
    CHECK_THAT(bad.strongestContrary, Catch::Contains("does not cure"));
}

TEST_CASE("a technician who overrules is quoted beside the suggestion") {
    Evidence evidence = scenario("01").evidence;
    evidence.now.observations.push_back(
        observed("overrule", R"({"outcome": "repair bores", "note": "customer wishes it"})"));
    const Suggestion s = suggest(evidence, suggestionModel());
    CHECK(s.outcome == Recommendation::cleanAndRefit);
    CHECK(s.overruled == "repair bores: customer wishes it");
}

TEST_CASE("parts that were not inspected are named") {
    const Suggestion s = after({observed("not-inspected", R"({"what": "filter"})")});
    CHECK(std::find(s.notKnown.begin(), s.notKnown.end(), "Not inspected: filter.") !=
          s.notKnown.end());
}

TEST_CASE("outcome names convert both ways, in order of cost") {
    for (int i = 0; i <= static_cast<int>(Recommendation::notEnoughEvidence); ++i) {
        const auto outcome = static_cast<Recommendation>(i);
        CHECK(outcomeFromName(recommendationName(outcome)) == outcome);
    }
    CHECK(Recommendation::outsideTheUnit < Recommendation::cleanAndRefit);
    CHECK(Recommendation::replaceValveBody < Recommendation::openTheTransmission);
}

TEST_CASE("the headline names parts and additions") {
    CHECK(headline(suggest(scenario("04").evidence, suggestionModel())) == "Replace solenoid A");
    CHECK(headline(suggest(scenario("11").evidence, suggestionModel())) ==
          "Remove and open the transmission, with converter and cooler. Do not drive");
    CHECK(headline(suggest(scenario("08").evidence, suggestionModel())) ==
          "Repair the valve-body bore: converter regulator, converter as an option");
}
