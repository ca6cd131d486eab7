// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "files/temporary_folder.h"
#include "scenario.h"

#include <catch2/catch.hpp>

#include <functional>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {
SuggestionModel loadChanged(const std::function<void(nlohmann::json&)>& change) {
    std::ifstream in(fs::path(SWARFBOOK_SOURCE_DIR) / "models/suggestion.json");
    nlohmann::json model = nlohmann::json::parse(in);
    change(model);
    return loadSuggestionModel(TemporaryFile(model.dump()).path());
}
} // namespace

TEST_CASE("every limit and rule states where it comes from") {
    CHECK(suggestionModel().limits.size() > 20);
    for (const auto& [name, limit] : suggestionModel().limits) {
        INFO(name);
        CHECK_FALSE(limit.source.empty());
        CHECK_FALSE(limit.unit.empty());
    }
    for (const auto& [name, rule] : suggestionModel().rules) {
        INFO(name);
        CHECK_FALSE(rule.source.empty());
        CHECK_FALSE(rule.words.empty());
        CHECK_FALSE(rule.reads.empty());
    }
}

// Both files are settings. Change them together.
TEST_CASE("taking the pan or the valve body off takes the minutes of the bench tests") {
    std::ifstream in(fs::path(SWARFBOOK_SOURCE_DIR) / "models/bench-tests.json");
    const std::string file{std::istreambuf_iterator<char>(in), {}};
    const auto minutes = [&](const std::string& name) {
        const auto at = file.find('"' + name + '"');
        REQUIRE(at != std::string::npos);
        return std::stod(file.substr(file.find("\"value\":", at) + 8));
    };
    CHECK(suggestionModel().minutes.at("take-pan-off") == minutes("take_pan_off"));
    CHECK(suggestionModel().minutes.at("take-valve-body-off") == minutes("take_valve_body_off"));
}

TEST_CASE("a faulty model is refused with its name") {
    CHECK_THROWS_WITH(loadSuggestionModel("nowhere.json"), Catch::Contains("nowhere.json"));
    CHECK_THROWS_WITH(loadChanged([](auto& m) { m["limits"]["bore_pass"]["value"] = 30; }),
                      Catch::Contains("bore_good"));
    CHECK_THROWS_WITH(loadChanged([](auto& m) { m["limits"]["bore_pass"]["source"] = ""; }),
                      Catch::Contains("bore_pass"));
    CHECK_THROWS_WITH(loadChanged([](auto& m) { m["limits"].erase("recheck_usual"); }),
                      Catch::Contains("recheck_usual"));
    CHECK_THROWS_AS(loadChanged([](auto& m) { m["format"] = "other"; }), ToolError);
}

TEST_CASE("a changed limit changes the answer") {
    // the shop's own stand and experience rule: with a looser limit 11 inHg passes
    const SuggestionModel loose = loadChanged([](auto& m) {
        m["limits"]["bore_heavy_leak"]["value"] = 5;
        m["limits"]["bore_marginal"]["value"] = 6;
        m["limits"]["bore_pass"]["value"] = 8;
        m["limits"]["bore_good"]["value"] = 10;
    });
    CHECK(suggest(scenario("16").evidence, suggestionModel()).outcome ==
          Recommendation::repairBores);
    CHECK(suggest(scenario("16").evidence, loose).outcome != Recommendation::repairBores);
}
