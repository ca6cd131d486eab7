// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/fit_mapping.h"

#include "card/normal_sums.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace swarfbook {
namespace {

constexpr int parameters = 11; // homography 8, k1, k2, ink growth
using Vector = cv::Vec<double, parameters>;
using Square = cv::Matx<double, parameters, parameters>;

// Prior of the radial terms, so that a card seen in one corner cannot invent a wild lens: phone
// lenses corrected by the maker stay within about +-0.1 (our own experience, no source).
constexpr double priorSigmaK = 0.15;

/// Conditioning of card coordinates: centre on the window, unit = 50 mm.
struct Conditioner {
    cv::Matx33d normalFromCard;
    explicit Conditioner(const CardRect& w)
        : normalFromCard(0.02, 0, -0.02 * (w.x + w.width / 2), 0, 0.02,
                         -0.02 * (w.y + w.height / 2), 0, 0, 1) {}
};

struct Problem {
    const std::vector<CardEdge>& edges;
    const std::vector<EdgePoint>& points;
    PlaneMapping start;
    cv::Matx33d normalFromCard;

    [[nodiscard]] PlaneMapping mappingOf(const Vector& p) const {
        PlaneMapping m = start;
        m.h = cv::Matx33d(p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], 1.0) * normalFromCard;
        m.k1 = p[8];
        m.k2 = p[9];
        return m;
    }

    [[nodiscard]] Vector parametersOf(const PlaneMapping& m) const {
        cv::Matx33d h = m.h * normalFromCard.inv();
        h *= 1.0 / h(2, 2);
        return {h(0, 0), h(0, 1), h(0, 2), h(1, 0), h(1, 1), h(1, 2),
                h(2, 0), h(2, 1), m.k1,    m.k2,    0.0};
    }

    /// The points as a lens without distortion would show them, normalised by focal and centre.
    [[nodiscard]] std::vector<cv::Point2d> undistorted(const Vector& p) const {
        std::vector<cv::Point2d> straight;
        straight.reserve(points.size());
        for (const EdgePoint& q : points) {
            const cv::Point2d seen((q.at.u - start.centre.x) / start.focal,
                                   (q.at.v - start.centre.y) / start.focal);
            double s = 1.0; // undistorted = distorted * s, by fixed-point iteration
            for (int i = 0; i < 8; ++i) {
                const double r2 = seen.dot(seen) * s * s;
                s = 1.0 / (1.0 + r2 * (p[8] + p[9] * r2));
            }
            straight.push_back(s * seen);
        }
        return straight;
    }

    /// Signed distances of the points from their edges, px, outward positive.
    [[nodiscard]] std::vector<double> distances(const Vector& p,
                                                const std::vector<cv::Point2d>& straight) const {
        const cv::Matx33d lineFromLine = mappingOf(p).h.inv().t();
        std::vector<cv::Vec3d> lines;
        for (const CardEdge& e : edges) {
            const double c = e.outward.x * e.a.x + e.outward.y * e.a.y + p[10];
            cv::Vec3d l = lineFromLine * cv::Vec3d(e.outward.x, e.outward.y, -c);
            lines.push_back(l * (start.focal / std::hypot(l[0], l[1])));
        }
        // Lines mapped by the inverse transpose keep their side up to the sign of the homography's
        // depth, which is positive for every card in front of the camera.
        std::vector<double> d;
        d.reserve(points.size());
        for (std::size_t i = 0; i < points.size(); ++i) {
            const cv::Vec3d& l = lines[static_cast<std::size_t>(points[i].edge)];
            d.push_back(l[0] * straight[i].x + l[1] * straight[i].y + l[2]);
        }
        return d;
    }
    [[nodiscard]] std::vector<double> distances(const Vector& p) const {
        return distances(p, undistorted(p));
    }
};

double medianAbs(std::vector<double> d) {
    if (d.empty())
        return 0.0;
    for (double& x : d)
        x = std::abs(x);
    const auto middle = d.begin() + static_cast<std::ptrdiff_t>(d.size() / 2);
    std::nth_element(d.begin(), middle, d.end());
    return *middle;
}

std::vector<double> huberWeights(const std::vector<double>& d) {
    const double sigma = std::max(1.4826 * medianAbs(d), 0.02);
    std::vector<double> w;
    for (const double x : d) {
        const double t = std::abs(x) / sigma;
        w.push_back(t < 1.5 ? 1.0 : t < 6.0 ? 1.5 / t : 0.0);
    }
    return w;
}

/// Rows of the Jacobian, by forward differences from the distances at p.
std::vector<Vector> jacobian(const Problem& problem, const Vector& p,
                             const std::vector<double>& here) {
    std::vector<Vector> rows(problem.points.size());
    const auto straight = problem.undistorted(p);
    constexpr double step = 1e-6;
    for (int k = 0; k < parameters; ++k) {
        Vector moved = p;
        moved[k] += step;
        const bool ofLens = k == 8 || k == 9;
        const auto there = ofLens ? problem.distances(moved) : problem.distances(moved, straight);
        for (std::size_t i = 0; i < rows.size(); ++i)
            rows[i][k] = (there[i] - here[i]) / step;
    }
    return rows;
}

double cost(const Problem& problem, const Vector& p, const std::vector<double>& w, double sigma2) {
    const auto d = problem.distances(p);
    double sum = sigma2 * (p[8] * p[8] + p[9] * p[9]) / (priorSigmaK * priorSigmaK);
    for (std::size_t i = 0; i < d.size(); ++i)
        sum += w[i] * d[i] * d[i];
    return sum;
}

struct Normal {
    Square a;
    Vector g;
};

Normal normalEquations(const std::vector<Vector>& rows, const std::vector<double>& d,
                       const std::vector<double>& w, const Vector& p, double sigma2) {
    Normal n{Square::zeros(), Vector::all(0.0)};
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (w[i] == 0.0)
            continue;
        addToUpperHalf(n.a, rows[i], w[i]);
        n.g += rows[i] * (w[i] * d[i]);
    }
    mirrorUpperHalf(n.a);
    for (int k = 8; k < 10; ++k) {
        n.a(k, k) += sigma2 / (priorSigmaK * priorSigmaK);
        n.g[k] += p[k] * sigma2 / (priorSigmaK * priorSigmaK);
    }
    return n;
}

Vector refine(const Problem& problem, Vector p) {
    double damping = 1e-4;
    for (int round = 0; round < 25; ++round) {
        const auto d = problem.distances(p);
        const auto w = huberWeights(d);
        const double sigma2 = std::pow(std::max(1.4826 * medianAbs(d), 0.02), 2);
        const Normal n = normalEquations(jacobian(problem, p, d), d, w, p, sigma2);
        const double before = cost(problem, p, w, sigma2);
        bool better = false;
        double moved = 0.0;
        for (int attempt = 0; attempt < 6 && !better; ++attempt) {
            Square a = n.a;
            for (int k = 0; k < parameters; ++k)
                a(k, k) *= 1.0 + damping;
            Vector step;
            if (!cv::solve(a, n.g, step, cv::DECOMP_CHOLESKY))
                break;
            const Vector next = p - step;
            if (cost(problem, next, w, sigma2) <= before) {
                moved = cv::norm(step);
                p = next;
                damping *= 0.3;
                better = true;
            } else {
                damping *= 10.0;
            }
        }
        if (!better || moved < 1e-7)
            break;
    }
    return p;
}

/// Standard uncertainty of lengths over the window, percent: cluster-robust covariance by edge.
double scaleUncertainty(const Problem& problem, const Vector& p, const CardRect& window) {
    const auto d = problem.distances(p);
    const auto w = huberWeights(d);
    const auto rows = jacobian(problem, p, d);
    const double sigma2 = std::pow(std::max(1.4826 * medianAbs(d), 0.02), 2);
    const Normal n = normalEquations(rows, d, w, p, sigma2);
    std::map<int, Vector> clusters;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        auto& sum = clusters.try_emplace(problem.points[i].edge, Vector::all(0.0)).first->second;
        sum += rows[i] * (w[i] * d[i]);
    }
    Square meat = Square::zeros();
    for (const auto& [edge, sum] : clusters)
        meat += sum * sum.t();
    const double count = static_cast<double>(clusters.size());
    const double small = count > parameters ? count / (count - parameters) : 4.0;
    const Square bread = n.a.inv(cv::DECOMP_SVD);
    const Square covariance = small * (bread * meat * bread);

    const auto lengths = [&](const Vector& q) {
        const PlaneMapping m = problem.mappingOf(q);
        std::vector<double> out;
        for (int j = 0; j < 4; ++j)
            for (int i = 0; i < 4; ++i) {
                const auto at = [&](int x, int y) {
                    return m.photoFromCard(
                        {window.x + window.width * x / 4.0, window.y + window.height * y / 4.0});
                };
                const PointInPhoto a = at(i, j);
                const PointInPhoto b = at(i + 1, j);
                const PointInPhoto c = at(i, j + 1);
                out.push_back(std::log(std::hypot(b.u - a.u, b.v - a.v)));
                out.push_back(std::log(std::hypot(c.u - a.u, c.v - a.v)));
            }
        return out;
    };
    std::vector<Vector> gradient(lengths(p).size());
    for (int k = 0; k < parameters; ++k) {
        Vector hi = p;
        Vector lo = p;
        hi[k] += 1e-6;
        lo[k] -= 1e-6;
        const auto a = lengths(hi);
        const auto b = lengths(lo);
        for (std::size_t i = 0; i < gradient.size(); ++i)
            gradient[i][k] = (a[i] - b[i]) / 2e-6;
    }
    double mean = 0.0;
    for (const Vector& row : gradient)
        mean += (row.t() * covariance * row)[0];
    return 100.0 * std::sqrt(mean / static_cast<double>(gradient.size()));
}

/// Markers whose own edge points lie consistently apart from the fit.
std::set<int> agreeingOwners(const Problem& problem, const std::vector<double>& d) {
    const double limit = std::max(6.0 * 1.4826 * medianAbs(d), 0.8); // px
    std::map<int, std::vector<double>> byOwner;
    for (std::size_t i = 0; i < d.size(); ++i)
        byOwner[problem.edges[static_cast<std::size_t>(problem.points[i].edge)].owner].push_back(
            d[i]);
    std::set<int> agreeing;
    for (const auto& [owner, own] : byOwner)
        if (own.size() >= 8 && medianAbs(own) <= limit)
            agreeing.insert(owner);
    return agreeing;
}

BendFit bendOf(const Problem& problem, const Vector& p, const CardRect& window) {
    const auto d = problem.distances(p);
    const auto rows = jacobian(problem, p, d);
    const PlaneMapping mapping = problem.mappingOf(p);
    FlatFit flat;
    flat.prior = Square::zeros();
    flat.prior(8, 8) = flat.prior(9, 9) = 1.0 / (priorSigmaK * priorSigmaK);
    flat.camera = cameraOver(mapping);
    flat.window = window;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const EdgePoint& q = problem.points[i];
        flat.points.push_back({rows[i], d[i], q.edge, mapping.cardFromPhoto(q.at),
                               problem.edges[static_cast<std::size_t>(q.edge)].outward});
    }
    return fitBend(flat);
}

/// What those points say whose markers agree with each other.
struct Agreement {
    std::set<int> owners;
    std::vector<EdgePoint> points;
    Vector p;
};

Agreement agreementOf(const Problem& all) {
    Agreement agreed;
    agreed.p = refine(all, all.parametersOf(all.start));
    agreed.owners = agreeingOwners(all, all.distances(agreed.p));
    for (const EdgePoint& q : all.points)
        if (agreed.owners.count(all.edges[static_cast<std::size_t>(q.edge)].owner) > 0)
            agreed.points.push_back(q);
    if (agreed.points.size() < all.points.size() && agreed.points.size() >= 16)
        agreed.p = refine({all.edges, agreed.points, all.start, all.normalFromCard}, agreed.p);
    return agreed;
}

} // namespace

PlaneMapping mappingThrough(const std::vector<CardEdge>& edges,
                            const std::vector<EdgePoint>& points, const PlaneMapping& start,
                            const CardRect& window) {
    const Problem all{edges, points, start, Conditioner(window).normalFromCard};
    return all.mappingOf(agreementOf(all).p);
}

MappingFit fitMapping(const std::vector<CardEdge>& edges, const std::vector<EdgePoint>& points,
                      const PlaneMapping& start, const CardRect& window) {
    const Problem all{edges, points, start, Conditioner(window).normalFromCard};
    const Agreement agreement = agreementOf(all);
    const Problem agreed{edges, agreement.points, start, all.normalFromCard};
    const Vector& p = agreement.p;
    const auto d = agreed.distances(p);
    const auto w = huberWeights(d);
    double sum = 0.0;
    double count = 0.0;
    for (std::size_t i = 0; i < d.size(); ++i)
        if (w[i] > 0.0) {
            sum += d[i] * d[i];
            count += 1.0;
        }
    MappingFit fit;
    fit.mapping = agreed.mappingOf(p);
    fit.inkGrowth = p[10];
    fit.residual = Pixels(std::sqrt(sum / std::max(count, 1.0)));
    fit.scaleUPercent = scaleUncertainty(agreed, p, window);
    fit.owners = agreement.owners;
    fit.bend = bendOf(all, p, window);
    fit.offsets = all.distances(p);
    return fit;
}

} // namespace swarfbook
