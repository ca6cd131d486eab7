// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/observation.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace swarfbook;

namespace {

std::vector<Observation> oneOfTheBench() {
    SolenoidReadings solenoid;
    solenoid.name = "A";
    solenoid.resistance = parseOhms("12.6");
    solenoid.at = parseTemperature("80C");
    solenoid.hotOpen = false;
    solenoid.swap = SwapResult::stays;
    BoreReadings bore;
    bore.name = "converter regulator";
    bore.vacuum = parseVacuum("12inHg");
    bore.wetAir = WetAir::fizzes;
    return {solenoid,
            bore,
            PressureSeen{"3", PressureFound::low, parsePressure("90 psi"), {}, {}},
            AirCheck{"Q", {"3", "R"}, AirCheckResult::leaks},
            CoolerFlow{parseVolume("0.4l"), parseDuration("30s"), {}, false},
            ConverterSeen{Checked::fault, {}, true, {}},
            EndPlaySeen{EndPlay::excess},
            ValveBodySeen{true, {}, false, {}, {}, {}},
            AdaptationSeen{Adaptation::atLimit},
            FilterNeckSeen{Checked::good, SealFound::cut, "old one"},
            MagnetsFitted{"2", MagnetForm::ring, parseSmallLength("30mm"), false}};
}

Complaint slipInThree() {
    Complaint complaint;
    complaint.gear = "3";
    complaint.symptom = Symptom::slip;
    complaint.load = Load::firm;
    return complaint;
}

std::vector<Observation> oneOfTheRoadAndTheDebris() {
    DebrisSeen debris;
    debris.place = Where::magnet;
    debris.what = DebrisKind::paste;
    debris.coat = Coat::f2;
    return {SinceClean{parseDistance("45000 km")},
            SinceClean{},
            History{true, false, parseDistance("25000km"), false, {}, "van"},
            Codes{{"P0733", "P0735"}, CodesWhen::before, true, ""},
            Codes{},
            slipInThree(),
            Noise{NoiseKind::whine, {"1", "R"}, {"4"}},
            FluidSeen{parseVolume("4.2 l"), "dark red", Smell::burnt, false, Glitter::none},
            LevelSeen{LevelFound::low, parseVolume("1.5 l"), parseTemperature("40C"), "line"},
            OutsideCheck{OutsideItem::connector, Checked::fault, parseVolts("9.1V"), "oil in it"},
            FingerTest{Feel::smears},
            MagnetTest{MagnetMoves::stays, Amount::plenty},
            SqueezeTest{Squeezed::breaks},
            debris,
            NotInspected{"filter"},
            Overruled{"repair bores", "customer's wish"}};
}

std::vector<Observation> oneAfterTheRepair() {
    return {Refill{parseVolume("4.5l"), parseTemperature("25C"), "as the maker says"},
            LevelCheck{LevelFound::right, parseTemperature("40C"), parseTemperature("35C"),
                       parseTemperature("45C"), parseVolume("9 l"), true},
            RoadTest{slipInThree()},
            AfterRepair{"repair bores", AdaptationDone::done, true, false, "warm"},
            RepairResult{Held::cameBack, parseDistance("1200 km"), "", "slips again"},
            TakenBack{"another car"}};
}

std::vector<Observation> oneOfEach() {
    std::vector<Observation> all = oneOfTheBench();
    for (const auto& more : {oneOfTheRoadAndTheDebris(), oneAfterTheRepair()})
        all.insert(all.end(), more.begin(), more.end());
    return all;
}

} // namespace

TEST_CASE("every kind of observation is stored and read back whole") {
    std::vector<std::string_view> seen;
    for (const Observation& observation : oneOfEach()) {
        const std::string_view kind = observationKind(observation);
        const auto stored = toJson(observation);
        const Observation back = observationFromJson(kind, stored);
        CHECK(observationKind(back) == kind);
        CHECK(toJson(back) == stored);
        std::string inWords(kind);
        std::replace(inWords.begin(), inWords.end(), '-', ' ');
        CHECK(describe(observation).starts_with(inWords));
        seen.push_back(kind);
    }
    for (const std::string_view kind : observationKinds())
        CHECK(std::find(seen.begin(), seen.end(), kind) != seen.end());
}

TEST_CASE("a value is stored with what was typed") {
    SolenoidReadings s;
    s.name = "A";
    s.resistance = parseOhms("12,6 ohm");
    const auto stored = toJson(Observation(s));
    CHECK(stored.at("ohm").at("value") == 12.6);
    CHECK(stored.at("ohm").at("typed") == "12,6 ohm");
    CHECK_FALSE(stored.contains("swap")); // not given, not stored
}

TEST_CASE("a confirmed value says so, there and back") {
    SolenoidReadings s;
    s.name = "A";
    s.resistance = parseOhms("12 kohm", Sure::meant);
    const auto stored = toJson(Observation(s));
    CHECK(stored.at("ohm").at("sure") == true);
    const Observation back = observationFromJson("solenoid", stored);
    CHECK(std::get<SolenoidReadings>(back).resistance->sure);
    CHECK_THAT(describe(back), Catch::Contains("unusual, confirmed"));
}

TEST_CASE("a code is shown with its family, the maker's text beside it") {
    const Codes codes{{"P0733"}, CodesWhen::before, {}, "third gear implausible"};
    CHECK(describe(Observation(codes)) ==
          "codes: P0733 (ratio: gear ratio wrong in gear 3), maker's text: third gear implausible");
}

TEST_CASE("no codes stored differs from codes not read") {
    const auto stored = toJson(Observation(Codes{}));
    CHECK(stored.at("codes").empty());
    CHECK(describe(Observation(Codes{})) == "codes: no codes stored");
    LevelSeen level;
    level.leak = "pan";
    level.leakAmount = LeakAmount::damp;
    CHECK_THAT(describe(Observation(level)), Catch::Contains("leak at the pan, how much: damp"));
}

TEST_CASE("a line shows the converted value beside the typed one") {
    SolenoidReadings s;
    s.name = "A";
    s.resistance = parseOhms("12.6");
    s.at = parseTemperature("80C");
    // copper: 12.6 / 1.2358 = 10.1958
    CHECK(describe(Observation(s)) == "solenoid: A: 12.6 ohm at 80C = 10.2 ohm at 20 C");
    BoreReadings b;
    b.name = "regulator";
    b.vacuum = parseVacuum("12inHg");
    CHECK(describe(Observation(b)) == "bore: regulator: 12inHg (40.6 kPa)");
}

TEST_CASE("what is wrong in a stored observation is named") {
    using nlohmann::json;
    CHECK_THROWS_WITH(observationFromJson("weather", json::object()), Catch::Contains("weather"));
    CHECK_THROWS_WITH(observationFromJson("complaint", json::object()), Catch::Contains("symptom"));
    CHECK_THROWS_WITH(observationFromJson("finger", json{{"feel", "smooth"}}),
                      Catch::Contains("smears, not-felt, grit, felt"));
    CHECK_THROWS_WITH(observationFromJson("finger", json{{"feel", "felt"}, {"fel", 1}}),
                      Catch::Contains("\"fel\""));
    CHECK_THROWS_WITH(observationFromJson("solenoid", json{{"swap", "moves"}}),
                      Catch::Contains("name"));
}
