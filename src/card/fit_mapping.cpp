// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/fit_mapping.h"

#include "card/fit_problem.h"
#include "card/normal_sums.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace swarfbook {
namespace {

using Vector = FitProblem::Vector;
using Square = FitProblem::Square;
constexpr int parameters = FitProblem::parameters;

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

double cost(const FitProblem& problem, const Vector& p, const std::vector<double>& w,
            double sigma2) {
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

/// Remaining distances between points and edges, px, with their weights.
struct Residuals {
    const std::vector<double>& d;
    const std::vector<double>& w;
};

Normal normalEquations(const std::vector<Vector>& rows, const Residuals& residuals, const Vector& p,
                       double sigma2) {
    const auto& [d, w] = residuals;
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

Vector refine(const FitProblem& problem, Vector p) {
    double damping = 1e-4;
    for (int round = 0; round < 25; ++round) {
        const auto d = problem.distances(p);
        const auto w = huberWeights(d);
        const double sigma2 = std::pow(std::max(1.4826 * medianAbs(d), 0.02), 2);
        const Normal n = normalEquations(problem.jacobian(p, d), {d, w}, p, sigma2);
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

/// Covariance of the fitted parameters, robust against errors that the points of one edge share.
Square covarianceByEdge(const FitProblem& problem, const Vector& p) {
    const auto d = problem.distances(p);
    const auto w = huberWeights(d);
    const auto rows = problem.jacobian(p, d);
    const double sigma2 = std::pow(std::max(1.4826 * medianAbs(d), 0.02), 2);
    const Normal n = normalEquations(rows, {d, w}, p, sigma2);
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
    return small * (bread * meat * bread);
}

/// Logarithms of the lengths in the photo of 32 steps over the window, across and down.
std::vector<double> logLengths(const PlaneMapping& m, const CardRect& window) {
    const auto at = [&](int x, int y) {
        return m.photoFromCard(
            {window.x + window.width * x / 4.0, window.y + window.height * y / 4.0});
    };
    std::vector<double> out;
    for (int j = 0; j < 4; ++j)
        for (int i = 0; i < 4; ++i) {
            const PointInPhoto a = at(i, j);
            const PointInPhoto b = at(i + 1, j);
            const PointInPhoto c = at(i, j + 1);
            out.push_back(std::log(std::hypot(b.u - a.u, b.v - a.v)));
            out.push_back(std::log(std::hypot(c.u - a.u, c.v - a.v)));
        }
    return out;
}

/// Standard uncertainty of lengths over the window, percent.
double scaleUncertainty(const FitProblem& problem, const Vector& p, const CardRect& window) {
    const Square covariance = covarianceByEdge(problem, p);
    const auto lengths = [&](const Vector& q) { return logLengths(problem.mappingOf(q), window); };
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
std::set<int> agreeingOwners(const FitProblem& problem, const std::vector<double>& d) {
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

BendFit bendOf(const FitProblem& problem, const Vector& p, const CardRect& window) {
    const auto d = problem.distances(p);
    const auto rows = problem.jacobian(p, d);
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

/// The fit to the points of the markers that agree with each other.
struct InlierSet {
    std::set<int> owners;
    std::vector<EdgePoint> points;
    Vector p;
};

InlierSet inliersOf(const FitProblem& all) {
    InlierSet agreed;
    agreed.p = refine(all, all.parametersOf(all.start));
    agreed.owners = agreeingOwners(all, all.distances(agreed.p));
    for (const EdgePoint& q : all.points)
        if (agreed.owners.contains(all.edges[static_cast<std::size_t>(q.edge)].owner))
            agreed.points.push_back(q);
    if (agreed.points.size() < all.points.size() && agreed.points.size() >= 16)
        agreed.p = refine({all.edges, agreed.points, all.start, all.normalFromCard}, agreed.p);
    return agreed;
}

} // namespace

PlaneMapping mappingThrough(const std::vector<CardEdge>& edges,
                            const std::vector<EdgePoint>& points, const PlaneMapping& start,
                            const CardRect& window) {
    const FitProblem all{edges, points, start, Conditioner(window).normalFromCard};
    return all.mappingOf(inliersOf(all).p);
}

MappingFit fitMapping(const std::vector<CardEdge>& edges, const std::vector<EdgePoint>& points,
                      const PlaneMapping& start, const CardRect& window) {
    const FitProblem all{edges, points, start, Conditioner(window).normalFromCard};
    const InlierSet inliers = inliersOf(all);
    const FitProblem agreed{edges, inliers.points, start, all.normalFromCard};
    const Vector& p = inliers.p;
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
    fit.owners = inliers.owners;
    fit.bend = bendOf(all, p, window);
    fit.offsets = all.distances(p);
    return fit;
}

} // namespace swarfbook
