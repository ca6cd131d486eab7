// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/drawn_window.h"
#include "debris/features.h"
#include "debris/shipped_models.h"
#include "photo/linear_light.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr double pxPerMm = 20.0;
constexpr double edgeWidth = 3.0;
const cv::Scalar paper(200, 200, 200);

double linear(double code) {
    return double(linearFromSrgb()[static_cast<std::size_t>(code)]);
}

struct Seen {
    std::vector<Candidate> candidates;
    std::vector<Features> features;
    [[nodiscard]] double of(std::size_t piece, Feature which) const {
        return double(features.at(piece)[static_cast<std::size_t>(which)]);
    }
};

Seen look(const cv::Mat& drawn) {
    cv::Mat picture;
    cv::GaussianBlur(drawn, picture, {9, 9}, 1.0);
    const CalibratedPhoto photo = flatPhoto(picture, pxPerMm, 200);
    const WindowCrop crop = windowOf(picture, pxPerMm);
    const ContrastField field = contrastField(crop);
    Seen seen;
    seen.candidates = findCandidates(crop, field, {shippedModels().pieces, shippedModels().cuts},
                                     Pixels(edgeWidth));
    std::sort(seen.candidates.begin(), seen.candidates.end(),
              [](const Candidate& a, const Candidate& b) { return a.box.x < b.box.x; });
    seen.features = featuresOf(photo, crop, field, seen.candidates);
    return seen;
}

cv::Mat emptyPaper() {
    return plainSurface({800, 600}, paper, 1.0);
}

void drawBar(cv::Mat& picture, cv::Point2f centre, cv::Size2f size, float turn,
             const cv::Scalar& colour = {30, 30, 30}) {
    cv::Point2f corners[4];
    cv::RotatedRect(centre, size, turn).points(corners);
    std::vector<cv::Point> polygon;
    for (const auto& c : corners)
        polygon.emplace_back(c);
    cv::fillConvexPoly(picture, polygon, colour, cv::LINE_AA);
}

} // namespace

TEST_CASE("Every feature has one name of its own", "[debris]") {
    const auto& names = featureNames();
    CHECK(std::set<std::string_view>(names.begin(), names.end()).size() == names.size());
    CHECK(std::none_of(names.begin(), names.end(), [](auto name) { return name.empty(); }));
}

// Closed forms of a disc: area pi r^2, all Ferets 2 r, roundness 1; lengths in edge widths.
TEST_CASE("A dark grey disc is described as one", "[debris]") {
    cv::Mat picture = emptyPaper();
    const int radius = 18;
    drawDisc(picture, {400, 300}, radius, {80, 80, 80});
    const Seen seen = look(picture);
    REQUIRE(seen.candidates.size() == 1);
    const double r = radius + 0.5; // the filled circle covers its rim's pixels
    CHECK(seen.of(0, Feature::logArea) ==
          Approx(std::log(std::numbers::pi * r * r / (edgeWidth * edgeWidth))).margin(0.1));
    CHECK(seen.of(0, Feature::logMaxFeret) == Approx(std::log(2 * r / edgeWidth)).margin(0.06));
    CHECK(seen.of(0, Feature::logMinFeret) == Approx(std::log(2 * r / edgeWidth)).margin(0.06));
    CHECK(seen.of(0, Feature::aspect) == Approx(1.0).margin(0.05));
    CHECK(seen.of(0, Feature::solidity) == Approx(1.0).margin(0.03));
    CHECK(seen.of(0, Feature::formFactor) == Approx(1.0).margin(0.12));
    // A flat middle is as open as a hole: only the rim rises over the light beside it.
    CHECK(seen.of(0, Feature::likeSurface) < 0.5);
    const double ratio = linear(80) / linear(200);
    CHECK(seen.of(0, Feature::kLow) == Approx(ratio).margin(0.01));
    CHECK(seen.of(0, Feature::whiteLow) == Approx(ratio).margin(0.01));
    CHECK(seen.of(0, Feature::kMean) == Approx(ratio).margin(0.08)); // its blurred rim is in it
    CHECK(seen.of(0, Feature::surface) == Approx(1.0).margin(0.02));
    CHECK(seen.of(0, Feature::surfaceColour) == Approx(0.0).margin(0.03));
    CHECK(seen.of(0, Feature::colour) == Approx(0.0).margin(0.02));
    CHECK(seen.of(0, Feature::yellow) == Approx(0.0).margin(0.03));
    CHECK(seen.of(0, Feature::reddish) == Approx(0.0).margin(0.03));
    CHECK(seen.of(0, Feature::darkerRim) == Approx(1.0));
    CHECK(seen.of(0, Feature::neighbours) == 0.0);
}

TEST_CASE("A piece brighter than the surface is told from a darker one", "[debris]") {
    cv::Mat picture = plainSurface({800, 600}, {120, 120, 120}, 1.0);
    drawDisc(picture, {400, 300}, 18, {230, 230, 230});
    const Seen seen = look(picture);
    REQUIRE(seen.candidates.size() == 1);
    CHECK(seen.of(0, Feature::darkerRim) == Approx(0.0));
    CHECK(seen.of(0, Feature::kHigh) ==
          Approx(std::min(4.0, linear(230) / linear(120))).margin(0.2));
    CHECK(seen.of(0, Feature::whiteHigh) == Approx(linear(230) / linear(200)).margin(0.05));
    CHECK(seen.of(0, Feature::surface) == Approx(linear(120) / linear(200)).margin(0.02));
}

TEST_CASE("A yellow piece is yellow by the light it sends against the card's white", "[debris]") {
    cv::Mat picture = emptyPaper();
    const cv::Scalar brass(60, 150, 190);
    drawBar(picture, {400, 300}, {30, 20}, 20, brass); // corners: no drop of oil has any
    const Seen seen = look(picture);
    REQUIRE(seen.candidates.size() == 1);
    const double b = linear(brass[0]), g = linear(brass[1]), r = linear(brass[2]);
    CHECK(seen.of(0, Feature::yellow) == Approx((r + g - 2 * b) / (r + g + b)).margin(0.18));
    CHECK(seen.of(0, Feature::reddish) == Approx((r - g) / (r + g + b)).margin(0.07));
    CHECK(seen.of(0, Feature::red) == Approx(r / linear(200)).margin(0.06));
    CHECK(seen.of(0, Feature::blue) == Approx(b / linear(200)).margin(0.10));
}

TEST_CASE("Sealant is blue, steel under the sky and brass are not", "[debris]") {
    const auto shareOf = [](const cv::Scalar& colour) {
        cv::Mat picture = emptyPaper();
        drawDisc(picture, {400, 300}, 20, colour);
        const CalibratedPhoto photo = flatPhoto(picture, 20.0);
        const WindowCrop crop = cropWindow(photo, Millimetres(0.15));
        Candidate disc;
        disc.box = cv::Rect(inCrop(crop, {380, 280}), cv::Size(41, 41));
        disc.mask = cv::Mat::zeros(disc.box.size(), CV_8U);
        cv::circle(disc.mask, {20, 20}, 17, cv::Scalar(255), cv::FILLED);
        disc.areaPx = cv::countNonZero(disc.mask);
        return blueShare(photo, crop, contrastField(crop), disc);
    };
    CHECK(shareOf({130, 80, 45}) > 0.95);
    CHECK(shareOf({128, 122, 118}) < 0.05);
    CHECK(shareOf({60, 150, 190}) < 0.05);
    CHECK(shareOf({40, 40, 42}) < 0.05);
}

TEST_CASE("A frame is open by its hole's share", "[debris]") {
    cv::Mat picture = emptyPaper();
    drawBar(picture, {400, 300}, {100, 88}, 20);
    drawBar(picture, {400, 300}, {52, 44}, 20, paper);
    const Seen seen = look(picture);
    REQUIRE(seen.candidates.size() == 1);
    CHECK(seen.of(0, Feature::likeSurface) == Approx(52.0 * 44.0 / (100.0 * 88.0)).margin(0.08));
}

TEST_CASE("A sharp edge has acutance, a soft shadow's has little", "[debris]") {
    cv::Mat sharp = emptyPaper();
    drawDisc(sharp, {400, 300}, 20, {60, 60, 60});
    cv::Mat soft;
    cv::GaussianBlur(sharp, soft, {61, 61}, 8.0);
    const Seen a = look(sharp);
    const Seen b = look(soft);
    REQUIRE(a.candidates.size() == 1);
    REQUIRE_FALSE(b.candidates.empty()); // the model may see parts of a shadow only
    for (std::size_t i = 0; i < b.candidates.size(); ++i) {
        CHECK(a.of(0, Feature::acutance) > 2.0 * b.of(i, Feature::acutance));
        CHECK(a.of(0, Feature::halo) < b.of(i, Feature::halo));
    }
}

TEST_CASE("Like pieces near by are neighbours, parallel ones are aligned", "[debris]") {
    cv::Mat rows = emptyPaper();
    for (int i = 0; i < 5; ++i) // 1.5 mm apart: 4 mm reach two to either side
        drawBar(rows, {340.0F + 30.0F * static_cast<float>(i), 300.0F}, {8, 30}, 0);
    const Seen aligned = look(rows);
    REQUIRE(aligned.candidates.size() == 5);
    CHECK(aligned.of(2, Feature::neighbours) == Approx(std::log1p(4.0)).margin(1e-4));
    CHECK(aligned.of(0, Feature::neighbours) == Approx(std::log1p(2.0)).margin(1e-4));
    CHECK(aligned.of(2, Feature::aligned) == Approx(1.0).margin(0.01));

    cv::Mat crossed = emptyPaper();
    for (int i = 0; i < 5; ++i)
        drawBar(crossed, {280.0F + 60.0F * static_cast<float>(i), 300.0F}, {8, 30},
                i % 2 == 0 ? 0.0F : 90.0F);
    const Seen across = look(crossed);
    REQUIRE(across.candidates.size() == 5);
    CHECK(across.of(2, Feature::neighbours) == Approx(std::log1p(2.0)).margin(1e-4));
    CHECK(across.of(2, Feature::aligned) == Approx(0.0).margin(0.01));
}
