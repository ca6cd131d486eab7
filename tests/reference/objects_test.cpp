// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/candidate.h"
#include "debris/drawn_window.h"
#include "debris/shipped_models.h"
#include "particles/shape.h"
#include "reference/real_photos.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <sstream>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

struct Row {
    std::vector<std::string> cells;
    [[nodiscard]] double number(std::size_t i) const { return std::stod(cells.at(i)); }
};

std::vector<Row> rowsOf(const std::filesystem::path& file) {
    std::ifstream in(file);
    std::string line;
    std::getline(in, line);
    std::vector<Row> rows;
    while (std::getline(in, line)) {
        Row row;
        std::istringstream cells(line);
        for (std::string cell; std::getline(cells, cell, ',');)
            row.cells.push_back(cell);
        rows.push_back(row);
    }
    return rows;
}

bool holds(const Candidate& c, cv::Point2d p) {
    std::vector<cv::Point2f> outline(c.outline.begin(), c.outline.end());
    return cv::pointPolygonTest(outline, p, true) > -3.0;
}

/// How many of the places lie in each candidate.
std::vector<std::vector<std::size_t>> placesIn(const std::vector<Candidate>& candidates,
                                               const std::vector<cv::Point2d>& places) {
    std::vector<std::vector<std::size_t>> in(candidates.size());
    for (std::size_t p = 0; p < places.size(); ++p)
        for (std::size_t i = 0; i < candidates.size(); ++i)
            if (holds(candidates[i], places[p])) {
                in[i].push_back(p);
                break;
            }
    return in;
}

/// A coin that lies alone: its published diameter and the one seen.
struct LoneCoin {
    double mm = 0.0, px = 0.0;
};

/// The middle scale of the coins, px/mm.
double middleScale(const std::vector<LoneCoin>& coins) {
    std::vector<double> scales;
    for (const LoneCoin& coin : coins)
        scales.push_back(coin.px / coin.mm);
    const auto middle = scales.begin() + static_cast<std::ptrdiff_t>(scales.size() / 2);
    std::nth_element(scales.begin(), middle, scales.end());
    return *middle;
}

} // namespace

// Photo: image-js/image-js, commit d35169d, test/img/various/screws.png; MIT licence, image-js.
// Truth: 71 objects counted by eye, four pairs of which touch (67 blobs of a plain threshold).
// Known failure if the photo is at hand: 66 found, and 20 parts of the background are taken for
// pieces before they are judged.
TEST_CASE("Screws, nuts and washers on paper are found; touching pairs may stay one",
          "[reference][!mayfail]") {
    const auto folder = realPhotos("objects_screws");
    if (!folder)
        return;
    // The scale is made up so that the objects are pieces of a few millimetres.
    const CalibratedPhoto photo = flatPhoto(pictureOf(*folder / "screws.png"), 12.0);
    const WindowCrop crop = cropWindow(photo, Millimetres(0.25));
    const auto candidates =
        findPieces(shippedModels().pieces.judge(photo, crop), crop, shippedModels().contacts);
    std::vector<cv::Point2d> places;
    for (const Row& row : rowsOf(*folder / "screws_truth.csv"))
        places.emplace_back(row.number(2) - crop.origin.x, row.number(3) - crop.origin.y);
    REQUIRE(places.size() == 71);
    const auto in = placesIn(candidates, places);
    std::size_t found = 0, merged = 0, strangers = 0;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        found += in[i].size();
        merged += in[i].size() > 1 ? in[i].size() - 1 : 0;
        // As large as the smallest object (about 60 px) but not one of them: four clear feet may
        // be.
        strangers += in[i].empty() && candidates[i].areaPx >= 60.0 ? 1U : 0U;
    }
    INFO("found " << found << ", merged " << merged << ", strangers " << strangers);
    CHECK(found >= 69);
    CHECK(merged <= 8); // four pairs touch; screws whose shadows meet are not separated either
    CHECK(strangers <= 4);
}

// Photo: kaa/coins-dataset, commit dbfaaa6, src/test/test_1.jpg; MIT licence, Joakim Beijar.
// Diameters: published by the European Central Bank. The coins are 1.7 to 2.4 mm thick and lie
// nearer the camera than the paper; the scale is the middle one of all coins, ratios are checked.
// The made-up scale makes a coin a piece of 1 mm: larger ones, as crowded as these, would hide the
// surface they lie on. Shine and shadow at the rim make the ratios up to 6.3 % wrong. Known failure
// if the photo is at hand: one part that is not a coin, and 6 coins alone.
TEST_CASE("Coins that lie alone have their published relative size; touching ones may stay one",
          "[reference][!mayfail]") {
    const auto folder = realPhotos("objects_euro_coins");
    if (!folder)
        return;
    cv::Mat reduced; // 28 coins of 90 px: enough for a percent, and quick
    cv::resize(pictureOf(*folder / "test_1.jpg"), reduced, {}, 0.25, 0.25, cv::INTER_AREA);
    const CalibratedPhoto photo = flatPhoto(reduced, 90.0);
    const WindowCrop crop = cropWindow(photo, Millimetres(3.0 / 90.0));
    auto candidates =
        findPieces(shippedModels().pieces.judge(photo, crop), crop, shippedModels().contacts);
    std::erase_if(candidates, [](const Candidate& c) { return c.areaPx < 2000.0; });
    std::vector<cv::Point2d> places;
    std::vector<double> diameters;
    for (const Row& row : rowsOf(*folder / "test_1_truth.csv")) {
        places.emplace_back(0.25 * row.number(3) - crop.origin.x,
                            0.25 * row.number(4) - crop.origin.y);
        diameters.push_back(row.number(2));
    }
    REQUIRE(places.size() == 28);
    const auto in = placesIn(candidates, places);
    std::size_t found = 0;
    std::vector<LoneCoin> alone;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        found += in[i].size();
        const Shape s = measureShape(std::span<const cv::Point2d>(candidates[i].outline));
        INFO("candidate at " << s.centroid.x << ", " << s.centroid.y << ", d "
                             << s.areaEquivalentDiameter() << ", coins " << in[i].size());
        CHECK(!in[i].empty());
        if (in[i].size() == 1 && s.solidity() > 0.97)
            alone.push_back({diameters[in[i].front()], s.areaEquivalentDiameter()});
    }
    CHECK(found >= 25); // plain round discs look most like drops
    REQUIRE(alone.size() >= 7);
    const double scale = middleScale(alone);
    for (const auto& [mm, px] : alone) {
        INFO(mm << " mm coin seen as " << px / scale << " mm");
        CHECK(px / scale == Approx(mm).epsilon(0.07));
    }
}
