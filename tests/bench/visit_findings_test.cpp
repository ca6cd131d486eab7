// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/visit_findings.h"
#include "observed.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

// What the later word takes back and what it does not is common practice, no source: a good drive
// under easier conditions takes nothing back.
namespace {

constexpr WarmthLimits coldAndHot{Celsius(50), Celsius(70)};

VisitFindings findings(const std::vector<Observation>& observations) {
    return visitFindings(observations, coldAndHot);
}

std::vector<std::string> badOnes(const std::vector<Observation>& observations) {
    std::vector<std::string> bad;
    for (const DriveFinding& finding : findings(observations).drive)
        if (!finding.good())
            bad.push_back(inPlainWords(finding));
    return bad;
}

using Texts = std::vector<std::string>;

const auto slipFirmHot =
    observed("complaint", R"({"gear": "3", "symptom": "slip", "load": "firm", "warmth": "hot"})");

} // namespace

TEST_CASE("a slip felt firm and hot stays until it is driven as firm and as hot again") {
    const auto goodWhen = [](const char* how) {
        return observed("complaint",
                        (std::string(R"({"gear": "3", "symptom": "good")") + how + "}").c_str());
    };
    const Texts stays{"slip in gear 3 (firm load, hot)"};
    CHECK(badOnes({slipFirmHot, goodWhen(R"(, "load": "light", "warmth": "cold")")}) == stays);
    CHECK(badOnes({slipFirmHot, goodWhen("")}) == stays);
    CHECK(badOnes({slipFirmHot, goodWhen(R"(, "load": "firm")")}) == stays);
    CHECK(badOnes({slipFirmHot, goodWhen(R"(, "load": "firm", "warmth": "cold")")}) == stays);
    CHECK(badOnes({slipFirmHot, goodWhen(R"(, "load": "firm", "warmth": "hot")")}).empty());
    CHECK(badOnes({slipFirmHot, goodWhen(R"(, "load": "firm", "warmth": "both")")}).empty());
    CHECK(badOnes({slipFirmHot, goodWhen(R"(, "load": "firm", "temperature_c":
        {"value": 95, "typed": "95C"})")})
              .empty());
}

TEST_CASE("a word on the whole takes back what was told of the whole alone") {
    const auto good = observed("complaint", R"({"symptom": "good"})");
    const auto slip = observed("complaint", R"({"symptom": "slip"})");
    CHECK(badOnes({slipFirmHot, good}).size() == 1);
    CHECK(badOnes({observed("complaint", R"({"gear": "3", "symptom": "slip"})"), good}).size() ==
          1);
    CHECK(badOnes({slip, good}).empty());
    CHECK(badOnes({good, slip}) == Texts{"slip"});
    CHECK(
        badOnes({observed("complaint", R"({"symptom": "slip", "warmth": "hot"})"), good}).size() ==
        1);
}

TEST_CASE("unlike symptoms at one place stand side by side, the same one once") {
    const auto harsh = observed("complaint", R"({"shift": "2-3", "symptom": "harsh"})");
    const auto flare = observed("complaint", R"({"shift": "2-3", "symptom": "flare"})");
    CHECK(badOnes({harsh, flare, harsh}).size() == 2);
}

TEST_CASE("a noise stays until it is quiet where it was heard") {
    const auto whine = observed("noise", R"({"noise": "whine", "heard_in": ["1", "R"]})");
    const auto noises = [](const std::vector<Observation>& observations) {
        int heard = 0;
        for (const Noise& noise : findings(observations).noises)
            heard += noise.noise != NoiseKind::none;
        return heard;
    };
    CHECK(noises({whine, observed("noise", R"({"noise": "none"})")}) == 1);
    CHECK(noises({whine, observed("noise", R"({"noise": "none", "quiet_in": ["4"]})")}) == 1);
    CHECK(noises({whine, observed("noise", R"({"noise": "none", "quiet_in": ["1", "R"]})")}) == 0);
    CHECK(noises({whine, observed("noise", R"({"noise": "knock"})")}) == 2);
    CHECK(noises({observed("noise", R"({"noise": "whine"})"),
                  observed("noise", R"({"noise": "none"})")}) == 0);
}

TEST_CASE("no code read cold takes back none that comes only hot") {
    const auto none = observed("codes", R"({"codes": [], "when": "before"})");
    CHECK(
        findings({observed("codes", R"({"codes": ["P0748"], "when": "before", "only_hot": true})"),
                  none})
            .codes.size() == 1);
    CHECK(findings({observed("codes", R"({"codes": ["P0733"], "when": "before"})"), none})
              .codes.empty());
    CHECK(findings({none}).codesRead);
    CHECK_FALSE(findings({}).codesRead);
}

TEST_CASE("a hand test is of its place: what smears there does not undo what was felt here") {
    const auto felt = observed("finger", R"({"feel": "felt", "place": "pan"})");
    CHECK(findings({felt, observed("finger", R"({"feel": "smears", "place": "magnet"})")})
              .worstFeel() == Feel::felt);
    CHECK(
        findings({felt, observed("finger", R"({"feel": "smears", "place": "pan"})")}).worstFeel() ==
        Feel::smears);
    CHECK_FALSE(findings({}).worstFeel());
}

TEST_CASE("what was found outside and measured stands once, the later of one thing") {
    const VisitFindings f =
        findings({observed("outside", R"({"item": "connector", "result": "fault"})"),
                  observed("outside", R"({"item": "connector", "result": "good"})"),
                  observed("outside", R"({"item": "supply", "result": "good"})"),
                  observed("pressure", R"({"gear": "all", "found": "low"})"),
                  observed("pressure", R"({"found": "normal"})"),
                  observed("pressure", R"({"gear": "3", "found": "normal", "reading_kpa":
            {"value": 300, "typed": "300 kPa"}, "makers_low_kpa": {"value": 400, "typed": "400 kPa"}})"),
                  observed("air-check", R"({"element": "Q", "result": "leaks"})"),
                  observed("air-check", R"({"element": "Q", "result": "holds"})")});
    CHECK(f.outside.size() == 2);
    CHECK(f.outside[0].result == Checked::good);
    CHECK(f.pressureIn("") == PressureFound::normal);
    CHECK(f.pressureIn("3") == PressureFound::low); // the reading outranks the word
    REQUIRE(f.airChecks.size() == 1);
    CHECK(f.airChecks[0].result == AirCheckResult::holds);
}

TEST_CASE("codes and drive after a repair count once it is known not to have held") {
    const auto code = observed("codes", R"({"codes": ["P0753"], "when": "before"})");
    const auto done =
        observed("after-repair", R"({"did": "replace solenoids", "parts": ["solenoid A"]})");
    const auto again = observed("codes", R"({"codes": ["P0758"], "when": "after"})");
    const VisitFindings failed = findings({code, done, again});
    REQUIRE(failed.codes.size() == 1);
    CHECK(failed.codes[0].code.text == "P0758");
    const VisitFindings held =
        findings({code, done, observed("codes", R"({"codes": [], "when": "after"})"),
                  observed("road-test", R"({"symptom": "good"})")});
    CHECK(held.codes[0].code.text == "P0753"); // what the repair was decided by
    const auto slips = observed(
        "road-test", R"({"gear": "3", "symptom": "slip", "load": "firm", "warmth": "hot"})");
    CHECK(findings({code, done, slips}).drive.size() == 1);
    // driven again as hard and as warm, later still
    const auto good = observed(
        "complaint", R"({"gear": "3", "symptom": "good", "load": "firm", "warmth": "hot"})");
    const VisitFindings driven = findings({code, done, slips, good});
    REQUIRE(driven.drive.size() == 1);
    CHECK(driven.drive[0].good());
}
