// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/typed_observation.h"

#include <catch2/catch.hpp>

#include <set>

using namespace swarfbook;
using nlohmann::json;

namespace {

using Options = std::map<std::string, std::string>;

json stored(const std::string& form, const std::vector<std::string>& values,
            const Options& options = {}) {
    return toJson(observationTyped({form, values, options}));
}

} // namespace

TEST_CASE("every field of every kind can be typed, stored, described and asked for") {
    for (const ObservationForm& form : observationForms()) {
        INFO(form.name);
        std::set<std::string_view> typed;
        for (const FieldEntry* field : form.options()) {
            typed.insert(field->about.option);
            CHECK_FALSE(field->help().empty());
        }
        for (const FieldEntry& field : fieldsOfKind(form.kind)) {
            INFO(field.name);
            const bool word = std::any_of(form.words.begin(), form.words.end(),
                                          [&](const auto& w) { return w.field == field.name; });
            const bool ofTheForm = field.name == "gear" || field.name == "shift";
            const bool byWord = word || field.about.option.empty();
            CHECK((byWord || ofTheForm || typed.contains(field.about.option)));
        }
    }
}

// Words of the trade with what they say of kind and size: common practice, no source.
TEST_CASE("the trade's words for debris are understood") {
    const std::pair<std::vector<std::string>, json> words[] = {
        {{"pan", "flakes"}, {{"place", "pan"}, {"what", "bright-metal"}, {"size", "S2"}}},
        {{"sump", "glitter"}, {{"place", "pan"}, {"what", "bright-metal"}, {"size", "S1"}}},
        {{"pan", "chips"}, {{"place", "pan"}, {"what", "bright-metal"}, {"size", "S4"}}},
        {{"pan", "gold", "flakes"}, {{"place", "pan"}, {"what", "yellow-metal"}, {"size", "S2"}}},
        {{"pan", "few", "brass", "specks"},
         {{"place", "pan"}, {"what", "yellow-metal"}, {"size", "S1"}, {"amount", "few"}}},
        {{"filter", "black", "flakes"}, {{"place", "filter"}, {"what", "lining"}, {"size", "S2"}}},
        {{"filter", "clutch", "material"}, {{"place", "filter"}, {"what", "lining"}}},
        {{"converter", "drain", "paste"}, {{"place", "converter-drain"}, {"what", "paste"}}},
        {{"pan", "rust"}, {{"place", "pan"}, {"what", "rust"}}},
        {{"pan", "aluminium"}, {{"place", "pan"}, {"what", "bright-metal"}, {"magnetic", "no"}}},
        {{"pan", "bright", "metal"}, {{"place", "pan"}, {"what", "bright-metal"}}},
    };
    for (const auto& [typed, expected] : words) {
        INFO(typed.back());
        CHECK(stored("debris", typed) == expected);
    }
    CHECK_THROWS_AS(stored("debris", {"pan", "wobbles"}), UsageError);
    CHECK_THROWS_AS(stored("debris", {"pan", "gold", "wobbles"}), UsageError);
}

// Size classes as models/suggestion.json is shipped: to 0.1, 0.5, 1 and 3 mm.
TEST_CASE("a length is kept as typed beside its size class") {
    const std::pair<const char*, const char*> lengths[] = {
        {"2mm", "S3"}, {"0.02in", "S2"}, {"0.08mm", "S0"}, {"0,3 mm", "S1"}, {"1/4\"", "S4"}};
    for (const auto& [typed, size] : lengths) {
        const json debris = stored("debris", {"pan", "steel"}, {{"size", typed}});
        CHECK(debris.at("size") == size);
        CHECK(debris.at("length_mm").at("typed") == typed);
    }
    CHECK(stored("debris", {"pan", "steel"}, {{"size", "s2"}}).contains("length_mm") == false);
}

TEST_CASE("a leak has an amount, and an end play is a reading") {
    const json leak = stored("solenoid", {"A"}, {{"leak-off", "12 ml/min"}, {"leak-on", "n"}});
    CHECK(leak.at("leak_off") == "leaks");
    CHECK(leak.at("leak_off_ml_min").at("value") == 12.0);
    CHECK(leak.at("leak_on") == "seals");
    // 20 ml in half a minute are 40 a minute
    CHECK(stored("solenoid", {"A"}, {{"leak-off", "20 ml in 30 s"}})
              .at("leak_off_ml_min")
              .at("value") == 40.0);
    CHECK(stored("solenoid", {"A"}, {{"leak-off", "0 ml/min"}}).at("leak_off") == "seals");
    CHECK(stored("level", {"low", "1", "l"}, {{"leak", "cooler line"}, {"leak-amount", "drips"}})
              .at("leak_amount") == "drips");
    for (const char* amount : {"drop", "drops", "dropping", "dripping"})
        CHECK(stored("level", {"low"}, {{"leak", "pan"}, {"leak-amount", amount}})
                  .at("leak_amount") == "drips");
    const json play = stored("end-play", {"0.7mm"}, {{"makers", "0.2-0.6mm"}});
    CHECK(play.at("result") == "excess");
    CHECK(play.at("reading_mm").at("typed") == "0.7mm");
    CHECK(stored("end-play", {"0.4", "mm"}, {{"makers", "0.2-0.6mm"}}).at("result") == "normal");
    CHECK_FALSE(stored("end-play", {"16 thou"}).contains("result"));
    CHECK(stored("end-play", {"too", "much"}).at("result") == "excess");
    CHECK_THROWS_WITH(stored("end-play", {"7mm"}), Catch::Contains("--sure"));
    CHECK_THROWS_WITH(stored("end-play", {"0.1mm"}, {{"makers", "0.2-0.6mm"}}),
                      Catch::Contains("less than the maker's least"));
}

TEST_CASE("none is no drive in a gear, no complaint of the whole, and asked about elsewhere") {
    CHECK(stored("gear", {"3", "none"}).at("symptom") == "no-drive");
    CHECK(stored("complaint", {"none"}).at("symptom") == "good");
    CHECK_THROWS_WITH(stored("complaint", {"none"}, {{"gear", "3"}}), Catch::Contains("no-drive"));
    CHECK_THROWS_WITH(stored("shift", {"2-3", "none"}), Catch::Contains("no-drive"));
    CHECK_THROWS_WITH(stored("road-test", {"3", "none"}), Catch::Contains("no-drive"));
}

TEST_CASE("a line that says nothing is refused") {
    for (const char* form : {"fluid", "history", "converter", "valve-body", "after-repair"})
        CHECK_THROWS_WITH(stored(form, {}), Catch::Contains("Say what was found"));
    CHECK_THROWS_AS(stored("solenoid", {"A"}), UsageError);
    CHECK_THROWS_AS(stored("cooler", {}), UsageError);
}

TEST_CASE("blanks in place of a word say nothing, least of all that no code was stored") {
    for (const ObservationForm& form : observationForms()) {
        if (form.words.empty() || !form.words.front().required)
            continue;
        INFO(form.name);
        CHECK_THROWS_AS(stored(form.name, {""}), UsageError);
        CHECK_THROWS_AS(stored(form.name, {" "}), UsageError);
    }
    CHECK_THROWS_AS(stored("codes", {","}), UsageError);
    CHECK_THROWS_AS(stored("codes", {"and"}), UsageError);
    CHECK(stored("codes", {"none"}).at("codes").empty());
}

TEST_CASE("both spellings of an option are understood") {
    CHECK(stored("fluid", {}, {{"color", "red"}}) == stored("fluid", {}, {{"colour", "red"}}));
}

TEST_CASE("where a coil was read is said by an option that stands alone") {
    CHECK(stored("solenoid", {"A"}, {{"ohm", "open"}, {"at-pins", ""}}).at("coil_at") == "pins");
    CHECK(stored("solenoid", {"A"}, {{"ohm", "12"}, {"at-connector", ""}}).at("coil_at") ==
          "connector");
    CHECK_THROWS_AS(stored("solenoid", {"A"}, {{"at-pins", ""}, {"at-connector", ""}}), UsageError);
}

TEST_CASE("a colour that says more than a colour is asked about") {
    CHECK_THROWS_WITH(stored("fluid", {}, {{"colour", "milkshake"}}), Catch::Contains("--milky"));
    CHECK_THROWS_WITH(stored("fluid", {}, {{"colour", "burnt brown"}}), Catch::Contains("--smell"));
    CHECK(stored("fluid", {}, {{"colour", "burnt brown"}, {"smell", "burnt"}}).size() == 2);
}

TEST_CASE("every coat of a magnet has words of its own, and none is a code") {
    std::set<std::string_view> all;
    for (const auto& [coat, code] : EnumNames<Coat>::all) {
        const std::string_view words = coatInWords(coat);
        CHECK(words.find(code) == std::string_view::npos);
        CHECK(words.find_first_of("01234") == std::string_view::npos);
        all.insert(words);
    }
    CHECK(all.size() == EnumNames<Coat>::all.size());
}

// Words that people use for the same; common practice, no source.
TEST_CASE("a kind is understood in the singular, in the plural and by other usual words") {
    for (const auto& [typed, meant] :
         std::vector<std::pair<std::string, std::string>>{{"codes", "codes"},
                                                          {"code", "codes"},
                                                          {"Codes", "codes"},
                                                          {"DTC", "codes"},
                                                          {"solenoids", "solenoid"},
                                                          {"gears", "gear"},
                                                          {"road_test", "road-test"},
                                                          {"oil", "fluid"},
                                                          {"complaints", "complaint"}}) {
        INFO(typed);
        const ObservationForm* form = formNamed(typed);
        REQUIRE(form != nullptr);
        CHECK(form->name == meant);
    }
    for (const char* other : {"", "s", "cods", "filter", "P0741", "seals"})
        CHECK(formNamed(other) == nullptr);
    for (const ObservationForm& form : observationForms())
        CHECK(formNamed(form.name) == &form);
}

TEST_CASE("an unknown kind is answered with the kind that was perhaps meant") {
    using Catch::Matchers::Contains;
    CHECK_THROWS_WITH(observationForm("cods"), Contains("Did you mean codes"));
    CHECK_THROWS_WITH(observationForm("solenid"), Contains("Did you mean solenoid?"));
    CHECK_THROWS_WITH(observationForm("P0741"), Contains("swarfbook observe codes P0741"));
    CHECK_THROWS_WITH(observationForm("xylophone"), Contains("Say one of: since-clean, history"));
}

TEST_CASE("the magnets in the pan are typed by number, form, size and whether one was added") {
    const json told =
        stored("magnets", {"2"}, {{"form", "ring"}, {"size", "30mm"}, {"added", "no"}});
    CHECK(told.at("count") == "2");
    CHECK(told.at("form") == "ring");
    CHECK(told.at("added") == false);
    CHECK(told.at("size_mm").at("value") == 30.0);
    CHECK(describe(observationTyped({"magnets", {"2"}, {{"form", "round"}, {"added", "yes"}}})) ==
          "magnets: 2, disc, one was added since the last clean");
    CHECK(formNamed("magnet") == nullptr); // a place of debris, as in "debris magnet paste"
    CHECK_THROWS_WITH(stored("magnets", {"two"}), Catch::Contains("not a number of magnets"));
    CHECK_THROWS_WITH(stored("magnets", {"12"}), Catch::Contains("--sure"));
    CHECK_THROWS_WITH(stored("magnets", {"0"}, {{"form", "ring"}}),
                      Catch::Contains("leave --form and --size out"));
}
