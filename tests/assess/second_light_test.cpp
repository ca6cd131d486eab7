// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "assess/measurement_json.h"
#include "assess/second_light.h"
#include "assess/wide_card.h"
#include "rendered/used_surface.h"

#include <catch2/catch.hpp>

#include <memory>
#include <string>
#include <utility>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const AssessData& dataForLights() {
    static const AssessData loaded = loadAssessData();
    return loaded;
}

// Source of all truth here: drawn scenes. Six bars lie on the white card.
Drawing sixBars(double light = 0.04) {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    for (int i = 0; i < 6; ++i) {
        drawing.pieces.push_back(
            {{33.0 + 8.0 * i, 28.0 + 7.0 * (i % 4)}, 1.4 + 0.1 * i, 0.7, 20.0 * i});
        drawing.pieces.back().light = {light, light, light};
    }
    return drawing;
}

Photo litPhoto(const Drawing& drawing, std::uint64_t seed) {
    Photo photo = photograph(drawing, Camera{}, {1.0, 1.0, 1.2, 1.0, seed});
    photo.facts.sha256 = std::string(64, static_cast<char>('a' + seed));
    return photo;
}

std::shared_ptr<const PhotoFile> secondOf(const Drawing& drawing, std::uint64_t seed) {
    return std::make_shared<const PhotoFile>(PhotoFile{
        "second.jpg", std::string(64, static_cast<char>('a' + seed)), litPhoto(drawing, seed)});
}

Measurement inTwoLights(std::shared_ptr<const PhotoFile> second, Place place = Place::pad) {
    AssessOptions options;
    options.place = place;
    options.secondLight = std::move(second);
    return assessPhoto(litPhoto(sixBars(), 1), dataForLights(), options);
}

/// The measurement stands as it would without the second photo, and says why that was not used.
void checkNoSecondLight(const Measurement& m, const std::string& why) {
    REQUIRE(m.secondLight);
    CHECK_FALSE(m.secondLight->used);
    INFO(m.secondLight->whyNot);
    CHECK(m.secondLight->whyNot.find(why) != std::string::npos);
    REQUIRE_FALSE(m.cautions.empty());
    CHECK(m.cautions.back() == secondLightCaution(*m.secondLight));
    CHECK(m.debris->particles.size() == 6);
    const auto d = toJson(m);
    CHECK(d["second_light"]["used"] == false);
    CHECK(d["second_light"]["why_not"] == m.secondLight->whyNot);
    CHECK_FALSE(d["particles"][0].contains("second_light"));
    CHECK(toJson(measurementFromJson(d)) == d);
}

} // namespace

TEST_CASE("the document keeps what each of two lights said of every piece", "[second-light]") {
    const Measurement m = inTwoLights(secondOf(sixBars(0.30), 2));
    REQUIRE_FALSE(m.refusal);
    REQUIRE(m.secondLight);
    INFO(m.secondLight->whyNot);
    REQUIRE(m.secondLight->used);
    CHECK(m.cautions.empty());
    CHECK(m.debris->particles.size() == 6);
    const auto d = toJson(m);
    CHECK(d["second_light"]["file"] == "second.jpg");
    CHECK(d["second_light"]["used"] == true);
    CHECK(d["second_light"]["pieces_in_both"] == 6);
    // Drawn: (0.30 - 0.04) / 0.60 of the card's white; the blurred rim changes less.
    CHECK(d["second_light"]["median_change"].get<double>() > 0.2);
    CHECK(d["second_light"]["median_change"].get<double>() < 0.45);
    for (const auto& piece : d["particles"]) {
        CHECK(piece["second_light"]["first"].contains("type"));
        CHECK(piece["second_light"]["second"]["probability"].get<double>() > 0.0);
    }
    CHECK(toJson(measurementFromJson(d)) == d);
}

TEST_CASE("a second photo in the same light is said to add little", "[second-light]") {
    const Measurement m = inTwoLights(secondOf(sixBars(), 3));
    REQUIRE(m.secondLight);
    REQUIRE(m.secondLight->used);
    REQUIRE_FALSE(m.cautions.empty());
    CHECK(m.cautions.back().find("much the same") != std::string::npos);
}

TEST_CASE("a document without a second light says so and older ones are read", "[second-light]") {
    auto d = toJson(assessPhoto(litPhoto(sixBars(), 1), dataForLights(), {}));
    CHECK(d["second_light"].is_null());
    for (const auto& piece : d["particles"])
        CHECK_FALSE(piece.contains("second_light"));
    d.erase("second_light");
    CHECK_FALSE(measurementFromJson(d).secondLight);
}

TEST_CASE("a second light that cannot be used says why", "[second-light]") {
    SECTION("the very photo") {
        checkNoSecondLight(inTwoLights(secondOf(sixBars(), 1)), "very photo");
    }
    SECTION("no card in it") {
        Photo empty;
        empty.bgr = cv::Mat(600, 800, CV_8UC3, cv::Scalar(150, 150, 150));
        checkNoSecondLight(inTwoLights(std::make_shared<const PhotoFile>(
                               PhotoFile{"second.jpg", std::string(64, 'q'), empty})),
                           "card");
    }
    SECTION("another card") {
        checkNoSecondLight(inTwoLights(std::make_shared<const PhotoFile>(PhotoFile{
                               "second.jpg", std::string(64, 'r'), photoOfBareWideCard()})),
                           "wide card");
    }
    SECTION("other debris") {
        Drawing other;
        other.layout = layoutNamed("close");
        for (const PointOnCard at : {PointOnCard{34.0, 55.0},
                                     {47.0, 33.0},
                                     {77.0, 55.0},
                                     {62.0, 26.0},
                                     {38.0, 43.0},
                                     {70.0, 40.0}})
            other.pieces.push_back({at, 1.4, 0.6, 3.0 * at.x});
        checkNoSecondLight(inTwoLights(secondOf(other, 4)), "does not show the pieces");
    }
}
