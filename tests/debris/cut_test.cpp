// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/cut.h"
#include "debris/level_contour.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

// Drawn figures whose neck, areas and colours are known in closed form.

using namespace swarfbook;

namespace {

constexpr double edgeOfCuts = 2.0; // px
const cv::Scalar paperOfCuts(200, 200, 200);

/// A window with one figure, and its outline.
struct Figure {
    cv::Mat mask{cv::Size(160, 120), CV_8U, cv::Scalar(0)};
    ContrastField field;
    PieceMap map;
    CastShadows cast;
    std::vector<cv::Point2d> outline;

    Figure() {
        field.background = cv::Mat(mask.size(), CV_8UC3, paperOfCuts);
        field.smooth = field.background.clone();
    }
    void disc(cv::Point at, int radius, const cv::Scalar& colour) {
        cv::circle(mask, at, radius, cv::Scalar(255), cv::FILLED);
        cv::circle(field.smooth, at, radius, colour, cv::FILLED);
    }
    void bar(const cv::Rect& box, const cv::Scalar& colour) {
        cv::rectangle(mask, box, cv::Scalar(255), cv::FILLED);
        cv::rectangle(field.smooth, box, colour, cv::FILLED);
    }
    [[nodiscard]] CutTask task() const { return {outline, {{0, 0}, mask.size()}, mask}; }
    [[nodiscard]] std::vector<Cut> cuts() {
        cv::Mat level;
        mask.convertTo(level, CV_32F, 1.0 / 127.5, -1.0);
        outline = longestZeroContour(level);
        field.contrast = colourDistances(field.smooth, field.background,
                                         cv::Mat(mask.size(), CV_8U, cv::Scalar(255)));
        map = {mask.clone(), cv::Mat::zeros(mask.size(), CV_8U)};
        return likelyCuts(task(), {field, map, cast, edgeOfCuts});
    }
};

double of(const Cut& cut, CutFeature which) {
    return cut.features[static_cast<std::size_t>(which)];
}

Figure twoDiscs(const cv::Scalar& left, const cv::Scalar& right) {
    Figure figure;
    figure.bar({45, 57, 60, 7}, left);
    figure.disc({45, 60}, 20, left);
    figure.disc({105, 60}, 20, right);
    return figure;
}

} // namespace

TEST_CASE("The most promising cut of two discs on a bar is across the bar", "[debris]") {
    Figure figure = twoDiscs({60, 60, 60}, {60, 60, 60});
    const auto cuts = figure.cuts();
    REQUIRE_FALSE(cuts.empty());
    const cv::Point2d a = figure.outline[cuts[0].from], b = figure.outline[cuts[0].to];
    CHECK(std::min(a.x, b.x) > 60.0);
    CHECK(std::max(a.x, b.x) < 90.0);
    CHECK(cv::norm(a - b) == Approx(7.0).margin(2.0));
    CHECK(of(cuts[0], CutFeature::chord) ==
          Approx(std::log(cv::norm(a - b) / edgeOfCuts)).margin(1e-4));
    CHECK(of(cuts[0], CutFeature::smallWidth) == Approx(7.0 / 40.0).margin(0.06));
    CHECK(of(cuts[0], CutFeature::lightness) == Approx(0.0).margin(1e-6));
}

TEST_CASE("A cut's sides make up the whole between them", "[debris]") {
    Figure figure = twoDiscs({60, 60, 60}, {60, 60, 60});
    for (const Cut& cut : figure.cuts()) {
        CHECK(cut.from < cut.to);
        REQUIRE(cut.to < figure.outline.size());
        const cv::Mat one = sideOf(cut, figure.task());
        const int own = cv::countNonZero(one), other = cv::countNonZero(figure.mask & ~one);
        CHECK(own + other == cv::countNonZero(figure.mask));
        CHECK(std::min(own, other) >= 8);
        const double ratio = static_cast<double>(std::min(own, other)) / std::max(own, other);
        CHECK(of(cut, CutFeature::areaRatio) == Approx(std::log(ratio)).margin(1e-4));
    }
}

TEST_CASE("A round or straight outline offers no cut", "[debris]") {
    Figure disc;
    disc.disc({80, 60}, 25, {60, 60, 60});
    CHECK(disc.cuts().empty());
    Figure bar;
    bar.bar({30, 50, 90, 14}, {60, 60, 60});
    CHECK(bar.cuts().empty());
    Figure speck;
    speck.bar({30, 50, 3, 3}, {60, 60, 60});
    CHECK(speck.cuts().empty());
}

TEST_CASE("Colours of the two sides are told apart from their lightness", "[debris]") {
    Figure grey = twoDiscs({40, 40, 40}, {140, 140, 140});
    const auto byLight = grey.cuts();
    REQUIRE_FALSE(byLight.empty());
    CHECK(of(byLight[0], CutFeature::lightness) == Approx(100.0 / 255.0).margin(0.06));
    CHECK(of(byLight[0], CutFeature::colour) == Approx(0.0).margin(1e-3));
    // the same weighted lightness, 100: (blue + 2 green + red) / 4
    Figure tinted = twoDiscs({100, 100, 100}, {40, 100, 160});
    const auto byColour = tinted.cuts();
    REQUIRE_FALSE(byColour.empty());
    CHECK(of(byColour[0], CutFeature::lightness) == Approx(0.0).margin(0.01));
    CHECK(of(byColour[0], CutFeature::colour) ==
          Approx(std::hypot(60.0, 60.0) / 255.0).margin(0.06));
}

TEST_CASE("A side that takes the same share of all three colours has no tint", "[debris]") {
    Figure figure = twoDiscs({100, 100, 100}, {40, 100, 160});
    const auto cuts = figure.cuts();
    REQUIRE_FALSE(cuts.empty());
    const auto [least, most] =
        std::minmax({of(cuts[0], CutFeature::smallTint), of(cuts[0], CutFeature::largeTint)});
    CHECK(least == Approx(0.0).margin(0.02));
    // ratios 0.2, 0.5, 0.8: mean 0.5, standard deviation 0.245
    CHECK(most == Approx(0.49).margin(0.05));
}

TEST_CASE("How sides lie in the photo's light follows its shadows", "[debris]") {
    Figure figure = twoDiscs({60, 60, 60}, {60, 60, 60});
    figure.disc({105, 60}, 24, {60, 60, 60}); // the larger side lies to the right
    figure.cast.axis = {0.3, 0.0};            // drawn out along x
    figure.cast.pull = {-0.2, 0.0};           // dark to the left
    const auto cuts = figure.cuts();
    REQUIRE_FALSE(cuts.empty());
    CHECK(of(cuts[0], CutFeature::castAlong) == Approx(0.3).margin(0.01));
    CHECK(of(cuts[0], CutFeature::castToward) == Approx(0.2).margin(0.01));
    CHECK(of(cuts[0], CutFeature::castStrength) == Approx(0.3).margin(1e-6));
}
