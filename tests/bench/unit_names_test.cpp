// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/typed_observation.h"
#include "bench/unit_names.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

namespace {

UnitNames fiveSpeed() {
    UnitNames names;
    names.unit = "Demo 5";
    names.gears = {"R", "1", "2", "3", "4", "5"};
    names.ranges = {"1 by hand"};
    names.solenoids = {"A", "B", "C", "line"};
    names.bores = {"main regulator"};
    names.elements = {{"clutch", "P"}, {"clutch", "Q"}, {"brake", "X"}};
    return names;
}

Observation typed(const std::string& form, const std::vector<std::string>& values,
                  const std::map<std::string, std::string>& options = {}) {
    return observationTyped({form, values, options});
}

} // namespace

TEST_CASE("what the unit does not have is asked about, with what it has") {
    const std::pair<Observation, const char*> wrong[] = {
        {typed("gear", {"7", "slip"}), "no gear 7"},
        {typed("shift", {"5-6", "flare"}), "no gear 6"},
        {typed("noise", {"whine"}, {{"heard", "1,8"}}), "no gear 8"},
        {typed("pressure", {"low"}, {{"gear", "6"}}), "no gear 6"},
        {typed("road-test", {"6", "good"}), "no gear 6"},
        {typed("solenoid", {"D"}, {{"ohm", "12"}}), "no solenoid D"},
        {typed("air-check", {"clutch", "Z", "leaks"}), "no clutch or brake clutch Z"},
        {typed("air-check", {"Q", "leaks"}, {{"gears", "3,9"}}), "no gear 9"},
    };
    for (auto [observation, says] : wrong) {
        INFO(describe(observation));
        CHECK_THROWS_WITH(questionAgainstUnit(observation, fiveSpeed()),
                          Catch::Contains(says) && Catch::Contains("Demo 5") &&
                              Catch::Contains("--sure"));
    }
}

TEST_CASE("what the unit has is taken, in the chart's own spelling") {
    for (Observation observation :
         {typed("gear", {"reverse", "slip"}), typed("gear", {"all", "no", "drive"}),
          typed("shift", {"2-3", "flare"}), typed("bore", {"B valve"}, {{"vacuum", "12inHg"}}),
          typed("air-check", {"clutch", "Q", "leaks"}), typed("air-check", {"q", "leaks"}),
          typed("air-check", {"reverse", "clutch", "leaks"}),
          typed("solenoid", {"rest"}, {{"siblings", "alike"}})})
        CHECK_NOTHROW(questionAgainstUnit(observation, fiveSpeed()));
    Observation solenoid = typed("solenoid", {"a"}, {{"ohm", "12"}});
    questionAgainstUnit(solenoid, fiveSpeed());
    CHECK(std::get<SolenoidReadings>(solenoid).name == "A");
}

TEST_CASE("without a chart every name is taken") {
    Observation gear = typed("gear", {"9", "slip"});
    CHECK_NOTHROW(questionAgainstUnit(gear, UnitNames{}));
}

TEST_CASE("a part that is named by itself is held against the chart") {
    const UnitNames names = fiveSpeed();
    CHECK(partOfUnit("Solenoid a", names) == "solenoid A");
    CHECK(partOfUnit("b", names) == "solenoid B");
    CHECK(partOfUnit("solenoid line", names) == "solenoid line");
    for (const char* taken : {"clutch Q", "brake x", "valve body", "cooler", "pump"})
        CHECK(partOfUnit(taken, names) == taken);
    CHECK_THROWS_WITH(partOfUnit("solenoid D", names),
                      Catch::Contains("no solenoid D; it has A, B, C, line"));
    CHECK_THROWS_WITH(partOfUnit("clutch Z", names), Catch::Contains("no clutch or brake"));
    CHECK(partOfUnit("solenoid D", {}) == "solenoid D"); // no chart is known
}
