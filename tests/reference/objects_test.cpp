// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/candidate.h"
#include "debris/drawn_window.h"
#include "debris/shape.h"
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

} // namespace

// Photo: image-js/image-js, commit d35169d, test/img/various/screws.png; MIT licence, image-js.
// Truth: 71 objects counted by eye, four pairs of which touch (67 blobs of a plain threshold).
TEST_CASE("Screws, nuts and washers on paper are found; touching pairs may stay one",
          "[reference]") {
    const auto folder = realPhotos("objects_screws", Size::small);
    if (!folder)
        return;
    const WindowCrop crop = windowOf(pictureOf(*folder / "screws.png"), 12.0);
    // The scale is made up so that the objects are pieces of a few millimetres, which is what the
    // surface is estimated for.
    const auto candidates = findCandidates(crop, contrastField(crop), Pixels(2.5));
    std::vector<cv::Point2d> places;
    for (const Row& row : rowsOf(*folder / "screws_truth.csv"))
        places.emplace_back(row.number(2) - crop.origin.x, row.number(3) - crop.origin.y);
    REQUIRE(places.size() == 71);
    const auto in = placesIn(candidates, places);
    std::size_t found = 0, merged = 0, strangers = 0;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        found += in[i].size();
        merged += in[i].size() > 1 ? in[i].size() - 1 : 0;
        // As large as the smallest object (about 60 px) and none of them: four clear feet may be.
        strangers += in[i].empty() && candidates[i].areaPx >= 60.0 ? 1U : 0U;
    }
    INFO("found " << found << ", merged " << merged << ", strangers " << strangers);
    CHECK(found >= 69);
    CHECK(merged <= 8); // four pairs touch; screws whose shadows meet are not told apart either
    CHECK(strangers <= 6);
}
