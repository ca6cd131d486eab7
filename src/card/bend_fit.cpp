// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/bend_fit.h"

#include "card/normal_sums.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace swarfbook {
namespace {

constexpr double unit = 50.0;      // mm, of the terms below
constexpr double stiffness = 20.0; // mm in one unit: no card is bent more; keeps the sums regular

using Terms = cv::Vec3d;
using Square3 = cv::Matx33d;

Terms termsAt(PointOnCard p, const CardRect& window) {
    const double x = (p.x - window.x - window.width / 2) / unit;
    const double y = (p.y - window.y - window.height / 2) / unit;
    return {x * x, x * y, y * y};
}

/// How far each term, 1 mm of it, moves a point outward of its edge, px.
std::vector<Terms> columns(const FlatFit& flat) {
    std::vector<Terms> out;
    for (const FittedPoint& p : flat.points) {
        const double pxPerMm = -p.row[10]; // growing ink leaves the point behind
        const double away = p.outward.x * (p.at.x - flat.camera.foot.x) +
                            p.outward.y * (p.at.y - flat.camera.foot.y);
        out.push_back(termsAt(p.at, flat.window) * (pxPerMm * away / flat.camera.height.value()));
    }
    return out;
}

struct Estimate {
    cv::Matx<double, 11, 1> flatStep;
    Terms bend;
    Square3 covariance;
};

/// The rest of a point's distance once the flat card has moved and the bend is subtracted.
double leftOver(const FlatFit& flat, const std::vector<Terms>& bend, const Estimate& e,
                std::size_t i) {
    const FittedPoint& p = flat.points[i];
    return p.distance + p.row.dot(cv::Vec<double, 11>(e.flatStep.val)) - bend[i].dot(e.bend);
}

std::vector<double> weightsOf(const FlatFit& flat, const std::vector<Terms>& bend,
                              const Estimate& e, double& sigma) {
    std::vector<double> off;
    for (std::size_t i = 0; i < bend.size(); ++i)
        off.push_back(std::abs(leftOver(flat, bend, e, i)));
    std::vector<double> sorted = off;
    const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
    std::nth_element(sorted.begin(), middle, sorted.end());
    sigma = std::max(1.4826 * *middle, 0.02); // px: a fiftieth is the best that edges are read
    for (double& w : off) {
        const double t = w / sigma;
        w = t < 1.5 ? 1.0 : t < 8.0 ? 1.5 / t : 0.0;
    }
    return off;
}

/// One round of weighted least squares: the bend by partialling the flat card's parameters out.
Estimate solved(const FlatFit& flat, const std::vector<Terms>& bend, const std::vector<double>& w,
                double sigma) {
    cv::Matx<double, 11, 11> a = flat.prior * (sigma * sigma);
    cv::Matx<double, 11, 3> shared = cv::Matx<double, 11, 3>::zeros();
    cv::Matx<double, 11, 1> pull = cv::Matx<double, 11, 1>::zeros();
    for (std::size_t i = 0; i < bend.size(); ++i) {
        const FittedPoint& p = flat.points[i];
        addToUpperHalf(a, p.row, w[i]);
        shared += (w[i] * p.row) * bend[i].t();
        pull += p.row * (w[i] * p.distance);
    }
    mirrorUpperHalf(a);
    const auto imitation = a.solve(shared, cv::DECOMP_LU);
    const auto flatAlone = a.solve(pull, cv::DECOMP_LU);
    const auto imitated = imitation.t();
    std::vector<Terms> rest;
    Square3 s = Square3::eye() * (sigma * sigma / (stiffness * stiffness));
    Terms g(0, 0, 0);
    for (std::size_t i = 0; i < bend.size(); ++i) {
        const FittedPoint& p = flat.points[i];
        rest.emplace_back(bend[i] - Terms((imitated * p.row).val));
        s += w[i] * (rest[i] * bend[i].t());
        g += rest[i] * (w[i] * p.distance);
    }
    Estimate out;
    const Square3 inverse = s.inv(cv::DECOMP_LU);
    out.bend = inverse * g;
    out.flatStep = imitation * out.bend - flatAlone;
    std::map<int, Terms> byEdge;
    for (std::size_t i = 0; i < bend.size(); ++i)
        byEdge.try_emplace(flat.points[i].edge, Terms(0, 0, 0)).first->second +=
            rest[i] * (w[i] * leftOver(flat, bend, out, i));
    Square3 meat = Square3::zeros();
    for (const auto& [edge, sum] : byEdge)
        meat += sum * sum.t();
    const double n = static_cast<double>(byEdge.size());
    const double small = n > 14.0 ? n / (n - 14.0) : 4.0; // 11 + 3 parameters
    out.covariance = small * (inverse * meat * inverse.t());
    return out;
}

Estimate estimate(const FlatFit& flat, const std::vector<Terms>& bend) {
    double sigma = 1.0;
    Estimate e = solved(flat, bend, std::vector<double>(bend.size(), 1.0), sigma);
    for (int round = 0; round < 12; ++round) {
        const auto w = weightsOf(flat, bend, e, sigma);
        e = solved(flat, bend, w, sigma);
    }
    return e;
}

/// Paper bends but does not stretch: the cylinder z = k n^2 (n across its axis) that the estimate
/// stands for. A bend that is alike in all directions does not count, since a lens makes one too.
/// The rest fits two cylinders, one bent up in one direction and one bent down in the other.
struct Cylinders {
    std::array<Terms, 2> bends;
    double curvature = 0.0, curvatureU = 0.0, chiSquare = 0.0;
};

Cylinders cylindersOf(const Estimate& e) {
    const cv::Matx23d toUneven(1, 0, -1, 0, 1, 0);
    const cv::Vec2d uneven = toUneven * e.bend;
    const cv::Matx22d covariance = toUneven * e.covariance * toUneven.t();
    Cylinders c;
    c.curvature = cv::norm(uneven);
    if (!(c.curvature > 0.0))
        return c;
    const cv::Vec2d way = uneven / c.curvature; // cosine and sine of twice the direction
    c.curvatureU = std::sqrt(std::max(0.0, (way.t() * covariance * way)[0]));
    c.chiSquare = (uneven.t() * covariance.inv(cv::DECOMP_SVD) * uneven)[0];
    c.bends = {0.5 * c.curvature * Terms(1 + way[0], 2 * way[1], 1 - way[0]),
               0.5 * c.curvature * Terms(way[0] - 1, 2 * way[1], -1 - way[0])};
    return c;
}

/// Highest less lowest place over the window, and the standard deviation of the heights, mm.
std::pair<double, double> heightsOf(const Terms& bend, const CardRect& w) {
    double high = -1e9, low = 1e9, sum = 0.0, squares = 0.0;
    constexpr int n = 9;
    for (int j = 0; j < n; ++j)
        for (int i = 0; i < n; ++i) {
            const double z = bend.dot(
                termsAt({w.x + w.width * i / (n - 1.0), w.y + w.height * j / (n - 1.0)}, w));
            sum += z;
            squares += z * z;
            high = std::max(high, z);
            low = std::min(low, z);
        }
    const double mean = sum / (n * n);
    return {high - low, std::sqrt(std::max(0.0, squares / (n * n) - mean * mean))};
}

} // namespace

BendFit fitBend(const FlatFit& flat) {
    const Cylinders found = cylindersOf(estimate(flat, columns(flat)));
    const auto [rise, spread] =
        std::max(heightsOf(found.bends[0], flat.window), heightsOf(found.bends[1], flat.window));
    BendFit fit;
    fit.rise = Millimetres(rise);
    if (found.curvature > 0.0)
        fit.riseU = fit.rise * (found.curvatureU / found.curvature);
    fit.chiSquare = found.chiSquare;
    fit.lengthUPercent = 100.0 * spread / flat.camera.height.value();
    return fit;
}

} // namespace swarfbook
