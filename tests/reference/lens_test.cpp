// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/fit_mapping.h"
#include "reference/real_photos.h"

#include <catch2/catch.hpp>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr int cornerColumns = 4, cornerRows = 6; // inner corners of the board
constexpr double squareMm = 30.0;

// As published with the frames: fx 701.01, fy 698.65; our model has one focal length.
PlaneMapping publishedLens() {
    PlaneMapping lens;
    lens.focal = (701.0117 + 698.6538) / 2.0;
    lens.centre = {308.4552, 246.8430};
    lens.k1 = -0.255592;
    lens.k2 = 0.099971;
    return lens;
}

std::vector<cv::Point2f> cornersIn(const cv::Mat& bgr) {
    std::vector<cv::Point2f> corners;
    cv::Mat grey;
    cv::cvtColor(bgr, grey, cv::COLOR_BGR2GRAY);
    if (!cv::findChessboardCorners(grey, {cornerColumns, cornerRows}, corners))
        return {};
    cv::cornerSubPix(grey, corners, {5, 5}, {-1, -1},
                     {cv::TermCriteria::EPS + cv::TermCriteria::COUNT, 50, 0.01});
    return corners;
}

/// rms distance, px, of the board's rows and columns from straight lines, through a lens.
double crookedness(const std::vector<cv::Point2f>& corners, const PlaneMapping& lens) {
    double squares = 0.0;
    int n = 0;
    const auto add = [&](std::vector<cv::Point2f> line) {
        for (auto& p : line) {
            const PointOnCard q = lens.cardFromPhoto({double(p.x), double(p.y)});
            p = {static_cast<float>(q.x * lens.focal), static_cast<float>(q.y * lens.focal)};
        }
        cv::Vec4f fitted;
        cv::fitLine(line, fitted, cv::DIST_L2, 0, 1e-4, 1e-4);
        for (const auto& p : line) {
            const double off = double(fitted[0]) * (double(p.y) - double(fitted[3])) -
                               double(fitted[1]) * (double(p.x) - double(fitted[2]));
            squares += off * off;
            ++n;
        }
    };
    for (int r = 0; r < cornerRows; ++r)
        add({corners.begin() + r * cornerColumns, corners.begin() + (r + 1) * cornerColumns});
    for (int c = 0; c < cornerColumns; ++c) {
        std::vector<cv::Point2f> line;
        for (int r = 0; r < cornerRows; ++r)
            line.push_back(corners[static_cast<std::size_t>(r * cornerColumns + c)]);
        add(line);
    }
    return std::sqrt(squares / n);
}

/// The board's lines as edges, each corner a point of its row and of its column. Outward alternates
/// from line to line, as black and white change sides.
MappingFit fitBoard(const std::vector<cv::Point2f>& corners) {
    std::vector<CardEdge> edges;
    std::vector<EdgePoint> points;
    std::vector<cv::Point2f> onBoard, inPhoto;
    PlaneMapping start = publishedLens();
    start.k1 = start.k2 = 0.0;
    const double width = (cornerColumns - 1) * squareMm;
    const double height = (cornerRows - 1) * squareMm;
    for (int r = 0; r < cornerRows; ++r)
        edges.push_back({1, {0, r * squareMm}, {width, r * squareMm}, {0, r % 2 == 0 ? 1. : -1.}});
    for (int c = 0; c < cornerColumns; ++c)
        edges.push_back({1, {c * squareMm, 0}, {c * squareMm, height}, {c % 2 == 0 ? 1. : -1., 0}});
    for (int r = 0; r < cornerRows; ++r)
        for (int c = 0; c < cornerColumns; ++c) {
            const cv::Point2f p = corners[static_cast<std::size_t>(r * cornerColumns + c)];
            const PointInPhoto at{double(p.x), double(p.y)};
            points.push_back({r, at});
            points.push_back({cornerRows + c, at});
            onBoard.emplace_back(static_cast<float>(c * squareMm),
                                 static_cast<float>(r * squareMm));
            inPhoto.emplace_back(static_cast<float>((at.u - start.centre.x) / start.focal),
                                 static_cast<float>((at.v - start.centre.y) / start.focal));
        }
    start.h = cv::Matx33d(cv::findHomography(onBoard, inPhoto));
    return fitMapping(edges, points, start, {0, 0, width, height});
}

const std::vector<std::string> frames{"02", "03", "04", "05", "06", "07", "08", "10", "12"};

} // namespace

// Frames and calibration: lessthanoptimal/BoofCV-Data, commit cc6d8ad,
// example/calibration/mono/Sony_DSC-HX5V_Chess; CC BY 4.0, Peter Abeles.
TEST_CASE("The radial model with the published values straightens a board's rows", "[reference]") {
    const auto folder = realPhotos("calib_sony_chess");
    if (!folder)
        return;
    PlaneMapping none = publishedLens();
    none.k1 = none.k2 = 0.0;
    int read = 0;
    double bent = 0.0;
    double straight = 0.0;
    for (const std::string& frame : frames) {
        const auto corners = cornersIn(pictureOf(*folder / ("frame" + frame + ".jpg")));
        if (corners.empty())
            continue;
        ++read;
        INFO("frame " << frame);
        CHECK(crookedness(corners, publishedLens()) < 0.25); // calibration's own rms: 0.16 px
        straight += crookedness(corners, publishedLens());
        bent += crookedness(corners, none);
    }
    CHECK(read >= 7);
    CHECK(straight < bent); // there was distortion to remove
}

// The same frames, each fitted alone. Short series of them gave k1 from -0.255 to -0.265; one frame
// shows less, but the median must be near.
TEST_CASE("The radial model fitted to a board comes near the published lens", "[reference]") {
    const auto folder = realPhotos("calib_sony_chess");
    if (!folder)
        return;
    std::vector<double> k1;
    for (const std::string& frame : frames) {
        const auto corners = cornersIn(pictureOf(*folder / ("frame" + frame + ".jpg")));
        if (corners.empty())
            continue;
        const MappingFit fit = fitBoard(corners);
        INFO("frame " << frame << " k1 " << fit.mapping.k1 << " k2 " << fit.mapping.k2);
        CHECK(fit.residual.value() < 0.35);
        CHECK(std::abs(fit.inkGrowth) < 0.3); // mm: a board's corners do not grow
        CHECK(crookedness(corners, [&] {
                  PlaneMapping lens = publishedLens();
                  lens.k1 = fit.mapping.k1;
                  lens.k2 = fit.mapping.k2;
                  return lens;
              }()) < 0.25);
        k1.push_back(fit.mapping.k1);
    }
    REQUIRE(k1.size() >= 7);
    std::nth_element(k1.begin(), k1.begin() + static_cast<std::ptrdiff_t>(k1.size() / 2), k1.end());
    CHECK(k1[k1.size() / 2] == Approx(-0.2556).margin(0.05));
}
