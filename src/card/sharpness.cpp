// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/sharpness.h"

#include "base/median.h"
#include "card/corner_smear.h"
#include "card/edge_points.h"
#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <vector>

namespace swarfbook {
namespace {

constexpr double binsPerPixel = 4.0;

struct Line { ///< unit normal n and offset: n . p = c
    double nu = 0.0, nv = 0.0, c = 0.0;
};

Line lineThrough(const std::vector<EdgePoint>& points) {
    std::vector<cv::Point2f> at;
    for (const EdgePoint& p : points)
        at.emplace_back(static_cast<float>(p.at.u), static_cast<float>(p.at.v));
    cv::Vec4f fitted;
    cv::fitLine(at, fitted, cv::DIST_HUBER, 0, 0.01, 0.01);
    const double nu = -fitted[1];
    const double nv = fitted[0];
    return {nu, nv, nu * fitted[2] + nv * fitted[3]};
}

/// Light across an edge: bins of a quarter pixel, each where its pixels lie on average. At 5
/// degrees the rows of an edge step by 0.09 px, so that they fill the bins unevenly and a bin's
/// middle would be off by up to an eighth of a pixel, the same way along all of an edge.
struct EdgeSpread {
    std::vector<double> at;    ///< px across the edge; bins without pixels are left out
    std::vector<double> light; ///< linear
};

/// An edge in the photo from a to b: the line through it, and how far to look to either side.
struct EdgeStrip {
    Line line;
    PointInPhoto a, b;
    double reach = 0.0; ///< px
};

/// Edge spread over [-reach, reach] px.
EdgeSpread edgeSpread(const cv::Mat& bgr, const EdgeStrip& strip) {
    const auto& [line, a, b, reach] = strip;
    const int bins = static_cast<int>(2.0 * reach * binsPerPixel);
    std::vector<double> sum(static_cast<std::size_t>(bins), 0.0);
    std::vector<double> offset(static_cast<std::size_t>(bins), 0.0);
    std::vector<int> count(static_cast<std::size_t>(bins), 0);
    const double length = std::hypot(b.u - a.u, b.v - a.v);
    const double du = (b.u - a.u) / length;
    const double dv = (b.v - a.v) / length;
    const int u0 = std::max(0, static_cast<int>(std::min(a.u, b.u) - reach));
    const int u1 = std::min(bgr.cols - 2, static_cast<int>(std::max(a.u, b.u) + reach) + 1);
    const int v0 = std::max(0, static_cast<int>(std::min(a.v, b.v) - reach));
    const int v1 = std::min(bgr.rows - 2, static_cast<int>(std::max(a.v, b.v) + reach) + 1);
    const auto& linear = linearFromSrgb();
    for (int v = v0; v <= v1; ++v) {
        const auto* row = bgr.ptr<cv::Vec3b>(v);
        for (int u = u0; u <= u1; ++u) {
            const double along = ((u - a.u) * du + (v - a.v) * dv) / length;
            const double off = line.nu * u + line.nv * v - line.c;
            const int bin = static_cast<int>(std::floor((off + reach) * binsPerPixel));
            if (along < 0.15 || along > 0.85 || bin < 0 || bin >= bins)
                continue;
            const auto& c = row[u];
            sum[static_cast<std::size_t>(bin)] +=
                0.0722F * linear[c[0]] + 0.7152F * linear[c[1]] + 0.2126F * linear[c[2]];
            offset[static_cast<std::size_t>(bin)] += off;
            ++count[static_cast<std::size_t>(bin)];
        }
    }
    EdgeSpread spread;
    for (std::size_t i = 0; i < sum.size(); ++i)
        if (count[i] > 0) {
            spread.at.push_back(offset[i] / count[i]);
            spread.light.push_back(sum[i] / count[i]);
        }
    return spread;
}

std::optional<double> width10to90(const EdgeSpread& across) {
    std::vector<double> spread = across.light;
    std::vector<double> at = across.at;
    const std::size_t n = spread.size();
    if (n < 24)
        return std::nullopt;
    const auto tail = static_cast<std::ptrdiff_t>(n / 6);
    double first = upperMedianOf({spread.begin(), spread.begin() + tail});
    double last = upperMedianOf({spread.end() - tail, spread.end()});
    if (first > last) {
        std::reverse(spread.begin(), spread.end());
        std::reverse(at.begin(), at.end());
        std::swap(first, last);
    }
    if (last < 0.005 || last - first < 0.3 * last)
        return std::nullopt;
    const auto level = [&](double share) { return first + share * (last - first); };
    std::size_t middle = 0;
    while (middle < n && spread[middle] < level(0.5))
        ++middle;
    const auto crossing = [&](double share, int direction) -> std::optional<double> {
        for (auto i = static_cast<std::ptrdiff_t>(middle);
             i > 0 && i < static_cast<std::ptrdiff_t>(n); i += direction) {
            const double a = spread[static_cast<std::size_t>(i - 1)];
            const double b = spread[static_cast<std::size_t>(i)];
            if (a <= level(share) && b > level(share))
                return at[static_cast<std::size_t>(i - 1)] +
                       (level(share) - a) / (b - a) *
                           (at[static_cast<std::size_t>(i)] - at[static_cast<std::size_t>(i - 1)]);
        }
        return std::nullopt;
    };
    const auto low = crossing(0.1, -1);
    const auto high = crossing(0.9, 1);
    if (!low || !high)
        return std::nullopt;
    return std::abs(*high - *low);
}

/// A thing that lies on an edge can only widen it, so the sharper of two opposite edges shows the
/// blur there.
double leastOf(const std::vector<double>& widths) {
    return *std::min_element(widths.begin(), widths.end());
}

std::vector<SquareWidths> readSquares(const cv::Mat& bgr, const CardSighting& card) {
    // Markers stand square on the card: only slanted edges cross the pixel rows.
    std::map<int, SquareWidths> byOwner;
    for (const CardEdge& e : edgesOfCard(card.layout)) {
        if (e.owner > 0)
            continue;
        SquareWidths& square = byOwner[e.owner];
        square.centre = card.layout.slantedCentres[static_cast<std::size_t>(-e.owner - 1)];
        if (const auto width = edgeWidthOf(bgr, card.mapping, e.a, e.b))
            (std::abs(e.b.x - e.a.x) > std::abs(e.b.y - e.a.y) ? square.alongY : square.alongX)
                .push_back(width->value());
    }
    std::vector<SquareWidths> squares;
    for (auto& [owner, square] : byOwner)
        squares.push_back(std::move(square));
    return squares;
}

SquareOnCard squareAt(const CardLayout& layout, PointOnCard centre) {
    const double turn = layout.slantedTurnDeg * CV_PI / 180.0;
    const double half = layout.slantedSize / 2.0;
    return {centre,
            {half * std::cos(turn), half * std::sin(turn)},
            {-half * std::sin(turn), half * std::cos(turn)}};
}

/// Median over the squares of the blur's covariance between their two sides, px^2.
double covarianceOver(const cv::Mat& bgr, const CardSighting& card, double widest) {
    std::vector<double> found;
    for (const PointOnCard centre : card.layout.slantedCentres)
        if (const auto covariance =
                smearCovariance(bgr, card.mapping, squareAt(card.layout, centre), Pixels(widest)))
            found.push_back(*covariance);
    return found.size() < 2 ? 0.0 : upperMedianOf(found);
}

/// Direction in the photo, degrees 0 to 180, of a direction along the first square's sides.
double directionInPhoto(const CardSighting& card, cv::Point2d alongSides) {
    const SquareOnCard square = squareAt(card.layout, card.layout.slantedCentres.front());
    const auto step = [&](PointOnCard side) {
        const PointInPhoto from = card.mapping.photoFromCard(square.centre);
        const PointInPhoto to =
            card.mapping.photoFromCard({square.centre.x + side.x, square.centre.y + side.y});
        const cv::Point2d d(to.u - from.u, to.v - from.v);
        return d / std::hypot(d.x, d.y);
    };
    const cv::Point2d d =
        alongSides.x * step(square.toRight) + alongSides.y * step(square.toBottom);
    const double degrees = std::atan2(d.y, d.x) * 180.0 / CV_PI;
    return degrees < 0.0 ? degrees + 180.0 : degrees;
}

constexpr double gaussianWidth = 2.5631; // 10-90 % width of a Gaussian edge over its sigma
constexpr double evenMotionWidth = 0.8;  // of an even motion over its length: the middle 80 % of a
                                         // straight ramp
constexpr double softFrom = 3.0;         // px: wider edges than a phone in focus and at rest makes;
                                         // the usual are 1 to 2.2 px (our own experience)
constexpr double oneDirection = 1.5;     // ratio of widths: a card seen at 45 degrees, the steepest
                                     // that is still sharp all over, turns an even blur into 1.4

/// Finds what smears the photo from the widths along the squares' two sides and their covariance;
/// sets the widths along and across the smear.
void tellCause(Sharpness& s, const cv::Mat& bgr, const CardSighting& card,
               const std::array<double, 2>& width) {
    s.widestDirection = Pixels(std::max(width[0], width[1]));
    s.otherDirection = Pixels(std::min(width[0], width[1]));
    if (s.widestDirection.value() < softFrom)
        return;
    const auto variance = [](double w) { return w * w / (gaussianWidth * gaussianWidth); };
    const double together = covarianceOver(bgr, card, s.widestDirection.value());
    const cv::Matx22d blur(variance(width[0]), together, together, variance(width[1]));
    cv::Vec2d values;
    cv::Matx22d ways;
    cv::eigen(blur, values, ways);
    const double least = std::max(values[1], variance(1.0)); // no camera blurs less than a pixel
    const double most = gaussianWidth * std::sqrt(std::max(values[0], least));
    const double across = gaussianWidth * std::sqrt(least);
    if (most < oneDirection * across) {
        s.cause = BlurCause::focus;
        return;
    }
    s.cause = across < softFrom ? BlurCause::motion : BlurCause::both;
    s.motion = Degrees(directionInPhoto(card, {ways(0, 0), ways(0, 1)}));
    s.smear = Pixels(std::sqrt(most * most - across * across) / evenMotionWidth);
    s.widestDirection = Pixels(std::max(most, s.widestDirection.value()));
    s.otherDirection = Pixels(across);
}

/// The place that is clearly less sharp than the card on the whole.
std::optional<EdgeWidthAt> worstPlace(const std::vector<EdgeWidthAt>& places) {
    constexpr double clearly = 1.25; // between edges of an even photo: 10 % (our own experience)
    if (places.size() < 3)
        return std::nullopt;
    std::vector<double> widths;
    for (const EdgeWidthAt& place : places)
        widths.push_back(place.width.value());
    std::sort(widths.begin(), widths.end());
    const double usual = widths[(widths.size() - 1) / 2];
    const auto worst =
        std::max_element(places.begin(), places.end(),
                         [](const auto& a, const auto& b) { return a.width < b.width; });
    constexpr double sharpEnough = 2.0; // px: below it the pixels set the size limit
    if (worst->width.value() < std::max(clearly * usual, sharpEnough))
        return std::nullopt;
    return *worst;
}

} // namespace

std::optional<Pixels> edgeWidthOf(const cv::Mat& bgr, const PlaneMapping& mapping, PointOnCard from,
                                  PointOnCard to) {
    CardEdge edge{0, from, to, {}};
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    edge.outward = {(to.y - from.y) / length, -(to.x - from.x) / length};
    const PointInPhoto a = mapping.photoFromCard(from);
    const PointInPhoto b = mapping.photoFromCard(to);
    const double sidePx = std::hypot(b.u - a.u, b.v - a.v);
    const double reach = std::min(0.35 * sidePx, 48.0);
    const auto points = findEdgePoints(bgr, {edge}, mapping, {Pixels(reach), 16});
    if (points.size() < 8)
        return std::nullopt;
    const auto width = width10to90(edgeSpread(bgr, {lineThrough(points), a, b, reach}));
    if (!width)
        return std::nullopt;
    return Pixels(*width);
}

std::optional<Sharpness> readSharpness(const cv::Mat& bgr, const CardSighting& card) {
    const std::vector<SquareWidths> squares = readSquares(bgr, card);
    std::vector<double> all, alongX, alongY;
    Sharpness s;
    for (const SquareWidths& square : squares) {
        for (const auto* list : {&square.alongX, &square.alongY})
            all.insert(all.end(), list->begin(), list->end());
        alongX.insert(alongX.end(), square.alongX.begin(), square.alongX.end());
        alongY.insert(alongY.end(), square.alongY.begin(), square.alongY.end());
        if (!square.alongX.empty() && !square.alongY.empty())
            s.places.push_back(
                {square.centre, Pixels(std::max(leastOf(square.alongX), leastOf(square.alongY)))});
    }
    if (all.size() < 2)
        return std::nullopt;
    s.edgesRead = static_cast<int>(all.size());
    s.edgeWidth = Pixels(upperMedianOf(all));
    tellCause(s, bgr, card,
              {alongX.empty() ? s.edgeWidth.value() : upperMedianOf(alongX),
               alongY.empty() ? s.edgeWidth.value() : upperMedianOf(alongY)});
    s.worst = worstPlace(s.places);
    s.map = EdgeWidthMap::through(squares);
    if (s.map)
        s.overWindow = s.map->over(card.layout.window);
    return s;
}

Pixels Sharpness::leastSharp() const {
    Pixels widest = widestDirection;
    if (overWindow.empty() && worst)
        return std::max(widest, worst->width);
    for (const EdgeWidths& place : overWindow)
        widest = std::max(widest, place.wider());
    return widest;
}

} // namespace swarfbook
