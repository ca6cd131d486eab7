// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/calibrated_photo.h"
#include "debris/glint.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <array>
#include <cmath>
#include <optional>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr double cardPaper = 0.60; // linear light of the drawn card
constexpr double discMm = 2.0;

struct Disc {
    PointOnCard at;
    cv::Vec3d light; ///< linear, B, G, R, at a gain of 1
};

const std::vector<Disc>& discs() {
    static const std::vector<Disc> all{
        {{44.0, 36.0}, {0.03, 0.03, 0.03}},  // black and matte
        {{50.0, 36.0}, {0.12, 0.25, 0.35}},  // brown and matte
        {{56.0, 36.0}, {0.20, 0.50, 0.60}},  // yellow
        {{44.0, 44.0}, {0.55, 0.55, 0.55}},  // nearly white
        {{50.0, 44.0}, {0.78, 0.78, 0.78}}}; // a facet that shows a lamp
    return all;
}

/// Closed form: light over the paper, (B + 2 G + R) / 4.
double trueGlint(const Disc& disc) {
    return (disc.light[0] + 2.0 * disc.light[1] + disc.light[2]) / 4.0 / cardPaper;
}

const View& discScene() {
    static const View view = [] {
        Drawing drawing;
        drawing.layout = layoutNamed("close");
        drawing.paper = cardPaper;
        for (const Disc& disc : discs())
            drawing.pieces.push_back({disc.at, discMm, 0.0, 0.0, disc.light});
        return View(drawing, Camera{});
    }();
    return view;
}

/// The picture as another white balance would have made it: linear light of each channel times its
/// gain, coded again (IEC 61966-2-1).
cv::Mat rebalanced(const cv::Mat& bgr, const std::array<double, 3>& gains) {
    cv::Mat table(1, 256, CV_8UC3), out;
    for (int code = 0; code < 256; ++code)
        for (int channel = 0; channel < 3; ++channel) {
            const double c = code / 255.0;
            const double light = gains.at(static_cast<std::size_t>(channel)) *
                                 (c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4));
            const double again =
                light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1.0 / 2.4) - 0.055;
            table.at<cv::Vec3b>(code)[channel] = cv::saturate_cast<uchar>(255.0 * again);
        }
    cv::LUT(bgr, table, out);
    return out;
}

std::vector<Glint> glintsIn(const Photo& photo) {
    const auto calibrated = calibratePhoto(photo, allLayouts(), std::optional<Millimetres>());
    REQUIRE(calibrated);
    const PlaneMapping mapping = Camera{}.mapping();
    std::vector<Glint> glints;
    for (const Disc& disc : discs()) {
        const PointInPhoto middle = mapping.photoFromCard(disc.at);
        const PointInPhoto rim = mapping.photoFromCard({disc.at.x + 0.4 * discMm, disc.at.y});
        const int reach = int(std::ceil(rim.u - middle.u)) + 2;
        const cv::Rect box(int(middle.u) - reach, int(middle.v) - reach, 2 * reach, 2 * reach);
        cv::Mat mask(box.size(), CV_8U, cv::Scalar(0));
        cv::circle(mask, {reach, reach}, reach - 2, 255, cv::FILLED);
        glints.push_back(glintOf(calibrated->bgr(box), mask, calibrated->light.whiteAt(disc.at)));
    }
    return glints;
}

void checkGlints(const std::vector<Glint>& glints, bool facetClipped) {
    REQUIRE(glints.size() == discs().size());
    for (std::size_t i = 0; i < glints.size(); ++i) {
        INFO("disc " << i);
        const bool facet = i + 1 == glints.size();
        CHECK(glints[i].atLeast == (facet && facetClipped));
        if (facet && facetClipped)
            CHECK(glints[i].value < trueGlint(discs()[i]));
        else
            CHECK(glints[i].value == Approx(trueGlint(discs()[i])).epsilon(0.05).margin(0.01));
    }
}

} // namespace

// Source: closed form of the drawn light; limits as the header states them.
TEST_CASE("the glint of one scene is the same over three exposures", "[glint]") {
    for (const double gain : {0.35, 0.7, 1.1}) {
        INFO("gain " << gain);
        Exposure exposure;
        exposure.gain = gain;
        checkGlints(glintsIn(discScene().exposed(exposure)), false);
    }
}

TEST_CASE("a facet beyond the photo's range has a glint of at least what is seen", "[glint]") {
    Exposure exposure;
    exposure.gain = 1.45; // cardPaper at 0.87, the facet beyond 1
    checkGlints(glintsIn(discScene().exposed(exposure)), true);
}

// Source: a white balance multiplies the linear light of each channel.
TEST_CASE("the glint of one scene is the same over two white balances", "[glint]") {
    Photo photo = discScene().exposed(Exposure{});
    for (const std::array<double, 3>& gains :
         {std::array{0.55, 0.95, 1.15}, std::array{1.1, 0.9, 0.6}}) {
        Photo other = photo;
        other.bgr = rebalanced(photo.bgr, gains);
        checkGlints(glintsIn(other), false);
    }
}

TEST_CASE("a glint is read from one pixel, and not from none", "[glint]") {
    const cv::Mat bgr(3, 3, CV_8UC3, cv::Scalar::all(188)); // half of the range in linear light
    cv::Mat mask(3, 3, CV_8U, cv::Scalar(0));
    CHECK_THROWS_AS(glintOf(bgr, mask, {0.5, 0.5, 0.5}), std::logic_error);
    mask.at<uchar>(1, 1) = 255;
    CHECK(glintOf(bgr, mask, {0.25, 0.25, 0.25}).value == Approx(2.0).epsilon(0.01));
}

// n and k at about 650, 550 and 450 nm: iron as Johnson and Christy 1974, aluminium as Rakic 1995,
// copper with zinc (brass) as Querry 1985; the numbers are from memory, no table was at hand.
TEST_CASE("smooth aluminium outshines brass and brass outshines iron, and each outshines plastic",
          "[glint]") {
    struct Metal {
        std::array<double, 3> n, k; ///< red, green, blue
        [[nodiscard]] double at(std::size_t colour) const {
            return fresnelReflectance(n.at(colour), k.at(colour));
        }
    };
    const Metal iron{{2.95, 2.93, 2.585}, {3.00, 2.95, 2.77}};
    const Metal aluminium{{1.345, 0.965, 0.617}, {7.475, 6.400, 5.303}};
    const Metal brass{{0.444, 0.527, 1.094}, {3.695, 2.765, 1.829}};
    // Source: usual values of polished surfaces, rounded; from memory.
    for (std::size_t colour = 0; colour < 3; ++colour) {
        CHECK(aluminium.at(colour) == Approx(0.91).margin(0.02));
        CHECK(iron.at(colour) == Approx(0.51).margin(0.03));
    }
    CHECK(brass.at(0) == Approx(0.88).margin(0.03));
    const double plastic = fresnelReflectance(1.5, 0.0);
    CHECK(plastic == Approx(0.04)); // closed form: (0.5 / 2.5)^2
    for (const std::size_t colour : {0U, 1U}) {
        CHECK(aluminium.at(colour) > brass.at(colour));
        CHECK(brass.at(colour) > iron.at(colour));
        CHECK(iron.at(colour) > 10.0 * plastic);
    }
    CHECK(brass.at(2) < 0.6 * brass.at(0)); // it is yellow: blue is what it keeps
    CHECK(std::abs(iron.at(2) - iron.at(0)) < 0.05);
    CHECK_THROWS_AS(fresnelReflectance(-1.0, 0.0), std::logic_error);
}
