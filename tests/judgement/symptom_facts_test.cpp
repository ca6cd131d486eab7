// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/symptom_facts.h"
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {
SymptomFacts facts(const std::vector<Observation>& observations) {
    return symptomFacts(visitFindings(observations, suggestionModel().warmth));
}
} // namespace

TEST_CASE("a later word on a gear takes the place of the earlier one") {
    const auto slip = observed("complaint", R"({"gear": "3", "symptom": "slip"})");
    const auto good = observed("complaint", R"({"gear": "3", "symptom": "good"})");
    CHECK(facts({slip}).slipGears.contains("3"));
    CHECK_FALSE(facts({slip, good}).slips());
    CHECK(facts({good, slip}).slipGears.contains("3"));
}

TEST_CASE("a word on the whole takes back no gear") {
    const auto slip = observed("complaint", R"({"gear": "3", "symptom": "slip"})");
    const auto good = observed("complaint", R"({"symptom": "good"})");
    CHECK(facts({slip, good}).slipGears.contains("3"));
    CHECK(facts({good, slip}).anyBad());
    CHECK_FALSE(facts({observed("complaint", R"({"symptom": "slip"})"), good}).anyBad());
}

TEST_CASE("what cannot make a noise is not said to agree with one") {
    const SymptomFacts f = facts({observed("complaint", R"({"gear": "3", "symptom": "slip"})"),
                                  observed("noise", R"({"noise": "whine", "heard_in": ["1"]})"),
                                  observed("codes", R"({"codes": ["P0753"], "when": "before"})")});
    CHECK(f.inWords() == "slip in gear 3, whine in 1; code P0753");
    CHECK(f.inWordsWithoutNoise() == "slip in gear 3; code P0753");
    CHECK(f.noisesInWords() == "whine in 1");
}

TEST_CASE("a ratio code marks its gear as slipping") {
    const SymptomFacts f =
        facts({observed("codes", R"({"codes": ["P0733", "P0700"], "when": "before"})")});
    CHECK(f.slipsInDefinedGears());
    CHECK(f.ratioGears.contains("3"));
    CHECK(f.anyCode());
}

TEST_CASE("a shudder that ends with a tap of the brake is the converter's") {
    CHECK(facts({observed("complaint", R"({"symptom": "shudder", "stops_on_brake_tap": true})")})
              .converterSlip);
    CHECK_FALSE(facts({observed("complaint", R"({"symptom": "shudder"})")}).converterSlip);
    CHECK(facts({observed("complaint", R"({"symptom": "shudder", "stops_on_brake_tap": false})")})
              .notConverter);
}

TEST_CASE("codes read and none stored differs from codes not read") {
    CHECK_FALSE(facts({}).codesRead);
    CHECK(facts({observed("codes", R"({"codes": [], "when": "before"})")}).codesRead);
}

TEST_CASE("codes after the repair count where any is stored") {
    CHECK(facts({observed("codes", R"({"codes": ["P0733"], "when": "after"})")}).slips());
    CHECK_FALSE(facts({observed("codes", R"({"codes": [], "when": "after"})")}).codesRead);
}
