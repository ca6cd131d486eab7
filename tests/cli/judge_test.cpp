// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/typed_bench.h"

#include <algorithm>
#include <utility>

using namespace swarfbook::test;
using nlohmann::json;

namespace {

// The typed words, and words of the resulting question.
constexpr std::pair<const char*, const char*> cannotBeTrue[] = {
    {"solenoid A --ohm 12kohm --at 20C", "12000 ohm"},
    {"solenoid A --ohm 12 --at 900C", "900"},
    {"solenoid A --pull-in 2V --drop-out 7V", "exchanged"},
    {"solenoid A --ohm 80 --at 20C --band 11-15", "check the digits"},
    {"bore X --vacuum 27inHg --blocked 26inHg", "hose blocked"},
    {"bore X --vacuum 45inHg", "45inHg"},
    {"since-clean 900000km", "odometer"},
    {"since-clean -5km", "-5km"},
    {"codes 733", "P0733"},
    {"codes P0733 none", "none"},
    {"complaint wobbles", "good, slip"},
    {"shift 23 flare", "2-3"},
    {"gear sideways slip", "not a gear"},
    {"level right 1l", "low or high"},
    {"fluid --milky maybe", "yes or no"},
    {"fluid --load firm", "load"},
    {"level-check right --at 40C --window 45-35C", "lower one"},
    {"take-back --note x", "--corrects"},
    {"take-back --corrects 99 --note x", "observation 99"},
    {"outcome perhaps", "fixed, came-back"},
    {"filter-neck", "good or fault"},
    {"since-clean 45.000km", "two ways"},
    {"debris pan paste --coat F2", "Only the magnet"},
    {"debris pan clean --size S2", "clean place"},
    {"finger smooth", "smears"},
    {"cooler 0.4l", "in a time"},
    {"overrule \"repair bores\"", "--note"},
    {"weather", "kind of observation"},
};

} // namespace

TEST_CASE("every example in the help of observe can be pasted") {
    const Bench bench;
    const std::string start = "swarfbook observe --visit 4 ";
    std::istringstream help(runProgram({"observe", "--help"}).out);
    int examples = 0;
    for (std::string line; std::getline(help, line);) {
        const auto at = line.find(start);
        if (at == std::string::npos)
            continue;
        ++examples;
        const ProgramResult observed = bench.observe(wordsOf(line.substr(at + start.size())));
        INFO(line << "\n" << observed.err);
        CHECK(observed.exit == 0);
        CHECK(observed.out.starts_with("visit 1: "));
    }
    CHECK(examples >= 25);
    const std::string all = bench.observe(std::vector<std::string>{}).out;
    CHECK(std::count(all.begin(), all.end(), '\n') == examples);
}

TEST_CASE("an impossible value is questioned, and nothing of it is kept") {
    const Bench bench;
    for (const auto& [line, says] : cannotBeTrue) {
        const ProgramResult outcome = bench.observe(wordsOf(line));
        INFO(line << "\n" << outcome.err);
        CHECK(outcome.exit == 2);
        CHECK(outcome.out.empty());
        CHECK_THAT(outcome.err, Catch::Contains(says));
    }
    CHECK_THAT(bench.observe(std::vector<std::string>{}).out,
               Catch::Contains("nothing observed yet"));
}

TEST_CASE("every verb reports a visit that does not exist") {
    const Bench bench;
    CHECK(bench.run({"observe", "--visit", "9", "codes", "none"}).exit == 2);
    CHECK(bench.run({"suggest", "--visit", "9"}).exit == 2);
    CHECK(bench.run({"compare", "--visit", "1", "--with", "9"}).exit == 2);
    CHECK(bench.run({"compare", "--visit", "1", "--with", "1"}).exit == 2);
}

TEST_CASE("typed observations lead to a suggestion, and one fact turns it") {
    const Bench bench;
    for (const char* line :
         {"codes P0776", "shift 2-3 bind", "debris pan film", "debris magnet paste --coat F2",
          "debris filter clean", "solenoid B --siblings alike --swap stays",
          "bore \"B regulator\" --vacuum 11inHg --wet-air fizzes"})
        REQUIRE(bench.observe(wordsOf(line)).exit == 0);
    CHECK(bench.suggestion().at("outcome") == "repair bores");
    REQUIRE(bench.observe(wordsOf("solenoid B --swap moves")).exit == 0);
    REQUIRE(bench.observe(wordsOf("bore \"B regulator\" --vacuum 21inHg")).exit == 0);
    const json turned = bench.suggestion();
    CHECK(turned.at("outcome") == "replace solenoids");
    CHECK(turned.at("which") == json{"B"});
}

TEST_CASE("a suggestion says why, what is against it and where each rule comes from") {
    const Bench bench;
    REQUIRE(bench.observe(wordsOf("debris pan bright-metal --size S4 --machined-face")).exit == 0);
    const ProgramResult said = bench.run({"suggest", "--visit", "1", "--why"});
    CHECK(said.exit == 0);
    for (const char* part :
         {"Do not drive", "Why:", "Evidence against:", "What would change it:", "Not known:",
          "Cautions:", "rule metal_stop", "common practice, no source",
          "does not replace the maker's procedure"})
        CHECK_THAT(said.out, Catch::Contains(part));
}

TEST_CASE("two visits without photos cannot be compared, with the reason") {
    const Bench bench;
    REQUIRE(bench.run({"visit", "add", "DEMO-03", "--date", "2025-06-14", "--odometer", "130500"})
                .exit == 0);
    const ProgramResult compared = bench.run({"compare", "--visit", "1", "--with", "2"});
    CHECK(compared.exit == 1);
    CHECK_THAT(compared.err, Catch::Contains("no measured photo of the same place"));
}

TEST_CASE("suggest, eliminate and report give the same judgement") {
    const Bench bench;
    for (const char* line :
         {"codes P0733 --only-hot yes", "gear 3 slip --load firm --warmth hot",
          "gear 2 good --load firm --warmth hot", "level right", "debris pan film",
          "debris magnet paste --coat F2", "pressure low --gear 3",
          "solenoid A --ohm 12.4 --at 20C --band 11-15 --siblings alike",
          "after-repair --did \"clean and refit\"", "codes P0733 --after"})
        REQUIRE(bench.observe(line).exit == 0);
    const auto parsed = [&](const std::vector<std::string>& words) {
        const ProgramResult said = bench.run(words);
        INFO(said.err);
        REQUIRE(said.exit == 0);
        return json::parse(said.out);
    };
    const json suggested = bench.suggestion();
    const json reported = parsed({"report", "--visit", "1", "--json"});
    const json eliminated = parsed({"eliminate", "--visit", "1", "--json"});
    for (const auto& entry : reported.at("suggestion").items()) {
        INFO(entry.key());
        if (entry.key() != "all_reasons") // which the command prints with their sources
            CHECK(suggested.at(entry.key()) == entry.value());
    }
    const json &one = suggested.at("all_reasons"),
               &other = reported.at("suggestion").at("all_reasons");
    REQUIRE(one.size() == other.size());
    for (std::size_t i = 0; i < one.size(); ++i)
        CHECK(one[i].at("sentence") == other[i].at("sentence"));
    for (const auto& entry : reported.at("elimination").items()) {
        INFO(entry.key());
        CHECK(eliminated.at(entry.key()) == entry.value());
    }
    CHECK(suggested.at("suspects").size() > 0);
}

TEST_CASE("work is understood by its parts, and work without a part is refused") {
    const Bench bench;
    const std::pair<const char*, const char*> told[] = {
        {"after-repair --did \"solenoid A replaced\"", "done: solenoid A renewed"},
        {"after-repair --did \"solenoids A and B\"", "done: solenoid A, solenoid B"},
        {"after-repair --did \"bore 2-3 shift valve sleeved, filter\"",
         "done: bore 2-3 shift valve sleeved, filter"},
        {"outcome came-back --did \"valve body exchanged\"", "replace valve body, valve body"},
        {"outcome fixed --did \"Clean and refit\"", "clean and refit"}};
    for (const auto& [line, says] : told) {
        const ProgramResult outcome = bench.observe(line);
        INFO(line << "\n" << outcome.err);
        CHECK(outcome.exit == 0);
        CHECK_THAT(outcome.out, Catch::Contains(says));
    }
    for (const auto& [line, says] :
         {std::pair{"after-repair --did \"everything\"", "names no part"},
          std::pair{"after-repair --did solenoid", "Which solenoid"}}) {
        const ProgramResult outcome = bench.observe(line);
        CHECK(outcome.exit == 2);
        CHECK_THAT(outcome.err, Catch::Contains(says));
    }
}

TEST_CASE("a colour that says more than a colour is questioned") {
    const Bench bench;
    for (const auto& [line, says] : {std::pair{"fluid --colour milkshake", "--milky"},
                                     std::pair{"fluid --colour \"black, burnt\"", "--smell"},
                                     std::pair{"fluid --colour \"metallic\"", "--glitter"},
                                     std::pair{"fluid --colour \"rusty\"", "--milky"}}) {
        const ProgramResult asked = bench.observe(line);
        INFO(line << asked.err);
        CHECK(asked.exit == 2);
        CHECK_THAT(asked.err, Catch::Contains(says));
    }
    const ProgramResult note = bench.observe("complaint slip --note \"milkshake in the pan\"");
    CHECK(note.exit == 2);
    CHECK_THAT(note.err, Catch::Contains("--milky yes") && Catch::Contains("--sure"));
    CHECK(bench.observe("complaint slip --note \"milkshake in the pan\" --sure").exit == 0);
    CHECK(bench.observe("fluid --colour milkshake --milky yes").exit == 0);
    CHECK(bench.observe("fluid --colour \"dark red\"").exit == 0);
}
