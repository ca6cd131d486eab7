// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/paper_light.h"

#include "base/median.h"
#include "card/normal_sums.h"
#include "card/serial_code.h"
#include "photo/linear_light.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace swarfbook {
namespace {

constexpr double clearance = 1.2; // mm from anything printed: blur, ink spread, fingers' shadow

bool nearSquare(PointOnCard p, PointOnCard centre, double side) {
    const double half = side / 2.0 + clearance;
    return std::abs(p.x - centre.x) < half && std::abs(p.y - centre.y) < half;
}

bool onBarePaper(const CardLayout& layout, PointOnCard p) {
    const CardRect& o = layout.outer;
    const CardRect& w = layout.window;
    if (p.x < clearance || p.y < clearance || p.x > o.width - clearance ||
        p.y > layout.checkBarY - 2.0)
        return false;
    if (p.x > w.x - clearance && p.x < w.x + w.width + clearance && p.y > w.y - clearance &&
        p.y < w.y + w.height + clearance)
        return false;
    // Below the window stand the card's name and serial number.
    if (p.x > w.x - clearance && p.x < w.x + w.width + clearance && p.y > w.y + w.height &&
        p.y < w.y + w.height + 6.0)
        return false;
    for (const auto& [id, centre] : layout.markers)
        if (nearSquare(p, centre, layout.markerSize))
            return false;
    for (const GreyPatch& patch : layout.patches)
        if (nearSquare(p, patch.centre, layout.patchSize))
            return false;
    for (const PointOnCard centre : layout.slantedCentres)
        if (nearSquare(p, centre, layout.slantedSize * 1.1))
            return false;
    return true;
}

/// On the serial's code, or nearer to it than paper may be.
bool onCode(const CardRect& code, PointOnCard p) {
    return nearSquare(p, {code.x + code.width / 2.0, code.y + code.height / 2.0}, code.width);
}

struct Place {
    PointOnCard at;
    cv::Vec3d linear;  ///< B, G, R
    double code = 0.0; ///< green
    bool clipped = false;
};

/// Mean over a small square of pixels, in linear light.
std::optional<Place> readPlace(const cv::Mat& bgr, const CardSighting& card, PointOnCard p) {
    const PointInPhoto at = card.mapping.photoFromCard(p);
    const int half = std::max(1, static_cast<int>(0.1 * card.scale.value()));
    const int u = static_cast<int>(std::lround(at.u));
    const int v = static_cast<int>(std::lround(at.v));
    if (u < half || v < half || u + half >= bgr.cols || v + half >= bgr.rows)
        return std::nullopt;
    const auto& linear = linearFromSrgb();
    Place place{p, {}, 0.0, false};
    int n = 0;
    int top = 0;
    for (int y = v - half; y <= v + half; ++y)
        for (int x = u - half; x <= u + half; ++x, ++n) {
            const auto& c = bgr.at<cv::Vec3b>(y, x);
            place.linear += cv::Vec3d(linear[c[0]], linear[c[1]], linear[c[2]]);
            place.code += c[1];
            top += (c[0] >= 253) + (c[1] >= 253) + (c[2] >= 253) >= 2 ? 1 : 0; // two channels full
        }
    place.linear *= 1.0 / n;
    place.code /= n;
    place.clipped = 2 * top > n;
    return place;
}

cv::Vec<double, 6> rowOf(const PaperLight& light, PointOnCard p) {
    const double x = (p.x - light.centre.x) / light.halfWidth;
    const double y = (p.y - light.centre.y) / light.halfHeight;
    return {1.0, x, y, x * x, x * y, y * y};
}

/// Iteratively reweighted least squares (Cauchy): smudges and shadows pull little.
void fitSurface(PaperLight& light, const std::vector<Place>& places, int channel) {
    std::vector<cv::Vec<double, 6>> rows;
    std::vector<double> level;
    for (const Place& place : places) {
        rows.push_back(rowOf(light, place.at));
        level.push_back(std::log(std::max(place.linear[channel], 1e-4)));
    }
    std::vector<double> weight(places.size(), 1.0);
    cv::Vec<double, 6> fit = cv::Vec<double, 6>::all(0.0);
    for (int round = 0; round < 8; ++round) {
        cv::Matx<double, 6, 6> a = cv::Matx<double, 6, 6>::zeros();
        cv::Vec<double, 6> g = cv::Vec<double, 6>::all(0.0);
        for (std::size_t i = 0; i < places.size(); ++i) {
            addToUpperHalf(a, rows[i], weight[i]);
            g += rows[i] * (weight[i] * level[i]);
        }
        mirrorUpperHalf(a);
        for (int k = 3; k < 6; ++k)
            a(k, k) += 1e-3 * static_cast<double>(places.size());
        fit = a.inv(cv::DECOMP_CHOLESKY) * g;
        for (std::size_t i = 0; i < places.size(); ++i) {
            const double r = (level[i] - fit.dot(rows[i])) / 0.1; // 0.1: a tenth brighter or darker
            weight[i] = 1.0 / (1.0 + r * r);
        }
    }
    light.surface[static_cast<std::size_t>(channel)] = fit;
}

double readBlack(const cv::Mat& bgr, const CardSighting& card) {
    std::vector<double> codes;
    for (const PointOnCard centre : card.layout.slantedCentres)
        if (const auto place = readPlace(bgr, card, centre))
            codes.push_back(place->code);
    return codes.empty() ? 0.0 : upperMedianOf(codes);
}

} // namespace

cv::Vec3d PaperLight::whiteAt(PointOnCard p) const {
    const auto row = rowOf(*this, p);
    return {std::exp(surface[0].dot(row)), std::exp(surface[1].dot(row)),
            std::exp(surface[2].dot(row))};
}

std::optional<PaperLight> readPaperLight(const cv::Mat& bgr, const CardSighting& card) {
    const CardLayout& layout = card.layout;
    std::vector<Place> places;
    const bool isCoded = showsSerialCode(bgr, card);
    constexpr double step = 1.7; // mm: about 600 places on a card
    for (double y = step / 2; y < layout.outer.height; y += step)
        for (double x = step / 2; x < layout.outer.width; x += step)
            if (onBarePaper(layout, {x, y}) && !(isCoded && onCode(layout.serialCode, {x, y})))
                if (const auto place = readPlace(bgr, card, {x, y}))
                    places.push_back(*place);
    if (places.size() < 30)
        return std::nullopt;
    PaperLight light;
    const CardRect& w = layout.window;
    light.centre = {w.x + w.width / 2, w.y + w.height / 2};
    light.halfWidth = w.width / 2;
    light.halfHeight = w.height / 2;
    light.places = static_cast<int>(places.size());
    std::vector<double> codes;
    double clipped = 0.0;
    for (const Place& p : places) {
        codes.push_back(p.code);
        clipped += p.clipped ? 1.0 : 0.0;
    }
    light.medianCode = upperMedianOf(codes);
    light.clippedShare = clipped / static_cast<double>(places.size());
    light.darkCode = readBlack(bgr, card);
    for (int channel = 0; channel < 3; ++channel)
        fitSurface(light, places, channel);
    return light;
}

} // namespace swarfbook
