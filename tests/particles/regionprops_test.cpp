// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "particles/mask_outline.h"
#include "particles/shape.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>

#include <filesystem>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using nlohmann::json;

namespace {

const std::filesystem::path dataFolder =
    std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "tests/particles/data";

/// Compares every region; @return how many.
///
/// Area: the half-level outline of a piece without holes encloses its pixels less one half (closed
/// form), so that it agrees to rounding. Centroid: the outline's corners lie up to 1/4 px inside
/// the pixels', which moves the centroid of a piece of n pixels by less than 2 / n^0.5 px. Feret:
/// scikit-image takes the half-level contour of the hull made of whole pixels, which may stick out
/// by up to a pixel. Solidity: its hull counts whole pixels along the hull's border.
int compareWith(const json& reference) {
    const cv::Mat1b labels = cv::imread((dataFolder / "labels.png").string(), cv::IMREAD_GRAYSCALE);
    REQUIRE_FALSE(labels.empty());
    for (const json& region : reference.at("regions")) {
        CAPTURE(region.at("label").get<int>());
        const Shape shape =
            measureShape(maskOutline(cv::Mat1b(labels == region.at("label").get<int>())));
        const double pixels = region.at("filled_area").get<double>();
        CHECK_THAT(shape.width, WithinAbs(region.at("width").get<double>(), 1e-9));
        CHECK_THAT(shape.height, WithinAbs(region.at("height").get<double>(), 1e-9));
        CHECK_THAT(shape.maxFeret, WithinAbs(region.at("feret_diameter_max").get<double>(), 1.0));
        if (region.at("holes").get<int>() != 0)
            continue; // further figures there are of the piece without its holes
        CHECK_THAT(shape.area, WithinAbs(pixels - 0.5, 1e-6));
        const double reach = 2.0 / std::sqrt(pixels);
        CHECK_THAT(shape.centroid.x, WithinAbs(region.at("x").get<double>(), reach));
        CHECK_THAT(shape.centroid.y, WithinAbs(region.at("y").get<double>(), reach));
        CHECK_THAT(shape.areaEquivalentDiameter(),
                   WithinRel(region.at("equivalent_diameter").get<double>(), 0.26 / pixels));
        const double border = shape.convexPerimeter / shape.convexArea;
        CHECK_THAT(shape.solidity(), WithinAbs(region.at("solidity").get<double>(), 0.5 * border));
    }
    return static_cast<int>(reference.at("regions").size());
}

} // namespace

// Source: scikit-image 0.19.3, regionprops; see tests/particles/data/README.md.
TEST_CASE("shapes agree with scikit-image's figures kept beside this test") {
    CHECK(compareWith(json::parse(contentOf(dataFolder / "labels.regionprops.json"))) == 24);
}

TEST_CASE("shapes agree with the scikit-image that is installed here") {
    RunOptions python;
    python.program = "/usr/bin/python3";
    const ProgramResult ran = runProgram(
        {(dataFolder / "regionprops.py").string(), (dataFolder / "labels.png").string()}, python);
    if (ran.exit == 77 || ran.exit == 127) {
        WARN(
            "scikit-image (python3-skimage) is not installed: only its kept figures were compared");
        return;
    }
    INFO(ran.err);
    REQUIRE(ran.exit == 0);
    CHECK(compareWith(json::parse(ran.out)) == 24);
}
