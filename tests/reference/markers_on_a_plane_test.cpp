// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/find_markers.h"
#include "card/fit_mapping.h"
#include "reference/real_photos.h"

#include <catch2/catch.hpp>
#include <opencv2/aruco.hpp>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// Markers of a plane: corners in the plane's own unit, y down, clockwise from the top left.
using Plane = std::map<int, std::array<PointOnCard, 4>>;

/// The outlines of the markers as edges to fit to.
std::vector<CardEdge> edgesOf(const Plane& plane) {
    std::vector<CardEdge> edges;
    for (const auto& [id, corners] : plane)
        for (std::size_t k = 0; k < 4; ++k) {
            const PointOnCard a = corners[k];
            const PointOnCard b = corners[(k + 1) % 4];
            const double length = std::hypot(b.x - a.x, b.y - a.y);
            edges.push_back({id, a, b, {(b.y - a.y) / length, -(b.x - a.x) / length}});
        }
    return edges;
}

CardRect boxOf(const Plane& plane) {
    double x0 = 1e9, y0 = 1e9, x1 = -1e9, y1 = -1e9;
    for (const auto& [id, corners] : plane)
        for (const PointOnCard& c : corners) {
            x0 = std::min(x0, c.x);
            x1 = std::max(x1, c.x);
            y0 = std::min(y0, c.y);
            y1 = std::max(y1, c.y);
        }
    return {x0, y0, x1 - x0, y1 - y0};
}

/// Homography from marker corners: where the fit starts.
PlaneMapping startOf(const Plane& plane, const std::map<int, MarkerCorners>& seen,
                     const cv::Mat& bgr, double focal) {
    PlaneMapping m;
    m.focal = focal;
    m.centre = {(bgr.cols - 1) / 2.0, (bgr.rows - 1) / 2.0};
    std::vector<cv::Point2f> from, to;
    for (const auto& [id, corners] : plane)
        for (std::size_t k = 0; k < 4; ++k) {
            const cv::Point2f at = seen.at(id)[k];
            from.emplace_back(static_cast<float>(corners[k].x), static_cast<float>(corners[k].y));
            to.emplace_back(static_cast<float>((at.x - m.centre.x) / focal),
                            static_cast<float>((at.y - m.centre.y) / focal));
        }
    m.h = cv::Matx33d(cv::findHomography(from, to, cv::RANSAC, 12.0 / focal));
    return m;
}

MappingFit fitTo(const Plane& plane, PlaneMapping mapping, const cv::Mat& bgr, double reach) {
    const auto edges = edgesOf(plane);
    MappingFit fit;
    for (const EdgeSearch& search :
         {EdgeSearch{Pixels(reach), 8}, EdgeSearch{Pixels(0.6 * reach), 14}}) {
        const auto points = findEdgePoints(bgr, edges, mapping, search);
        REQUIRE(points.size() > edges.size());
        fit = fitMapping(edges, points, mapping, boxOf(plane));
        mapping = fit.mapping;
    }
    return fit;
}

/// Corners to a fraction of a pixel, by OpenCV's own refinement.
std::map<int, MarkerCorners> refined(std::map<int, MarkerCorners> corners, const cv::Mat& bgr,
                                     int window) {
    cv::Mat grey;
    cv::cvtColor(bgr, grey, cv::COLOR_BGR2GRAY);
    for (auto& [id, four] : corners) {
        std::vector<cv::Point2f> points(four.begin(), four.end());
        cv::cornerSubPix(grey, points, {window, window}, {-1, -1},
                         {cv::TermCriteria::EPS + cv::TermCriteria::COUNT, 50, 0.01});
        std::copy(points.begin(), points.end(), four.begin());
    }
    return corners;
}

struct Distances {
    double rms = 0.0, worst = 0.0;
};

Distances predictedAgainstSeen(const PlaneMapping& m, const Plane& plane,
                               const std::map<int, MarkerCorners>& seen) {
    Distances d;
    int n = 0;
    for (const auto& [id, corners] : plane)
        for (std::size_t k = 0; k < 4; ++k, ++n) {
            const PointInPhoto p = m.photoFromCard(corners[k]);
            const double off =
                std::hypot(p.u - double(seen.at(id)[k].x), p.v - double(seen.at(id)[k].y));
            d.rms += off * off;
            d.worst = std::max(d.worst, off);
        }
    d.rms = std::sqrt(d.rms / std::max(n, 1));
    return d;
}

/// The layout as its own picture shows it: a grid whose gaps are as wide as the tags, ids row by
/// row. The picture's corners must lie on that grid, otherwise this test has the wrong plane.
Plane gridOfForty(const std::map<int, MarkerCorners>& inPicture) {
    constexpr double side = 31.5; // mm as declared upstream; its absolute size plays no part here
    Plane seen;
    for (const auto& [id, corners] : inPicture)
        for (std::size_t k = 0; k < 4; ++k)
            seen[id][k] = {double(corners[k].x), double(corners[k].y)};
    const CardRect box = boxOf(seen);
    const double px = box.width / 15.0; // eight tags and seven gaps
    CHECK(box.height == Approx(9.0 * px).margin(3.0));
    Plane plane;
    for (const auto& [id, corners] : seen)
        for (std::size_t k = 0; k < 4; ++k) {
            const double column = (corners[k].x - box.x) / px;
            const double row = (corners[k].y - box.y) / px;
            CHECK(column == Approx(std::round(column)).margin(3.0 / px));
            CHECK(row == Approx(std::round(row)).margin(3.0 / px));
            CHECK(static_cast<int>(column + 0.1) / 2 == (id - 1) / 5);
            CHECK(static_cast<int>(row + 0.1) / 2 == (id - 1) % 5);
            plane[id][k] = {std::round(column) * side, std::round(row) * side};
        }
    return plane;
}

bool isOuter(int id) {
    const int column = (id - 1) / 5; // numbered down the columns
    const int row = (id - 1) % 5;
    return column == 0 || column == 7 || row == 0 || row == 4;
}

} // namespace

// Photo and layout: JuliaRobotics/AprilTags.jl, commit e26240a, data/CameraCalibration; MIT
// licence. One homography over all its 160 corners leaves an rms of 2.5 px and at most 6.0 px; with
// radial terms 1.6 px rms (checked with OpenCV 4.6 when the photo was collected; screen flatness
// unknown).
TEST_CASE("A phone photo of 40 markers: all found, the outer ones predict the inner ones",
          "[reference]") {
    const auto folder = realPhotos("tags_iphone8_grid40");
    if (!folder)
        return;
    const cv::Mat photo = pictureOf(*folder / "taggridphoto.jpg");
    const cv::Mat layout = pictureOf(*folder / "AprilTagGrid1to40.png");
    const auto seen = findMarkers(photo);
    const auto drawn = findMarkers(layout);
    REQUIRE(seen.size() == 40);
    REQUIRE(drawn.size() == 40);
    const Plane all = gridOfForty(drawn);
    Plane outer, inner;
    for (const auto& [id, corners] : all)
        (isOuter(id) ? outer : inner)[id] = corners;
    REQUIRE(inner.size() == 18);
    const MappingFit fit = fitTo(outer, startOf(outer, seen, photo, 3360.0), photo, 12.0);
    CHECK(fit.owners.size() + 3 >= outer.size()); // a lamp washes out two of the upper row
    const Distances d = predictedAgainstSeen(fit.mapping, inner, refined(seen, photo, 9));
    INFO("inner corners: rms " << d.rms << " px, worst " << d.worst << " px");
    CHECK(d.rms < 3.0); // predicted, not fitted: over all corners a fit leaves 2.5
    CHECK(d.worst < 6.0);
    // Against the plane itself: a length between inner corners to a third of a percent.
    CHECK(fit.scaleUPercent < 0.3);
}

// Photo and sheet: Debian package opencv-doc 4.6.0, singlemarkers*; Apache-2.0 and BSD-3-Clause.
// Homography over its 24 corners: rms 0.64 px, at most 1.19 px (checked with OpenCV 4.6).
TEST_CASE("A printed sheet on a table: five markers predict the sixth", "[reference]") {
    const auto folder = realPhotos("aruco_sheet_layout");
    if (!folder)
        return;
    const cv::Mat photo = pictureOf(*folder / "singlemarkersoriginal.jpg");
    const cv::Mat sheet = pictureOf(*folder / "singlemarkerssource.png");
    CHECK(findMarkers(photo).empty()); // another family: not one of our cards
    const auto corners = [](const cv::Mat& picture) {
        const auto dictionary = cv::aruco::getPredefinedDictionary(cv::aruco::DICT_6X6_250);
        const auto parameters = cv::aruco::DetectorParameters::create();
        parameters->cornerRefinementMethod = cv::aruco::CORNER_REFINE_SUBPIX;
        std::vector<std::vector<cv::Point2f>> found;
        std::vector<int> ids;
        cv::aruco::detectMarkers(picture, dictionary, found, ids, parameters);
        std::map<int, MarkerCorners> byId;
        for (std::size_t i = 0; i < ids.size(); ++i)
            std::copy(found[i].begin(), found[i].end(), byId[ids[i]].begin());
        return byId;
    };
    const auto seen = corners(photo);
    const auto drawn = corners(sheet);
    REQUIRE(seen.size() == 6);
    REQUIRE(drawn.size() == 6);
    Plane all; // a tenth of the sheet's pixels, so that lengths are like millimetres
    for (const auto& [id, four] : drawn)
        for (std::size_t k = 0; k < 4; ++k)
            all[id][k] = {0.1 * double(four[k].x), 0.1 * double(four[k].y)};
    double squares = 0.0;
    for (const auto& [left, four] : all) {
        Plane others = all;
        others.erase(left);
        const Plane one{{left, four}};
        const MappingFit fit = fitTo(others, startOf(others, seen, photo, 496.0), photo, 5.0);
        const Distances d = predictedAgainstSeen(fit.mapping, one, seen);
        INFO("marker " << left << ": rms " << d.rms << " px, worst " << d.worst << " px");
        CHECK(d.worst < 3.0);
        squares += d.rms * d.rms / 6.0;
    }
    CHECK(std::sqrt(squares) < 1.5);
}
