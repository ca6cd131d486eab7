// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/cast_shadows.h"

#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

namespace swarfbook {
namespace {

constexpr double sureOf = 0.6;                 // mean of the piece map within
constexpr double largeEnough = 2.0;            // edge widths: smaller ones are round by blur alone
constexpr double ringFrom = 0.7, ringTo = 2.0; // edge widths beyond the outline
constexpr int fewestPx = 8;                    // in a ring, else it tells nothing
constexpr int rims = 6; // px that a candidate's box is wider than its piece, at least
constexpr int sectors = 8;
constexpr double brightest = 1.3; // of the surface's light: a glint beside is no lack of shadow

using Sectors = std::array<std::optional<double>, sectors>;

cv::Point2d middleOf(const std::vector<cv::Point2d>& outline) {
    cv::Point2d sum;
    for (const auto& p : outline)
        sum += p;
    return sum / std::max<double>(1.0, static_cast<double>(outline.size()));
}

bool tells(const Candidate& c, double edge) {
    return c.certainty >= sureOf && c.outline.size() > 4 &&
           std::max(c.box.width, c.box.height) - rims >= largeEnough * edge;
}

cv::Mat maskOfAll(const std::vector<Candidate>& candidates, cv::Size size) {
    cv::Mat all = cv::Mat::zeros(size, CV_8U);
    for (const Candidate& c : candidates)
        all(c.box).setTo(255, c.mask);
    return all;
}

/// Lack of light at a pixel, share of the surface's.
double darkness(const ContrastField& field, cv::Point at) {
    const auto& linear = linearFromSrgb();
    const auto& p = field.smooth.at<cv::Vec3b>(at);
    const auto& b = field.background.at<cv::Vec3b>(at);
    const cv::Vec3d lp(linear[p[0]], linear[p[1]], linear[p[2]]);
    const cv::Vec3d lb(linear[b[0]], linear[b[1]], linear[b[2]]);
    return 1.0 - std::clamp(lp.dot(lb) / std::max(lb.dot(lb), 1e-6), 0.0, brightest);
}

/// Mean darkness of the ring round one candidate, by direction.
Sectors ringOf(const ContrastField& field, const Candidate& c, const cv::Mat& taken, double edge) {
    cv::Mat away;
    cv::distanceTransform(c.mask == 0, away, cv::DIST_L2, 3);
    const cv::Point2d middle = middleOf(c.outline);
    std::array<double, sectors> sum{};
    std::array<int, sectors> count{};
    int all = 0;
    for (int y = 0; y < away.rows; ++y)
        for (int x = 0; x < away.cols; ++x) {
            const double distance = away.at<float>(y, x);
            const cv::Point at(c.box.x + x, c.box.y + y);
            if (distance < ringFrom * edge || distance > ringTo * edge || taken.at<uchar>(at) != 0)
                continue;
            const double turn = std::atan2(at.y - middle.y, at.x - middle.x) + std::numbers::pi;
            const auto sector = static_cast<std::size_t>(std::clamp(
                static_cast<int>(turn / (2 * std::numbers::pi) * sectors), 0, sectors - 1));
            sum[sector] += darkness(field, at);
            ++count[sector];
            ++all;
        }
    Sectors out;
    for (std::size_t i = 0; i < sectors && all >= fewestPx; ++i)
        if (count[i] > 0)
            out[i] = sum[i] / count[i];
    return out;
}

double medianOf(std::vector<double>& values) {
    if (values.empty())
        return 0.0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

void describeRings(CastShadows& out, const std::vector<Sectors>& rings) {
    for (std::size_t i = 0; i < sectors; ++i) {
        std::vector<double> values;
        for (const Sectors& ring : rings)
            if (ring[i])
                values.push_back(*ring[i]);
        const double dark = medianOf(values);
        const double turn =
            (static_cast<double>(i) + 0.5) / sectors * 2 * std::numbers::pi - std::numbers::pi;
        out.pull += dark * cv::Point2d(std::cos(turn), std::sin(turn)) / sectors;
        out.ring += dark / sectors;
    }
    out.side = std::hypot(out.pull.x, out.pull.y);
}

} // namespace

cv::Point2d elongationOf(const std::vector<cv::Point2d>& outline) {
    return elongationOf(outline, middleOf(outline));
}

cv::Point2d elongationOf(const std::vector<cv::Point2d>& outline, cv::Point2d centre) {
    double xx = 0.0, xy = 0.0, yy = 0.0;
    for (const auto& p : outline) {
        const cv::Point2d d = p - centre;
        xx += d.x * d.x;
        xy += d.x * d.y;
        yy += d.y * d.y;
    }
    const double total = std::max(xx + yy, 1e-9);
    return {(xx - yy) / total, 2 * xy / total};
}

CastShadows castShadowsOf(const ContrastField& field, const std::vector<Candidate>& candidates,
                          double edge) {
    std::vector<const Candidate*> sure;
    for (const Candidate& c : candidates)
        if (tells(c, edge))
            sure.push_back(&c);
    CastShadows out;
    if (sure.empty())
        return out;
    const cv::Mat taken = maskOfAll(candidates, field.contrast.size());
    std::vector<Sectors> rings(sure.size());
    cv::parallel_for_(cv::Range(0, static_cast<int>(sure.size())), [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            const auto at = static_cast<std::size_t>(i);
            rings[at] = ringOf(field, *sure[at], taken, edge);
        }
    });
    describeRings(out, rings);
    cv::Point2d sum;
    double square = 0.0;
    for (const Candidate* c : sure) {
        const cv::Point2d elongation = elongationOf(c->outline);
        sum += elongation;
        square += elongation.dot(elongation);
    }
    const auto n = static_cast<double>(sure.size());
    const double common = std::hypot(sum.x, sum.y) / n;
    const double byChance = std::sqrt(square / n / n);
    if (common > byChance)
        out.axis = sum / n * ((common - byChance) / common);
    return out;
}

} // namespace swarfbook
