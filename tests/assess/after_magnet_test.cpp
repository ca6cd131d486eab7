// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/after_magnet.h"
#include "assess/measurement_json.h"
#include "assess/wide_card.h"
#include "rendered/used_surface.h"

#include <catch2/catch.hpp>

#include <string>
#include <utility>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const AssessData& sweepData() {
    static const AssessData loaded = loadAssessData();
    return loaded;
}

// Source of all truth here: drawn scenes. Seven bars lie on the pad; the last three go.
Drawing bars(int count) {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    for (int i = 0; i < count; ++i)
        drawing.pieces.push_back(
            {{33.0 + 8.0 * i, 28.0 + 7.0 * (i % 4)}, 1.2 + 0.1 * i, 0.78, 20.0 * i});
    return drawing;
}

Photo photoOf(const Drawing& drawing, std::uint64_t seed) {
    Photo photo = photograph(drawing, Camera{}, {1.0, 1.0, 1.5, 1.0, seed});
    photo.facts.sha256 = std::string(64, static_cast<char>('a' + seed));
    return photo;
}

PhotoFile after(const Drawing& drawing, std::uint64_t seed) {
    return {"after.jpg", std::string(64, static_cast<char>('a' + seed)), photoOf(drawing, seed)};
}

Measurement swept(PhotoFile second, const AssessOptions& options = {}) {
    Measurement m = assessPhoto(photoOf(bars(7), 1), sweepData(), options);
    REQUIRE_FALSE(m.refusal);
    REQUIRE(m.debris->particles.size() == 7);
    assessAfterMagnet(m, std::move(second), sweepData(), options);
    return m;
}

/// The measurement stands as it would without the second photo, and says why that was not used.
void checkNotSwept(const Measurement& m, const std::string& why) {
    REQUIRE(m.afterMagnet);
    CHECK_FALSE(m.afterMagnet->sweep);
    INFO(m.afterMagnet->whyNot);
    CHECK(m.afterMagnet->whyNot.find(why) != std::string::npos);
    REQUIRE_FALSE(m.cautions.empty());
    CHECK(m.cautions.back() == afterMagnetCaution(*m.afterMagnet));
    CHECK(m.debris->particles.size() == 7);
    for (const Particle& p : m.debris->particles)
        CHECK(p.ferrous == Ferrous::notKnown);
    const auto d = toJson(m);
    CHECK(d["after_magnet"]["used"] == false);
    CHECK(d["after_magnet"]["why_not"] == m.afterMagnet->whyNot);
    CHECK(toJson(measurementFromJson(d)) == d);
}

} // namespace

TEST_CASE("the document says of every piece whether a magnet took it", "[sweep]") {
    const Measurement m = swept(after(bars(4), 2));
    REQUIRE(m.afterMagnet);
    INFO(m.afterMagnet->whyNot);
    REQUIRE(m.afterMagnet->sweep);
    CHECK(m.cautions.empty());
    const auto d = toJson(m);
    for (const auto& piece : d["particles"])
        CHECK(piece["ferrous"] == (piece["x_mm"].get<double>() > 60.0));
    CHECK(d["after_magnet"]["file"] == "after.jpg");
    CHECK(d["after_magnet"]["used"] == true);
    CHECK(d["after_magnet"]["pieces"]["gone"] == 3);
    CHECK(d["after_magnet"]["pieces"]["left"] == 4);
    CHECK(d["after_magnet"]["pieces"]["not_known"] == 0);
    CHECK(d["after_magnet"]["pieces"]["share_by_count"]["share"] == 0.4286); // 3 of 7
    // Few pieces: the limit is the greater of both photos' size limits.
    CHECK(d["after_magnet"]["limit_by"] == "size limits");
    CHECK(d["after_magnet"]["judged_from_mm"].get<double>() >=
          d["size_floor_mm"].get<double>() - 1e-9);
    CHECK(toJson(measurementFromJson(d)) == d);
}

TEST_CASE("a document without a photo after a magnet says so and older ones are read", "[sweep]") {
    auto d = toJson(assessPhoto(photoOf(bars(7), 1), sweepData(), {}));
    CHECK(d["after_magnet"].is_null());
    for (const auto& piece : d["particles"])
        CHECK(piece["ferrous"].is_null());
    d.erase("after_magnet");
    CHECK_FALSE(measurementFromJson(d).afterMagnet);
}

TEST_CASE("a photo after the magnet that cannot be used says why", "[sweep]") {
    SECTION("the very photo") {
        checkNotSwept(swept(after(bars(7), 1)), "very photo");
    }
    SECTION("no card in it") {
        Photo empty;
        empty.bgr = cv::Mat(600, 800, CV_8UC3, cv::Scalar(150, 150, 150));
        checkNotSwept(swept({"after.jpg", std::string(64, 'q'), empty}), "card");
    }
    SECTION("another place") {
        Drawing other;
        other.layout = layoutNamed("close");
        const PointOnCard places[] = {{34.0, 55.0}, {47.0, 33.0}, {77.0, 55.0}, {60.0, 26.0},
                                      {38.0, 43.0}, {70.0, 38.0}, {55.0, 54.0}};
        for (const PointOnCard& at : places)
            other.pieces.push_back({at, 1.4, 0.6, 3.0 * at.x});
        checkNotSwept(swept(after(other, 3)), "do not lie where");
    }
    SECTION("another card") {
        checkNotSwept(swept({"after.jpg", std::string(64, 'r'), photoOfBareWideCard()}),
                      "wide card");
    }
    SECTION("the photo of the cleaned place") {
        AssessOptions options;
        options.cleanReference = std::make_shared<const PhotoFile>(after(bars(0), 4));
        checkNotSwept(swept(after(bars(0), 4), options), "cleaned place");
    }
}

TEST_CASE("photos given the wrong way round are told", "[sweep]") {
    Measurement m = assessPhoto(photoOf(bars(3), 1), sweepData(), {});
    REQUIRE_FALSE(m.refusal);
    const Drawing more = [] {
        Drawing drawing = bars(7);
        for (int i = 0; i < 3; ++i)
            drawing.pieces.push_back({{36.0 + 8.0 * i, 60.0}, 1.5, 0.7, 10.0 * i});
        return drawing;
    }();
    assessAfterMagnet(m, after(more, 5), sweepData(), {});
    REQUIRE(m.afterMagnet);
    CHECK_FALSE(m.afterMagnet->sweep);
    CHECK(m.afterMagnet->whyNot.find("before the magnet first") != std::string::npos);
    for (const Particle& p : m.debris->particles)
        CHECK(p.ferrous == Ferrous::notKnown);
}
