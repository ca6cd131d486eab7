// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/measurement_json.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace swarfbook;
using nlohmann::json;

namespace {

/// What the last program that wrote format 1 measured in a demo photo, cut down to one piece of
/// each type; its counts are those of the whole photo.
json storedDocument() {
    std::ifstream file(std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "tests/assess/format-1.json");
    return json::parse(file);
}

} // namespace

// Source: the project's own written formats 1 and 2.
TEST_CASE("a document of format 1 is read with its types, and written as format 2") {
    const json old = storedDocument();
    REQUIRE(old.at("format") == "swarfbook measurement 1");
    const Measurement read = measurementFromJson(old);
    REQUIRE(read.debris);
    const auto written = toJson(read);
    CHECK(written.at("format") == "swarfbook measurement 2");
    REQUIRE(written.at("particles").size() == old.at("particles").size());
    int different = 0;
    for (std::size_t i = 0; i < old.at("particles").size(); ++i) {
        const json& before = old["particles"][i];
        const auto& now = written["particles"][i];
        const std::string was = before.at("look");
        CHECK(now.at("type") == (was == "polymer"     ? "plastic"
                                 : was == "undecided" ? "unidentified"
                                                      : was));
        different += now.at("type") != was ? 1 : 0;
        CHECK(now.at("type_probability").get<double>() ==
              before.at("look_probability").get<double>());
        CHECK_FALSE(now.contains("look"));
    }
    CHECK(different == 2);
}

TEST_CASE("the counts of a document of format 1 keep every piece of every type") {
    const json old = storedDocument();
    const auto written = toJson(measurementFromJson(old));
    REQUIRE(written.at("counts").size() == old.at("counts").size());
    for (std::size_t i = 0; i < old.at("counts").size(); ++i) {
        json expected = old["counts"][i].at("by_look");
        for (const auto& [was, is] :
             {std::pair{"polymer", "plastic"}, {"undecided", "unidentified"}})
            if (expected.contains(was)) {
                expected[is] = expected[was];
                expected.erase(was);
            }
        CHECK(json(written["counts"][i].at("by_type")) == expected);
    }
}

TEST_CASE("the slivers of a magnet in a document of format 1 keep their types") {
    json old = storedDocument();
    old["magnet"] = json::parse(R"({"shape": "ring", "size_mm": [30.1, 14.2], "covered_share": 0.4,
        "covered_share_u": 0.03, "overhang_mean_mm": 0.3, "overhang_p95_mm": 0.9,
        "overhang_max_mm": 1.4, "outline_lost": false, "outlines_mm": [], "slivers": []})");
    old["magnet"]["slivers"] = old["particles"];
    const Measurement read = measurementFromJson(old);
    REQUIRE(read.magnet);
    REQUIRE(read.magnet->slivers.size() == old["particles"].size());
    for (std::size_t i = 0; i < read.magnet->slivers.size(); ++i)
        CHECK(read.magnet->slivers[i].type == read.debris->particles.at(i).type);
}

TEST_CASE("a word of format 1 is refused in a document of format 2, and the other way round") {
    json document = json(toJson(measurementFromJson(storedDocument())));
    document["particles"][0]["type"] = "undecided";
    CHECK_THROWS_WITH(measurementFromJson(document), Catch::Contains("undecided"));
    json old = storedDocument();
    old["particles"][0].erase("look");
    CHECK_THROWS_WITH(measurementFromJson(old), Catch::Contains("type"));
}
