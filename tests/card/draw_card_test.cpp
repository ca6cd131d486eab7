// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/card_sheets.h"

#include <catch2/catch.hpp>
#include <opencv2/aruco.hpp>
#include <opencv2/imgproc.hpp>
#include <poppler-image.h>
#include <poppler-page-renderer.h>
#include <poppler-page.h>

#include <cmath>
#include <map>
#include <memory>
#include <tuple>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr double dpi = 600.0;
constexpr double pxPerMm = dpi / 25.4;

/// The sheet as poppler prints it at 600 dpi, with poppler's own anti-aliasing.
cv::Mat rasterise(const CardSheet& sheet) {
    const auto document = documentOf(sheet);
    REQUIRE(document->pages() == 1);
    const std::unique_ptr<poppler::page> page(document->create_page(0));
    poppler::page_renderer renderer;
    renderer.set_image_format(poppler::image::format_gray8);
    renderer.set_render_hint(poppler::page_renderer::antialiasing, true);
    renderer.set_render_hint(poppler::page_renderer::text_antialiasing, true);
    poppler::image image = renderer.render_page(page.get(), dpi, dpi);
    REQUIRE(image.is_valid());
    return cv::Mat(image.height(), image.width(), CV_8UC1, image.data(),
                   static_cast<std::size_t>(image.bytes_per_row()))
        .clone();
}

/// The same, drawn once for all tests.
const cv::Mat& rasterOf(const CardSheet& sheet) {
    static std::map<std::tuple<std::string, PaperSize, bool>, cv::Mat> drawn;
    cv::Mat& raster = drawn[{sheet.layout.name, sheet.paper, sheet.cutWindow}];
    if (raster.empty())
        raster = rasterise(sheet);
    return raster;
}

/// Pixel of a place on the card. The raster covers whole pixels from the sheet's corner, so the
/// corner itself is at (-0.5, -0.5) by OpenCV's convention.
cv::Point2d inRaster(const CardSheet& sheet, double x, double y) {
    const PointOnCard corner = cardOnSheet(sheet);
    return {(corner.x + x) * pxPerMm - 0.5, (corner.y + y) * pxPerMm - 0.5};
}

cv::Rect boxInRaster(const CardSheet& sheet, const CardRect& rect) {
    const cv::Point2d from = inRaster(sheet, rect.x, rect.y);
    return {cvRound(from.x), cvRound(from.y), cvRound(rect.width * pxPerMm),
            cvRound(rect.height * pxPerMm)};
}

struct FoundMarker {
    cv::Point2d centre;
    std::vector<cv::Point2f> corners;
};

std::map<int, FoundMarker> markersIn(const cv::Mat& raster) {
    std::vector<int> ids;
    std::vector<std::vector<cv::Point2f>> corners;
    const auto settings = cv::aruco::DetectorParameters::create();
    settings->cornerRefinementMethod = cv::aruco::CORNER_REFINE_SUBPIX;
    settings->cornerRefinementWinSize = 7;
    settings->cornerRefinementMaxIterations = 100;
    settings->cornerRefinementMinAccuracy = 0.001;
    cv::aruco::detectMarkers(raster,
                             cv::aruco::getPredefinedDictionary(cv::aruco::DICT_APRILTAG_36h11),
                             corners, ids, settings);
    std::map<int, FoundMarker> found;
    for (std::size_t i = 0; i < ids.size(); ++i) {
        cv::Point2d sum;
        for (const cv::Point2f& corner : corners[i])
            sum += cv::Point2d(corner);
        found[ids[i]] = {sum * 0.25, corners[i]};
    }
    return found;
}

double darkness(const cv::Mat& raster, int row, int column) {
    return 255.0 - raster.at<unsigned char>(row, column);
}

/// Column of the dark stroke that a row crosses within 1 mm of `about`: centre of its darkness.
double strokeColumn(const cv::Mat& raster, int row, double about) {
    double sum = 0.0;
    double weighted = 0.0;
    for (int column = cvRound(about - pxPerMm); column <= cvRound(about + pxPerMm); ++column) {
        sum += darkness(raster, row, column);
        weighted += darkness(raster, row, column) * column;
    }
    REQUIRE(sum > 255.0);
    return weighted / sum;
}

/// Row at which a column turns from white to black, half way, going down from `from`.
double whiteToBlackRow(const cv::Mat& raster, int column, int from) {
    int row = from;
    while (raster.at<unsigned char>(row + 1, column) > 127)
        ++row;
    const double above = raster.at<unsigned char>(row, column);
    const double below = raster.at<unsigned char>(row + 1, column);
    return row + (above - 127.5) / (above - below);
}

} // namespace

// Source: the geometry itself; markers are read back by OpenCV, pages drawn by poppler.
TEST_CASE("a printed card's markers are where the geometry says, within 0.02 mm") {
    for (const auto& [name, sheet] : sheets()) {
        INFO(name);
        const auto found = markersIn(rasterOf(sheet));
        REQUIRE(found.size() == sheet.layout.markers.size());
        for (const auto& [id, centre] : sheet.layout.markers) {
            INFO("marker " << id);
            REQUIRE(found.count(id) == 1);
            const FoundMarker& marker = found.at(id);
            for (const auto& [otherId, otherCentre] : sheet.layout.markers) {
                const cv::Point2d step = found.at(otherId).centre - marker.centre;
                CHECK(std::abs(step.x / pxPerMm - (otherCentre.x - centre.x)) < 0.02);
                CHECK(std::abs(step.y / pxPerMm - (otherCentre.y - centre.y)) < 0.02);
            }
            const cv::Point2d place = inRaster(sheet, centre.x, centre.y);
            CHECK(cv::norm(marker.centre - place) / pxPerMm < 0.02);
            // Not turned: OpenCV's first corner is the marker's own top-left. Corners of a sharp
            // drawing are found to about a third of a pixel, 0.015 mm each.
            const double half = sheet.layout.markerSize / 2.0;
            const cv::Point2d topLeft = inRaster(sheet, centre.x - half, centre.y - half);
            CHECK(cv::norm(cv::Point2d(marker.corners[0]) - topLeft) / pxPerMm < 0.05);
        }
    }
}

TEST_CASE("a printed card's check bar is as long as drawn, between the middles of its strokes") {
    for (const auto& [name, sheet] : sheets()) {
        INFO(name);
        const cv::Mat& raster = rasterOf(sheet);
        const CardLayout& layout = sheet.layout;
        const cv::Point2d left = inRaster(sheet, layout.checkBarX0, layout.checkBarY + 0.7);
        const cv::Point2d right = inRaster(sheet, layout.checkBarX1, layout.checkBarY + 0.7);
        const int row = cvRound(left.y);
        const double length =
            (strokeColumn(raster, row, right.x) - strokeColumn(raster, row, left.x)) / pxPerMm;
        CHECK(std::abs(length - layout.checkBarLength()) < 0.02);
        const cv::Point2d middle =
            inRaster(sheet, (layout.checkBarX0 + layout.checkBarX1) / 2.0, layout.checkBarY);
        CHECK(darkness(raster, cvRound(middle.y), cvRound(middle.x)) == 255.0);
    }
}

TEST_CASE("grey patches carry the ink share asked for, flat and neutral, the bare one outlined") {
    for (const auto& [name, sheet] : sheets()) {
        INFO(name);
        const cv::Mat& raster = rasterOf(sheet);
        for (const GreyPatch& patch : sheet.layout.patches) {
            const double size = sheet.layout.patchSize;
            const double inner = size - 1.0;
            cv::Scalar mean, spread;
            cv::meanStdDev(raster(boxInRaster(sheet, {patch.centre.x - inner / 2.0,
                                                      patch.centre.y - inner / 2.0, inner, inner})),
                           mean, spread);
            CHECK(mean[0] == Approx(255.0 * (1.0 - patch.ink)).margin(1.0));
            CHECK(spread[0] < 0.5);
            const cv::Point2d edge = inRaster(sheet, patch.centre.x - size / 2.0, patch.centre.y);
            CHECK(darkness(raster, cvRound(edge.y), cvRound(edge.x) + 1) > 40.0);
        }
    }
}

TEST_CASE("slanted squares are turned 5 degrees clockwise as seen and have their specified size") {
    for (const auto& [name, sheet] : sheets()) {
        INFO(name);
        const cv::Mat& raster = rasterOf(sheet);
        const double size = sheet.layout.slantedSize;
        for (const PointOnCard& centre : sheet.layout.slantedCentres) {
            const cv::Point2d start =
                inRaster(sheet, centre.x - size / 4.0, centre.y - size / 2.0 - 1.0);
            const cv::Point2d end =
                inRaster(sheet, centre.x + size / 4.0, centre.y - size / 2.0 - 1.0);
            const int first = cvRound(start.x);
            const int last = cvRound(end.x);
            const double drop = whiteToBlackRow(raster, last, cvRound(end.y)) -
                                whiteToBlackRow(raster, first, cvRound(start.y));
            const double turn = std::atan2(drop, last - first) * 180.0 / CV_PI;
            CHECK(turn == Approx(sheet.layout.slantedTurnDeg).margin(0.3));
            const CardRect room{centre.x - 0.6 * size, centre.y - 0.6 * size, 1.2 * size,
                                1.2 * size};
            cv::Mat dark = 255 - raster(boxInRaster(sheet, room));
            const double area = cv::sum(dark)[0] / 255.0 / (pxPerMm * pxPerMm);
            CHECK(area == Approx(size * size).epsilon(0.005));
        }
    }
}

TEST_CASE("nothing is printed in a marker's quiet zone") {
    for (const auto& [name, sheet] : sheets()) {
        const cv::Mat& raster = rasterOf(sheet);
        const double module = sheet.layout.markerSize / 8.0;
        for (const auto& [id, centre] : sheet.layout.markers) {
            INFO(name << ", marker " << id);
            const double outer = sheet.layout.markerSize + 1.9 * module;
            const double inner = sheet.layout.markerSize + 0.2;
            cv::Mat ring = raster(boxInRaster(sheet, {centre.x - outer / 2.0,
                                                      centre.y - outer / 2.0, outer, outer}))
                               .clone();
            const int skip = cvRound((outer - inner) / 2.0 * pxPerMm);
            ring(cv::Rect(skip, skip, ring.cols - 2 * skip, ring.rows - 2 * skip)) = 255;
            double darkest = 0.0;
            cv::minMaxLoc(ring, &darkest);
            CHECK(darkest == 255.0);
        }
    }
}

TEST_CASE(
    "the window is bare paper inside its line, so that a white card shows nothing but debris") {
    for (const auto& [name, sheet] : sheets()) {
        INFO(name);
        const cv::Mat& raster = rasterOf(sheet);
        const CardRect& w = sheet.layout.window;
        double darkest = 0.0;
        cv::minMaxLoc(
            raster(boxInRaster(sheet, {w.x + 0.2, w.y + 0.2, w.width - 0.4, w.height - 0.4})),
            &darkest);
        CHECK(darkest == 255.0);
        const cv::Point2d line = inRaster(sheet, w.x + w.width / 2.0, w.y);
        CHECK(darkness(raster, cvRound(line.y), cvRound(line.x)) == Approx(127.5).margin(40.0));
    }
}

// Source: common practice, no source: office printers keep 4 to 5 mm at the sides, some ink-jet
// printers need 12.7 mm at the foot.
TEST_CASE("nothing is printed where printers cannot print") {
    for (const auto& [name, sheet] : sheets()) {
        INFO(name);
        const cv::Mat& raster = rasterOf(sheet);
        const int side = cvRound(9.8 * pxPerMm);
        const int end = cvRound(12.7 * pxPerMm);
        const cv::Rect kept(side, end, raster.cols - 2 * side, raster.rows - 2 * end);
        cv::Mat outside = raster.clone();
        outside(kept) = 255;
        double darkest = 0.0;
        cv::minMaxLoc(outside, &darkest);
        CHECK(darkest == 255.0);
    }
}
