// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

std::vector<fs::path> allFiles() {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(scenarioFolder()))
        files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

bool anyReasonSays(const Suggestion& suggestion, const std::string& text) {
    return std::any_of(
        suggestion.strongestReasons.begin(), suggestion.strongestReasons.end(),
        [&](const std::string& reason) { return reason.find(text) != std::string::npos; });
}

void checkAgainst(const nlohmann::json& expected, const Suggestion& s) {
    CHECK(recommendationName(s.outcome) == expected.at("outcome").get<std::string>());
    CHECK(s.converter == expected.at("converter").get<bool>());
    CHECK(s.converterAsOption == expected.at("converter_as_option").get<bool>());
    CHECK(s.cooler == expected.at("cooler").get<bool>());
    CHECK(s.doNotDrive == expected.at("do_not_drive").get<bool>());
    if (expected.contains("which"))
        CHECK(s.which == expected.at("which").get<std::vector<std::string>>());
    if (expected.contains("next_test_says"))
        CHECK_THAT(s.nextTest, Catch::Contains(expected.at("next_test_says").get<std::string>()));
    if (expected.contains("reason_says"))
        CHECK(anyReasonSays(s, expected.at("reason_says").get<std::string>()));
    if (expected.contains("recheck_km")) {
        REQUIRE(s.recheckAfter);
        CHECK(s.recheckAfter->value() == expected.at("recheck_km").get<double>());
    }
}

} // namespace

// Worked cases of the trade, all vehicles invented; the outcomes are common practice, no source.
TEST_CASE("every worked case is answered as a careful specialist would") {
    for (const fs::path& file : allFiles()) {
        const Scenario scenario = readScenario(file);
        DYNAMIC_SECTION(scenario.file) {
            const Suggestion suggestion = suggest(scenario.evidence, suggestionModel());
            INFO(toJson(suggestion).dump(1));
            checkAgainst(scenario.expected, suggestion);
        }
    }
}

TEST_CASE("every suggestion explains itself") {
    for (const fs::path& file : allFiles()) {
        const Scenario scenario = readScenario(file);
        const Suggestion s = suggest(scenario.evidence, suggestionModel());
        INFO(scenario.file);
        CHECK_FALSE(s.strongestReasons.empty());
        CHECK(s.strongestReasons.size() <= 2);
        CHECK_FALSE(s.wouldChange.empty());
        CHECK_FALSE(s.cautions.empty());
        CHECK((s.outcome == Recommendation::notEnoughEvidence) <= !s.nextTest.empty());
        CHECK((s.outcome == Recommendation::cleanAndRefit) == s.recheckAfter.has_value());
        for (const Reason& reason : s.all) {
            INFO(reason.rule);
            CHECK(suggestionModel().rules.contains(reason.rule));
        }
    }
}

TEST_CASE("a costly step rests on two reasons") {
    for (const fs::path& file : allFiles()) {
        const Suggestion s = suggest(readScenario(file).evidence, suggestionModel());
        INFO(file.filename());
        if (s.outcome == Recommendation::openTheTransmission && !s.doNotDrive)
            CHECK(s.strongestReasons.size() == 2);
    }
}

TEST_CASE("the pair of three circuits and one: a shared feed against a coil") {
    CHECK(suggest(scenario("04").evidence, suggestionModel()).outcome ==
          Recommendation::replaceSolenoids);
    CHECK(suggest(scenario("05").evidence, suggestionModel()).outcome ==
          Recommendation::outsideTheUnit);
}

TEST_CASE("the pair of the swap: only the place of the fault differs, and with it the answer") {
    Evidence evidence = scenario("16").evidence;
    CHECK(suggest(evidence, suggestionModel()).outcome == Recommendation::repairBores);
    for (Observation& observation : evidence.now.observations) {
        if (auto* s = std::get_if<SolenoidReadings>(&observation))
            s->swap = SwapResult::moves;
        if (auto* b = std::get_if<BoreReadings>(&observation))
            b->vacuum = parseVacuum("21inHg");
    }
    CHECK(suggest(evidence, suggestionModel()).outcome == Recommendation::replaceSolenoids);
}
