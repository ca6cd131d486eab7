// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/cautions.h"
#include "bench/observation.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace swarfbook;

namespace {

bool needs(std::string_view kind, Hazard hazard) {
    const auto hazards = hazardsAt(kind);
    return std::find(hazards.begin(), hazards.end(), hazard) != hazards.end();
}

} // namespace

// Which step needs which caution is common practice, no source; the limit of 30 psi is that of
// 29 CFR 1910.242(b), from memory.
TEST_CASE("each step of the bench has the cautions that it needs") {
    CHECK(needs("solenoid", Hazard::ignition));
    CHECK(needs("solenoid", Hazard::lowOhmCoil));
    CHECK(needs("solenoid", Hazard::magnets));
    CHECK(needs("bore", Hazard::compressedAir));
    CHECK(needs("air-check", Hazard::compressedAir));
    CHECK(needs("fluid", Hazard::hoist));
    CHECK(needs("fluid", Hazard::waste));
    CHECK(needs("finger", Hazard::slivers));
    CHECK(needs("level-check", Hazard::runningEngine));
    CHECK(needs("road-test", Hazard::roadTest));
    CHECK(hazardsAt("since-clean").empty());
}

TEST_CASE("every caution has a step, and none is given twice") {
    std::set<Hazard> at;
    for (const std::string_view kind : observationKinds())
        for (const Hazard hazard : hazardsAt(kind))
            at.insert(hazard);
    std::set<std::string_view> sentences;
    for (const Hazard hazard : allHazards()) {
        CHECK((at.contains(hazard) || hazard == Hazard::drivingOn ||
               hazard == Hazard::untestedMetal || hazard == Hazard::towing));
        sentences.insert(cautionSentence(hazard));
    }
    CHECK(sentences.size() == allHazards().size());
    CHECK_THAT(std::string(cautionSentence(Hazard::compressedAir)), Catch::Contains("30 psi"));
}

TEST_CASE("the standing line defers to maker, rules and technician") {
    CHECK_THAT(std::string(standingLine()), Catch::Contains("maker's procedure") &&
                                                Catch::Contains("local rules") &&
                                                Catch::Contains("qualified technician"));
}
