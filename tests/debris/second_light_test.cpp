// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/measure_debris.h"
#include "debris/second_light.h"
#include "debris/shipped_models.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

using namespace swarfbook;
using namespace swarfbook::test;

// Outside truth: everything drawn is known, the pinhole cameras too.
namespace {

constexpr double paperLight = 0.6; // of Drawing

Camera heldCamera(double tilt = 8.0) {
    Camera camera;
    camera.tilt = tilt;
    camera.azimuth = 60.0;
    camera.roll = 3.0;
    return camera;
}

/// A photo ready to measure.
struct LitShot {
    CalibratedPhoto photo;
    PreparedWindow window;
    [[nodiscard]] SurfacePhoto surface() const { return {photo, window}; }
};

LitShot litShot(const std::vector<Piece>& pieces, std::uint64_t seed, const Camera& camera,
                double gain = 1.0) {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    drawing.pieces = pieces;
    auto photo = calibratePhoto(photograph(drawing, camera, {1.0, 1.0, 1.2, gain, seed}),
                                allLayouts(), std::nullopt);
    REQUIRE(photo);
    const auto window = prepareWindow(*photo, true);
    REQUIRE(window);
    return {*photo, *window};
}

/// Twelve black discs that lie in both photos, moved by `dx` mm.
std::vector<Piece> blackDiscs(double dx = 0.0) {
    std::vector<Piece> pieces;
    for (int i = 0; i < 12; ++i)
        pieces.push_back({{30.0 + 14.0 * (i % 4) + dx, 25.0 + 13.0 * (i / 4)}, 0.8 + 0.1 * i});
    return pieces;
}

SecondLight laid(const LitShot& first, const LitShot& second) {
    auto result = laySecondLight(first.surface(), second.surface(), shippedModels().pieces);
    if (const auto* misfit = std::get_if<SecondLightMisfit>(&result))
        FAIL(misfit->detail);
    return std::get<SecondLight>(std::move(result));
}

SecondLightMisfit misfitOf(const LitShot& first, const LitShot& second) {
    const auto result = laySecondLight(first.surface(), second.surface(), shippedModels().pieces);
    REQUIRE(std::holds_alternative<SecondLightMisfit>(result));
    return std::get<SecondLightMisfit>(result);
}

DebrisFinding findingOf(const LitShot& shot, std::optional<SecondLight> second) {
    DebrisOptions options;
    options.secondLight = std::move(second);
    return measureDebris(shot.photo, shot.window, shippedModels(), options);
}

const Particle* foundAt(const DebrisFinding& finding, PointOnCard place) {
    for (const Particle& one : finding.particles)
        if (std::hypot(one.centre.x - place.x, one.centre.y - place.y) < 0.4)
            return &one;
    return nullptr;
}

bool counted(const DebrisFinding& finding, PointOnCard place) {
    const Particle* piece = foundAt(finding, place);
    return piece != nullptr && !piece->mayBeNone();
}

} // namespace

// Closed form: the mean of two log-odds is the log of the geometric mean of the odds.
TEST_CASE("two answers are combined by the mean of their log-odds", "[second-light]") {
    const cv::Mat first = (cv::Mat_<uchar>(1, 5) << 0, 77, 255, 230, 255);
    const cv::Mat second = (cv::Mat_<uchar>(1, 5) << 0, 77, 255, 128, 0);
    const cv::Mat both = togetherOf(first, second);
    CHECK(both.at<uchar>(0) == 0);
    CHECK(both.at<uchar>(1) == 77);
    CHECK(both.at<uchar>(2) == 255);
    const double odds = std::sqrt(230.0 / 25.0 * 128.0 / 127.0);
    CHECK(std::abs(both.at<uchar>(3) - 255.0 * odds / (1.0 + odds)) <= 1.0);
    CHECK(std::abs(both.at<uchar>(4) - 127.5) <= 1.0); // one is as sure as the other
}

TEST_CASE("a photo used as its own second light changes nothing", "[second-light]") {
    const LitShot shot = litShot(blackDiscs(), 1, heldCamera());
    const SecondLight itself = laid(shot, shot);
    CHECK(itself.likeness > 0.9999);
    CHECK(cv::norm(itself.together.piece, itself.first.piece, cv::NORM_INF) <= 1.0);
    const DebrisFinding alone = findingOf(shot, std::nullopt), twice = findingOf(shot, itself);
    REQUIRE(twice.particles.size() == alone.particles.size());
    for (std::size_t i = 0; i < alone.particles.size(); ++i) {
        CHECK(twice.particles[i].type == alone.particles[i].type);
        CHECK(std::abs(twice.particles[i].maxFeret.value.value() -
                       alone.particles[i].maxFeret.value.value()) < 0.01);
        REQUIRE(twice.particles[i].twoLights);
        CHECK(twice.particles[i].twoLights->change < 0.01);
        CHECK_FALSE(alone.particles[i].twoLights);
    }
}

// A shadow without a body under it lies elsewhere in the other light; the discs stay.
TEST_CASE("a thing that only one light shows is not counted as a piece", "[second-light]") {
    std::vector<Piece> left = blackDiscs(), right = blackDiscs();
    std::vector<PointOnCard> shadows;
    for (int i = 0; i < 4; ++i) {
        const PointOnCard here{37.0 + 14.0 * (i % 3), 31.0 + 9.0 * i};
        Piece shadow{here, 1.3};
        shadow.light = {0.12, 0.12, 0.12};
        left.push_back(shadow);
        shadows.push_back(here);
    }
    const LitShot first = litShot(left, 2, heldCamera()), second = litShot(right, 3, heldCamera());
    const DebrisFinding alone = findingOf(first, std::nullopt);
    const DebrisFinding both = findingOf(first, laid(first, second));
    int shadowsAlone = 0;
    for (const PointOnCard& at : shadows) {
        shadowsAlone += counted(alone, at) ? 1 : 0;
        CHECK_FALSE(counted(both, at));
    }
    CHECK(shadowsAlone == 4); // in one photo they look like pieces
    for (const Piece& disc : blackDiscs())
        CHECK(counted(both, disc.centre));
}

// The drawn change: light / paper in one photo less that in the other. The second photo has another
// exposure, which dividing by the card's white removes. The rim is blurred, so the mean over the
// piece is less than in its middle.
TEST_CASE("a facet that flashes changes by the drawn amount and gains odds of metal",
          "[second-light]") {
    std::vector<Piece> dark = blackDiscs(), bright = blackDiscs();
    dark[5].length = bright[5].length = 2.4; // across
    dark[5].light = {0.05, 0.05, 0.05};
    bright[5].light = {0.35, 0.35, 0.35};
    const LitShot first = litShot(dark, 4, heldCamera()),
                  second = litShot(bright, 5, heldCamera(), 0.8);
    const SecondLight light = laid(first, second);
    const DebrisFinding finding = findingOf(first, light);
    const Particle* facet = foundAt(finding, dark[5].centre);
    REQUIRE(facet != nullptr);
    REQUIRE(facet->twoLights);
    const double drawn = (0.35 - 0.05) / paperLight;
    CHECK(facet->twoLights->change < 1.05 * drawn);
    CHECK(facet->twoLights->change > 0.75 * drawn);
    for (const Piece& disc : blackDiscs())
        if (const Particle* matte = foundAt(finding, disc.centre); matte != facet) {
            REQUIRE(matte != nullptr);
            REQUIRE(matte->twoLights);
            CHECK(matte->twoLights->change < 0.06);
        }
    // Lining in neither light: more than three to one by the change alone.
    CHECK(facet->type != ParticleType::lining);
    CHECK(facet->type != ParticleType::plastic);
}

TEST_CASE("a card that slid a little is followed by its pieces", "[second-light]") {
    const double slid = 0.5; // mm
    const LitShot first = litShot(blackDiscs(), 6, heldCamera()),
                  second = litShot(blackDiscs(slid), 7, heldCamera());
    const SecondLight light = laid(first, second);
    CHECK(std::abs(light.shift.x - slid) < 0.1);
    CHECK(std::abs(light.shift.y) < 0.1);
    const DebrisFinding both = findingOf(first, light);
    for (const Piece& disc : blackDiscs())
        CHECK(counted(both, disc.centre));
}

TEST_CASE(
    "other pieces or another pose are not taken as second light, and the sentence says what to do",
    "[second-light]") {
    const LitShot first = litShot(blackDiscs(), 8, heldCamera());
    std::vector<Piece> others;
    for (const Piece& disc : blackDiscs())
        others.push_back({{disc.centre.x + 6.0, disc.centre.y + 5.0}, 1.2});
    const SecondLightMisfit scene = misfitOf(first, litShot(others, 9, heldCamera()));
    CHECK(scene.detail.find("does not show the pieces") != std::string::npos);
    CHECK(scene.advice.find("same debris") != std::string::npos);
    const SecondLightMisfit pose = misfitOf(first, litShot(blackDiscs(), 10, heldCamera(24.0)));
    CHECK(pose.detail.find("held 16 degrees differently") != std::string::npos);
    CHECK(pose.advice.find("move the lamp alone") != std::string::npos);
}

TEST_CASE("a clean card in two lights holds no piece", "[second-light]") {
    const LitShot first = litShot({}, 11, heldCamera()), second = litShot({}, 12, heldCamera());
    CHECK(findingOf(first, laid(first, second)).particles.empty());
}
