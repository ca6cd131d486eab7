// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/typed_bench.h"

using namespace swarfbook::test;
using Catch::Contains;
using nlohmann::json;

namespace {

const std::vector<std::string> nothing;

json observed(const Bench& bench, std::string line) {
    const ProgramResult typed = bench.observe(line + " --json");
    INFO(line << "\n" << typed.err);
    REQUIRE(typed.exit == 0);
    return json::parse(typed.out);
}

} // namespace

TEST_CASE("words are taken as people type them") {
    const Bench bench;
    const std::pair<const char*, const char*> loosely[] = {
        {"gear 3rd slipping --load Heavy --warmth warm", "slip in 3, load firm, hot"},
        {"gear reverse no drive", "no-drive in R"},
        {"shift \"2 to 3\" flaring", "flare at the shift 2-3"},
        {"shift 2>3 ok", "good at the shift 2-3"},
        {"codes p0733, P0735", "P0733 (ratio"},
        {"level OK --at \"104 \u00b0F\"", "right, at 104 \u00b0F (40 C)"},
        {"level low \"1 1/2 quarts\"", "low by 1 1/2 quarts (1.42 l)"},
        {"since-clean \"28,000 miles\"", "28,000 miles (45062 km)"},
        {"solenoid A --ohm \"12,6 \u03a9\" --at 176F",
         "12,6 \u03a9 (12.6 ohm) at 176F (80 C) = 10.2"},
        {"solenoid B --ohm OL", "coil open"},
        {"solenoid C --ohm 12 --at 20C --band \"13 +/- 2\"", "maker's band from 11 ohm, to 15 ohm"},
        {"bore X --vacuum \"12 in. Hg\"", "12 in. Hg (40.6 kPa)"},
        {"pressure normal --gear third --reading \"60 PSI\"", "60 PSI (414 kPa)"},
        {"debris pan GOLD --size s2 --amount lots", "yellow-metal, S2, plenty"},
        {"fluid --drained \"4.4 US qt\" --milky No", "4.4 US qt (4.16 l)"},
    };
    for (const auto& [line, says] : loosely) {
        INFO(line);
        CHECK_THAT(observed(bench, line).at("text").get<std::string>(), Contains(says));
    }
}

TEST_CASE("an unusual value is questioned, and taken once it is confirmed") {
    const Bench bench;
    for (const char* line :
         {"solenoid A --ohm 12kohm --at 20C", "solenoid A --ohm 12 --at 900C", "level low 14l",
          "since-clean 900000km", "solenoid A --ohm 80 --at 20C --band 11-15"}) {
        const ProgramResult asked = bench.observe(line);
        INFO(line << "\n" << asked.err);
        CHECK(asked.exit == 2);
        CHECK_THAT(asked.err, Contains("--sure"));
        CHECK(bench.observe(std::string(line) + " --sure").exit == 0);
    }
    CHECK_THAT(bench.observe(nothing).out, Contains("12kohm (12000.0 ohm) (unusual, confirmed)"));
    // what cannot be is never taken
    for (const char* line : {"bore X --vacuum 45inHg --sure", "since-clean -5km --sure"})
        CHECK(bench.observe(line).exit == 2);
}

TEST_CASE("a digit slipped against the other coils is questioned") {
    const Bench bench;
    REQUIRE(bench.observe("solenoid A --type on-off --ohm 12.1 --at 20C").exit == 0);
    REQUIRE(bench.observe("solenoid B --type on-off --ohm 12.4 --at 20C").exit == 0);
    const ProgramResult asked = bench.observe("solenoid C --type on-off --ohm 124 --at 20C");
    CHECK(asked.exit == 2);
    CHECK_THAT(asked.err, Contains("the others read about 12.4 ohm") && Contains("--sure"));
    CHECK(bench.observe("solenoid line --type linear --ohm 5.1 --at 20C").exit == 0);
    CHECK(bench.observe("solenoid C --type on-off --ohm 124 --at 20C --sure").exit == 0);
}

TEST_CASE("a correction is a new entry, the earlier one stays and counts no more") {
    const Bench bench;
    REQUIRE(bench.observe("debris pan bright-metal --size S4 --amount one").exit == 0);
    REQUIRE(bench.observe("codes none").exit == 0);
    REQUIRE(bench.observe("complaint good").exit == 0);
    CHECK(bench.suggestion().at("do_not_drive") == true);
    REQUIRE(bench.observe("debris pan film --corrects 1 --by \"R. Demo\"").exit == 0);
    const json after = bench.suggestion();
    CHECK(after.at("outcome") == "clean and refit");
    const std::string all = bench.observe(nothing).out;
    CHECK_THAT(all, Contains("bright-metal, S4, one (number 1, replaced by 4)"));
    CHECK_THAT(all, Contains("debris: pan: film (number 4, by R. Demo, corrects 1)"));
    // one entry is corrected once; the next correction is of the correction
    CHECK_THAT(bench.observe("debris pan paste --corrects 1").err, Contains("by number 4"));
    REQUIRE(bench.observe("take-back --corrects 4 --note \"another car's pan\"").exit == 0);
    CHECK(bench.suggestion().at("outcome") == "not enough evidence");
}

TEST_CASE("what was not inspected is kept as such, whatever it is") {
    const Bench bench;
    for (const char* line : {"filter-neck not-inspected", "solenoid C not inspected",
                             "not-inspected \"converter hub\"", "codes not-inspected"})
        CHECK(bench.observe(line).exit == 0);
    const json unknown = bench.suggestion().at("not_known");
    for (const char* what : {"filter-neck", "solenoid C", "converter hub", "codes"}) {
        const std::string line = std::string("Not inspected: ") + what + ".";
        INFO(line);
        CHECK(std::find(unknown.begin(), unknown.end(), json(line)) != unknown.end());
    }
}

TEST_CASE("cautions stand at the first step that needs them") {
    const Bench bench;
    CHECK_THAT(bench.observe("solenoid A --ohm 12.6 --at 20C").err,
               Contains("Ignition off") && Contains("low-ohm") && Contains("implants") &&
                   Contains("ventilation"));
    CHECK(bench.observe("solenoid B --ohm 12.6 --at 20C").err.empty());
    CHECK_THAT(bench.observe("bore X --vacuum 20inHg").err, Contains("eye protection"));
    CHECK_THAT(bench.observe("finger felt").err, Contains("nitrile gloves"));
    CHECK_THAT(bench.observe("fluid --milky no").err, Contains("hoist") && Contains("licensed"));
}

TEST_CASE("a level outside its window says to wait, with the error it would mean") {
    const Bench bench;
    // 9 l at 20 C grow by 9 * 0.0007 * 15 = 0.0945 l up to 35 C (oil, 0.0007 per kelvin)
    CHECK_THAT(bench.observe("level-check right --at 20C --window 35-45C --total 9l").out,
               Contains("too cold") && Contains("wait until it has warmed to 35 C and recheck") &&
                   Contains("0.09 l too high"));
    CHECK_THAT(bench.observe("level-check right --at 104F --window 95-113F --total 9l").out,
               Contains("read inside the window"));
    // the demonstration unit's own chart: 35 to 45 C, 9 l
    CHECK_THAT(bench.observe("level-check right --at 85C").out,
               Contains("too hot") && Contains("cooled to 45 C") && Contains("0.25 l too low"));
    CHECK_THAT(bench.observe("level-check right --window 35-45C").out,
               Contains("without the fluid's temperature"));
}

TEST_CASE("what follows a repair that holds changes no suggestion, what is bad after it does") {
    const Bench bench;
    for (const char* line : {"codes P0753", "complaint fail-safe", "debris pan film",
                             "debris filter clean", "solenoid A --ohm open"})
        REQUIRE(bench.observe(line).exit == 0);
    const json before = bench.suggestion();
    for (const char* line :
         {"after-repair --selector-cycled yes --adaptation done --leaks no", "refill 4.5l --at 25C",
          "level-check right --at 40C --window 35-45C", "road-test 2-3 good", "road-test good",
          "codes none --after", "outcome fixed --after-distance 300km"})
        REQUIRE(bench.observe(line).exit == 0);
    const json held = bench.suggestion();
    CHECK(held.at("headline") == before.at("headline"));
    CHECK(held.at("all_reasons").size() == before.at("all_reasons").size());
    for (const char* line : {"road-test 3 slip --load firm", "codes P0733 --after",
                             "outcome came-back --after-distance 300km"})
        REQUIRE(bench.observe(line).exit == 0);
    const json failed = bench.suggestion();
    CHECK(failed.at("outcome") != "replace solenoids");
    CHECK_THAT(failed.at("strongest_contrary").get<std::string>(), Contains("solenoid A"));
    CHECK_THAT(failed.dump(), Contains("P0733") && Contains("slip in gear 3"));
}
