// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/cut_features.h"

#include "debris/feature_writer.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace swarfbook {
namespace {

constexpr std::array<std::string_view, cutFeatureCount> cutNames{
    "chord",         "smallWidth",    "largeWidth",  "smallArea",   "areaRatio",     "solidity",
    "smallSolidity", "largeSolidity", "aspect",      "smallAspect", "largeAspect",   "deepest",
    "shallowest",    "lightness",     "colour",      "spread",      "nearLightness", "nearColour",
    "gap",           "gapLow",        "piece",       "pieceLow",    "seam",          "across",
    "smallLight",    "largeLight",    "smallYellow", "largeYellow", "smallRed",      "largeRed",
    "smallSpread",   "largeSpread",   "smallTint",   "largeTint",   "castAlong",     "castToward",
    "castStrength",  "castRing"};

constexpr double codes = 255.0;
constexpr double darkest = 8.0;       // codes: darker surfaces count as that
constexpr double leastSpread = 4.0;   // codes, of lightness within a side
constexpr double leastStanding = 4.0; // codes
constexpr int fewestCorePx = 6;

using CutNumbers = FeatureWriter<CutFeature, cutFeatureCount>;

/// What a window shows within a part of it.
struct View {
    cv::Mat photo, contrast, piece, seam;
};

View viewOf(const CutSurroundings& around, const cv::Rect& part) {
    return {around.field.smooth(part), around.field.contrast(part), around.map.piece(part),
            around.map.seam(part)};
}

/// A rectangle of the box, and so much around it as lies in the box.
cv::Rect grown(const cv::Rect& rect, int by, cv::Size box) {
    return cv::Rect(rect.x - by, rect.y - by, rect.width + 2 * by, rect.height + 2 * by) &
           cv::Rect({}, box);
}

/// One side of a cut.
struct Side {
    cv::Mat mask; ///< of the box
    double area = 1.0, width = 1.0, solidity = 1.0, aspect = 1.0;
    cv::Point2d middle;
    cv::Vec3d mean;           ///< codes, rim left out
    double lightSpread = 1.0; ///< codes, rim left out
    double contrast = 1.0;
};

double lightOf(const cv::Vec3d& c) {
    return (c[0] + 2.0 * c[1] + c[2]) / 4.0;
}

/// Difference of two colours apart from their lightness.
double colourApart(const cv::Vec3d& a, const cv::Vec3d& b) {
    return cv::norm((a - cv::Vec3d::all(lightOf(a))) - (b - cv::Vec3d::all(lightOf(b))));
}

/// What is summed over some pixels of a side; all but the last in whole numbers.
struct Sums {
    long n = 0, x = 0, y = 0;
    cv::Vec<long, 3> colour;
    long light = 0, lightSquare = 0; ///< of four times the lightness
    double contrast = 0.0;
};

void addPixel(Sums& sums, const cv::Vec3b& photo) {
    const long light = photo[0] + 2 * photo[1] + photo[2];
    sums.colour += cv::Vec<long, 3>(photo[0], photo[1], photo[2]);
    sums.light += light;
    sums.lightSquare += light * light;
}

/// Sums over a side, and over what lies deep in it.
std::pair<Sums, Sums> sumsOf(const cv::Mat& own, const cv::Mat& depth, const View& view) {
    constexpr float deepFrom = 1.5F; // px: the rim is blurred
    Sums all, deep;
    for (int y = 0; y < own.rows; ++y) {
        const auto* in = own.ptr<uchar>(y);
        const auto* far = depth.ptr<float>(y);
        const auto* contrast = view.contrast.ptr<float>(y);
        const auto* photo = view.photo.ptr<cv::Vec3b>(y);
        for (int x = 0; x < own.cols; ++x) {
            if (in[x] == 0)
                continue;
            ++all.n;
            all.x += x;
            all.y += y;
            all.contrast += static_cast<double>(contrast[x]);
            addPixel(all, photo[x]);
            if (far[x] > deepFrom) {
                ++deep.n;
                addPixel(deep, photo[x]);
            }
        }
    }
    return {all, deep};
}

void describeLightOf(Side& side, const Sums& sums) {
    const auto n = static_cast<double>(sums.n);
    const double light = static_cast<double>(sums.light) / 4.0;
    const double square = static_cast<double>(sums.lightSquare) / 16.0;
    side.mean = cv::Vec3d(sums.colour) * (1.0 / n);
    side.lightSpread = std::sqrt(std::max(0.0, square / n - light * light / n / n));
}

/// Looks at the side's own rectangle of the box alone.
Side sideFrom(const cv::Mat& mask, const CutTask& task, const CutSurroundings& around) {
    Side side;
    side.mask = mask;
    const cv::Rect part = partWith(mask, 1);
    const View view = viewOf(around, part + task.box.tl());
    const cv::Mat own = mask(part);
    cv::Mat depth;
    cv::distanceTransform(own, depth, cv::DIST_L2, 3);
    double most = 0.0;
    cv::minMaxLoc(depth, nullptr, &most);
    side.width = 2.0 * most;
    std::tie(side.solidity, side.aspect) = solidityAndAspect(own);
    const auto [all, deep] = sumsOf(own, depth, view);
    side.area = static_cast<double>(all.n);
    side.middle = {part.x + static_cast<double>(all.x) / side.area,
                   part.y + static_cast<double>(all.y) / side.area};
    side.contrast = all.contrast / side.area;
    describeLightOf(side, deep.n < fewestCorePx ? all : deep);
    return side;
}

/// How unevenly a side changes the surface's three colours: a shadow takes the same share of each.
double tintOf(const Side& side, const cv::Vec3d& surface) {
    double sum = 0.0, square = 0.0;
    for (int c = 0; c < 3; ++c) {
        const double ratio = side.mean[c] / std::max(darkest, surface[c]);
        sum += ratio / 3;
        square += ratio * ratio / 3;
    }
    return std::sqrt(std::max(0.0, square - sum * sum)) / std::max(0.05, sum);
}

void describeShapes(CutNumbers out, const CutLine& line, const std::pair<Side, Side>& sides,
                    double edge) {
    const auto& [small, large] = sides;
    const auto& [solidity, aspect] = line.whole;
    out.set(CutFeature::chord, std::log(line.length / edge));
    out.set(CutFeature::smallWidth, line.length / small.width);
    out.set(CutFeature::largeWidth, line.length / large.width);
    out.set(CutFeature::smallArea, std::log(small.area / edge / edge));
    out.set(CutFeature::areaRatio, std::log(small.area / large.area));
    out.set(CutFeature::solidity, solidity);
    out.set(CutFeature::smallSolidity, small.solidity);
    out.set(CutFeature::largeSolidity, large.solidity);
    out.set(CutFeature::aspect, aspect);
    out.set(CutFeature::smallAspect, small.aspect);
    out.set(CutFeature::largeAspect, large.aspect);
    out.set(CutFeature::deepest, line.deep / edge);
    out.set(CutFeature::shallowest, line.shallow / edge);
}

void describeOneSide(CutNumbers out, const Side& side, const cv::Vec3d& surface,
                     const std::array<CutFeature, 5>& which) {
    const double light = std::max(darkest, lightOf(side.mean));
    const auto& [relative, yellow, red, spread, tint] = which;
    out.set(relative, std::min(3.0, light / std::max(darkest, lightOf(surface))));
    out.set(yellow, (0.5 * (side.mean[1] + side.mean[2]) - side.mean[0]) / light);
    out.set(red, (side.mean[2] - side.mean[1]) / light);
    out.set(spread, side.lightSpread / codes);
    out.set(tint, tintOf(side, surface));
}

void describeSides(CutNumbers out, const std::pair<Side, Side>& sides, const cv::Vec3d& surface) {
    using enum CutFeature;
    const auto& [small, large] = sides;
    const double apart = std::abs(lightOf(small.mean) - lightOf(large.mean));
    out.set(lightness, apart / codes);
    out.set(colour, colourApart(small.mean, large.mean) / codes);
    out.set(spread,
            apart / std::max(leastSpread, std::hypot(small.lightSpread, large.lightSpread)));
    describeOneSide(out, small, surface,
                    {smallLight, smallYellow, smallRed, smallSpread, smallTint});
    describeOneSide(out, large, surface,
                    {largeLight, largeYellow, largeRed, largeSpread, largeTint});
}

struct LineInBox {
    const CutLine& line;
    cv::Rect box; ///< in the crop
};

/// What shows along the cut, and on either side close to it.
void describeLine(CutNumbers out, const LineInBox& at, const std::pair<Side, Side>& sides,
                  const CutSurroundings& surroundings) {
    const auto& [line, box] = at;
    const int reach = std::max(2, static_cast<int>(std::lround(1.5 * surroundings.edge)));
    const cv::Rect part = grown(cv::boundingRect(line.pixels), reach, box.size());
    const View view = viewOf(surroundings, part + box.tl());
    const cv::Mat small = sides.first.mask(part), large = sides.second.mask(part);
    cv::Mat on(part.size(), CV_8U, cv::Scalar(0)), close, around;
    double contrast = 0.0, faintest = 1e9, piece = 0.0, lowest = codes, light = 0.0;
    for (const cv::Point& inBox : line.pixels) {
        const cv::Point p = inBox - part.tl();
        on.at<uchar>(p) = 255;
        contrast += view.contrast.at<float>(p);
        faintest = std::min(faintest, static_cast<double>(view.contrast.at<float>(p)));
        piece += view.piece.at<uchar>(p);
        lowest = std::min(lowest, static_cast<double>(view.piece.at<uchar>(p)));
        light += lightOf(view.photo.at<cv::Vec3b>(p));
    }
    cv::dilate(on, around, cv::Mat::ones(2 * reach + 1, 2 * reach + 1, CV_8U));
    cv::dilate(on, close, cv::Mat::ones(3, 3, CV_8U));
    around.setTo(0, close);
    const cv::Mat bySmall = around & small, byLarge = around & large;
    const cv::Vec3d a = meanOf(view.photo, bySmall), b = meanOf(view.photo, byLarge);
    if (cv::countNonZero(bySmall) > 0 && cv::countNonZero(byLarge) > 0) {
        out.set(CutFeature::nearLightness, std::abs(lightOf(a) - lightOf(b)) / codes);
        out.set(CutFeature::nearColour, colourApart(a, b) / codes);
    }
    double seam = 0.0;
    cv::minMaxLoc(view.seam, nullptr, &seam, nullptr, nullptr, close & (small | large));
    const auto many = static_cast<double>(line.pixels.size());
    const double lesser =
        std::max(leastStanding, std::min(sides.first.contrast, sides.second.contrast));
    out.set(CutFeature::gap, contrast / many / lesser);
    out.set(CutFeature::gapLow, faintest / lesser);
    out.set(CutFeature::piece, piece / many / codes);
    out.set(CutFeature::pieceLow, lowest / codes);
    out.set(CutFeature::seam, seam / codes);
    out.set(CutFeature::across, (light / many - 0.5 * (lightOf(a) + lightOf(b))) / codes);
}

/// The photo's light, and how the sides lie in it.
void describeCast(CutNumbers out, const std::pair<Side, Side>& sides, const CastShadows& cast) {
    const cv::Point2d way = sides.first.middle - sides.second.middle;
    const cv::Point2d unit = way / std::max(1e-6, cv::norm(way));
    const cv::Point2d doubled(unit.x * unit.x - unit.y * unit.y, 2 * unit.x * unit.y);
    out.set(CutFeature::castAlong, doubled.dot(cast.axis));
    out.set(CutFeature::castToward, unit.dot(cast.pull));
    out.set(CutFeature::castStrength, cv::norm(cast.axis));
    out.set(CutFeature::castRing, cast.ring);
}

} // namespace

const std::array<std::string_view, cutFeatureCount>& cutFeatureNames() {
    return cutNames;
}

cv::Rect partWith(const cv::Mat& mask, int around) {
    return grown(cv::boundingRect(mask), around, mask.size());
}

cv::Vec3d meanOf(const cv::Mat& picture, const cv::Mat& mask) {
    const cv::Scalar mean = cv::mean(picture, mask);
    return {mean[0], mean[1], mean[2]};
}

std::pair<double, double> solidityAndAspect(const cv::Mat& mask) {
    std::vector<cv::Point> corners, hull; // of the first and the last pixel of each row
    double area = 0.0;
    for (int y = 0; y < mask.rows; ++y) {
        const auto* row = mask.ptr<uchar>(y);
        int first = mask.cols, last = -1;
        for (int x = 0; x < mask.cols; ++x)
            if (row[x] != 0) {
                first = std::min(first, x);
                last = x;
                area += 1.0;
            }
        if (last >= 0)
            corners.insert(corners.end(),
                           {{first, y}, {first, y + 1}, {last + 1, y}, {last + 1, y + 1}});
    }
    if (corners.empty())
        return {1.0, 1.0};
    cv::convexHull(corners, hull);
    const cv::Size2f size = cv::minAreaRect(hull).size;
    return {area / std::max(1.0, cv::contourArea(hull)),
            std::min(size.width, size.height) / std::max({size.width, size.height, 1.0F})};
}

CutFeatures cutFeaturesOf(const CutLine& line, const std::pair<cv::Mat, cv::Mat>& sides,
                          const CutTask& task, const CutSurroundings& around) {
    std::pair<Side, Side> smallAndLarge{sideFrom(sides.first, task, around),
                                        sideFrom(sides.second, task, around)};
    if (smallAndLarge.first.area > smallAndLarge.second.area)
        std::swap(smallAndLarge.first, smallAndLarge.second);
    CutFeatures features{};
    const CutNumbers out(features);
    describeShapes(out, line, smallAndLarge, around.edge);
    describeSides(out, smallAndLarge, line.surface);
    describeLine(out, {line, task.box}, smallAndLarge, around);
    describeCast(out, smallAndLarge, around.cast);
    return features;
}

} // namespace swarfbook
