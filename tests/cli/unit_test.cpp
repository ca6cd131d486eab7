// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_words_here.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fstream>

using namespace swarfbook::test;
using Catch::Contains;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

/// A book of its own, and the program on it; `typed` is its standard input.
class UnitShop {
  public:
    ProgramResult run(std::vector<std::string> words) const {
        words.insert(words.end(), {"--book", book().string()});
        return runWordsHere(words);
    }
    ProgramResult type(const std::string& typed, const std::string& verb) const {
        std::ofstream(folder_.path() / "typed") << typed;
        RunOptions shell;
        shell.program = "/bin/sh";
        return runProgram({"-c", std::string(SWARFBOOK_PROGRAM) + " " + verb + " --book " +
                                     book().string() + " < " + (folder_.path() / "typed").string()},
                          shell);
    }
    fs::path file(const std::string& name, const std::string& text) const {
        std::ofstream(folder_.path() / name) << text;
        return folder_.path() / name;
    }
    fs::path book() const { return folder_.path() / "book"; }

  private:
    TemporaryFolder folder_;
};

const std::vector<std::string> answers{"invented manual, page 3",
                                       "R, 1, 2",
                                       "clutch P, brake X, brake Y",
                                       "X Y",
                                       "P Y",
                                       "P X",
                                       "A",
                                       "on-off",
                                       "11-15",
                                       "+P",
                                       "none",
                                       "same",
                                       "off",
                                       "on",
                                       "any",
                                       "off",
                                       "none",
                                       "9.0l",
                                       "unknown",
                                       "35-45C"};

std::string lines(std::size_t from, std::size_t to) {
    std::string text;
    for (std::size_t i = from; i < to; ++i)
        text += answers[i] + "\n";
    return text;
}

const std::string table = "gear;clutch P;brake X;brake Y;solenoid A\n"
                          "R;;x;x;off\n1;x;;x;on\n2;x;x;;off\nfeeds;;;;+P\n";

} // namespace

TEST_CASE("a unit typed in question by question is kept, checked and shown") {
    const UnitShop shop;
    const ProgramResult made = shop.type(lines(0, answers.size()), "unit new 'Trial 2'");
    INFO(made.err);
    REQUIRE(made.exit == 0);
    CHECK_THAT(made.out, Contains("trial-2.json"));
    CHECK(fs::exists(shop.book() / "units/trial-2.json"));
    CHECK_FALSE(fs::exists(shop.book() / "units/trial-2.unfinished"));
    const ProgramResult shown = shop.run({"unit", "show", "Trial 2"});
    CHECK(shown.exit == 0);
    CHECK_THAT(shown.out, Contains("clutch P") && Contains("11 to 15") && Contains("35 to 45 C"));
    const ProgramResult asJson = shop.run({"unit", "show", "trial 2", "--json"});
    CHECK(json::parse(asJson.out).at("solenoids").at(0).at("feeds").at(0) == "+P");
    CHECK_THAT(shop.run({"unit", "show"}).out, Contains("Trial 2") && Contains("Demo 5"));
}

TEST_CASE("a bad answer is asked again with the reason, and the interview continues") {
    const UnitShop shop;
    const ProgramResult made =
        shop.type(lines(0, 3) + "Z\n" + lines(3, 4) + "P X\nback\n" + lines(4, answers.size()),
                  "unit new 'Trial 2'");
    INFO(made.err);
    CHECK(made.exit == 0);
    CHECK_THAT(made.err, Contains("\"Z\" is not one of the elements you named"));
    const json chart = json::parse(shop.run({"unit", "show", "Trial 2", "--json"}).out);
    CHECK(chart.at("gears").at(1).at("elements").contains("Y"));
}

TEST_CASE("answers that end early are kept, and the interview can be continued") {
    const UnitShop shop;
    const ProgramResult broken = shop.type(lines(0, 8), "unit new 'Trial 2'");
    CHECK(broken.exit == 1);
    CHECK(broken.out.empty());
    CHECK_THAT(broken.err, Contains("Stopped early; 8 answers are saved") &&
                               Contains("swarfbook unit new \"Trial 2\""));
    CHECK_FALSE(fs::exists(shop.book() / "units/trial-2.json"));
    const ProgramResult stopped = shop.type("stop\n", "unit new 'Trial 2'");
    CHECK(stopped.exit == 1);
    CHECK_THAT(stopped.err, Contains("Stopped early; 8 answers are saved"));
    const ProgramResult rest = shop.type(lines(8, answers.size()), "unit new 'Trial 2'");
    INFO(rest.err);
    CHECK(rest.exit == 0);
    CHECK_THAT(rest.err, Contains("Going on with 8 answers"));
}

TEST_CASE("a unit is read from a table in a file or pasted, and replaces another only on request") {
    const UnitShop shop;
    const fs::path file = shop.file("table.csv", table);
    const ProgramResult made = shop.run({"unit", "new", "Trial 2", "--from-table", file.string()});
    INFO(made.err);
    REQUIRE(made.exit == 0);
    const ProgramResult again = shop.run({"unit", "new", "Trial 2", "--from-table", file.string()});
    CHECK(again.exit == 2);
    CHECK_THAT(again.err, Contains("--replace"));
    const ProgramResult pasted = shop.type(table, "unit new 'Trial 2' --from-table - --replace");
    CHECK(pasted.exit == 0);
    const ProgramResult bad =
        shop.type("gear,clutch P\n1,x\n2,maybe\n", "unit new 'Trial 2' --from-table - --replace");
    CHECK(bad.exit == 2);
    CHECK_THAT(bad.err, Contains("Line 3, column P"));
    CHECK(json::parse(shop.run({"unit", "show", "Trial 2", "--json"}).out).at("gears").size() ==
          3); // the existing chart is untouched
    CHECK(shop.run({"unit", "new", "T", "--from-table", "nowhere.csv"}).exit == 2);
    CHECK(shop.run({"unit", "new", "T", "--from-table", "/"}).exit == 2);
}

TEST_CASE("a chart is checked with a sentence for each thing that does not fit") {
    const UnitShop shop;
    CHECK(shop.run({"unit", "check", "Demo 5"}).exit == 0);
    const ProgramResult made = shop.type("gear,clutch P,brake X,solenoid A\n1,x,,on\n2,x,,on\n",
                                         "unit new Odd --from-table -");
    CHECK(made.exit == 0);
    CHECK_THAT(made.err, Contains("does not fit yet"));
    const ProgramResult checked = shop.run({"unit", "check", "odd"});
    CHECK(checked.exit == 1);
    CHECK_THAT(checked.out, Contains("Gears 1 and 2 are held by the same elements.") &&
                                Contains("Gears 1 and 2 have the same states") &&
                                Contains("Element X is applied in no gear.") &&
                                Contains("Solenoid A feeds nothing."));
    const json asJson = json::parse(shop.run({"unit", "check", "odd", "--json"}).out);
    CHECK_FALSE(asJson.at("sound").get<bool>());
    CHECK(asJson.at("does_not_fit").size() == 4);
}

TEST_CASE("missing units, and files that are not charts, are answered with what to do") {
    const UnitShop shop;
    const ProgramResult none = shop.run({"unit", "show", "No Such"});
    CHECK(none.exit == 2);
    CHECK_THAT(none.err, Contains("swarfbook unit new"));
    CHECK(shop.run({"unit", "check"}).exit == 2);
    CHECK(shop.run({"unit", "sing", "it"}).exit == 2);
    CHECK(shop.run({"unit", "new", "---"}).exit == 2);
    const fs::path broken = shop.file("broken.json", "{\"unit\": 3}");
    const ProgramResult noChart = shop.run({"unit", "show", broken.string()});
    CHECK(noChart.exit == 3);
    CHECK_THAT(noChart.err, Contains("broken.json"));
}

namespace {

using Told = std::vector<std::vector<std::string>>;

/// A visit of a vehicle with this unit, and its observations.
class VisitedShop : public UnitShop {
  public:
    VisitedShop(const std::string& unit, const Told& told) {
        std::vector<std::string> add{"vehicle", "add", "DEMO-03"};
        if (!unit.empty())
            add.insert(add.end(), {"--unit", unit});
        REQUIRE(run(add).exit == 0);
        REQUIRE(run({"visit", "add", "DEMO-03", "--date", "today"}).exit == 0);
        for (std::vector<std::string> words : told) {
            words.insert(words.begin(), {"observe", "--visit", "1"});
            REQUIRE(run(words).exit == 0);
        }
    }
};

const Told thirdSlips{{"gear", "3", "slip", "--load", "firm", "--warmth", "hot"},
                      {"gear", "4", "good", "--load", "firm", "--warmth", "hot"},
                      {"gear", "2", "good", "--load", "firm", "--warmth", "hot"},
                      {"level", "right"}};

} // namespace

TEST_CASE("a chart typed under a wrong name is renamed, and the unit of its vehicles with it") {
    const VisitedShop shop("Demo 5", thirdSlips);
    CHECK(shop.run({"unit", "rename", "Demo 5", "Test 7"}).exit == 2); // comes with the program
    const fs::path shipped = fs::path(SWARFBOOK_SOURCE_DIR) / "models" / "units" / "demo-5.json";
    const fs::path units = shop.book() / "units";
    fs::create_directories(units);
    fs::copy_file(shipped, units / "demo-5.json");
    CHECK(shop.run({"unit", "rename", "Demo 5"}).exit == 2);
    CHECK(shop.run({"unit", "rename", "Demo 5", "?"}).exit == 2);
    CHECK(fs::exists(units / "demo-5.json"));
    const ProgramResult renamed = shop.run({"unit", "rename", "demo 5", "Test 7"});
    INFO(renamed.err);
    CHECK(renamed.exit == 0);
    CHECK_THAT(renamed.out, Contains("now called Test 7. So is the unit of DEMO-03."));
    CHECK_FALSE(fs::exists(units / "demo-5.json"));
    CHECK(json::parse(std::ifstream(units / "test-7.json")).at("unit") == "Test 7");
    CHECK_THAT(shop.run({"eliminate", "--visit", "1"}).out, Contains("clutch Q"));
    fs::copy_file(shipped, units / "demo-5.json");
    CHECK(shop.run({"unit", "rename", "Demo 5", "Test 7"}).exit == 2); // that name is taken
    CHECK(fs::exists(units / "demo-5.json"));
    CHECK_THAT(shop.run({"vehicle", "show", "DEMO-03"}).out, Contains("Test 7"));
    CHECK(shop.run({"vehicle", "add", "DEMO-04", "--unit", "Demo 5"}).exit == 0);
    CHECK(shop.run({"unit", "rename", "Demo 5", "Test 7"}).exit == 2);
    CHECK_THAT(shop.run({"vehicle", "show", "DEMO-04"}).out, Contains("Demo 5"));
    CHECK(shop.run({"unit", "rename", "Test 7", "TEST 7"}).exit == 0);
    CHECK(json::parse(std::ifstream(units / "test-7.json")).at("unit") == "TEST 7");
    // a withdrawn vehicle may come back, and then its chart has to be found
    REQUIRE(shop.run({"vehicle", "add", "DEMO-05", "--unit", "TEST 7"}).exit == 0);
    REQUIRE(shop.run({"vehicle", "withdraw", "DEMO-05", "--why", "added twice"}).exit == 0);
    CHECK(shop.run({"unit", "rename", "TEST 7", "Test 8"}).exit == 0);
    REQUIRE(shop.run({"vehicle", "withdraw", "DEMO-05", "--undo"}).exit == 0);
    CHECK_THAT(shop.run({"vehicle", "show", "DEMO-05"}).out, Contains("Test 8"));
}

TEST_CASE("a visit's gears leave suspects, with their table and the next test") {
    const VisitedShop shop("demo 5", thirdSlips);
    const ProgramResult told = shop.run({"eliminate", "--visit", "1"});
    INFO(told.err);
    REQUIRE(told.exit == 0);
    CHECK_THAT(told.out, Contains("clutch Q") && Contains("suspect") &&
                             Contains("The next test:") && Contains("Seen in that gear") &&
                             Contains("does not replace"));
    const json found = json::parse(shop.run({"eliminate", "--visit", "1", "--json"}).out);
    CHECK(found.at("format") == "swarfbook elimination 1");
    CHECK(found.at("elements").at("hard") == json({"Q"}));
    const json suggestion = json::parse(shop.run({"suggest", "--visit", "1", "--json"}).out);
    CHECK(suggestion.at("suspects").size() >= 1);
    const json report = json::parse(shop.run({"report", "--visit", "1", "--json"}).out);
    CHECK(report.at("elimination").at("summary") == found.at("summary"));
    CHECK_THAT(shop.run({"report", "--visit", "1", "--text", "--full"}).out,
               Contains("ELIMINATION BY GEAR") && Contains("clutch Q"));
}

TEST_CASE("elimination says what it lacks") {
    CHECK_THAT(VisitedShop("", thirdSlips).run({"eliminate", "--visit", "1"}).err,
               Contains("vehicle unit LABEL") && Contains("--unit"));
    const VisitedShop later("", thirdSlips);
    CHECK(later.run({"vehicle", "unit", "DEMO-03"}).exit == 2);
    CHECK(later.run({"vehicle", "unit", "DEMO-03", "--unit", "Demo 5"}).exit == 0);
    CHECK(later.run({"eliminate", "--visit", "1"}).exit == 0);
    CHECK(later.run({"vehicle", "unit", "DEMO-03", "--unit", "Other 9"}).exit == 2);
    const VisitedShop unknown("Other 9", thirdSlips);
    const ProgramResult none = unknown.run({"eliminate", "--visit", "1"});
    CHECK(none.exit == 1);
    CHECK_THAT(none.err, Contains("unit new \"Other 9\""));
    CHECK(unknown.run({"eliminate", "--visit", "1", "--unit", "Demo 5"}).exit == 0);
    CHECK(unknown.run({"eliminate", "--visit", "1", "--unit", "Neither"}).exit == 2);
    CHECK_THAT(unknown.run({"suggest", "--visit", "1"}).out, Contains("no application chart"));
    const ProgramResult nothing = VisitedShop("Demo 5", {}).run({"eliminate", "--visit", "1"});
    CHECK(nothing.exit == 1);
    CHECK_THAT(nothing.err, Contains("observe --visit 1 gear 3 slip"));
    CHECK_THAT(unknown.run({"eliminate"}).err, Contains("visit 1 of DEMO-03"));
    CHECK(unknown.run({"eliminate", "--visit", "9"}).exit == 2);
}

TEST_CASE("elimination lists each pair of parts once, and says which gears were not driven") {
    const std::vector<std::string> hard{"--load", "firm", "--warmth", "hot"};
    Told told{
        {"gear", "R", "slip"}, {"gear", "4", "slip"}, {"gear", "3", "good"}, {"gear", "2", "good"}};
    for (auto& words : told)
        words.insert(words.end(), hard.begin(), hard.end());
    const VisitedShop shop("Demo 5", told);
    const std::string text = shop.run({"eliminate", "--visit", "1"}).out;
    // T, A and the 3-4 valve hold or feed gear 4 alone; Y and B gear R alone: three times two
    // pairs, a solenoid's circuit going with the solenoid
    CHECK_THAT(text, Contains("6 pairs of parts would: ") &&
                         Contains("clutch T with solenoid B or its circuit"));
    CHECK_THAT(text, Contains("not driven") && !Contains("  open  "));
}
