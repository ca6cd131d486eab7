// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/match_pieces.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <tuple>

namespace swarfbook {
namespace {

constexpr std::size_t directions = 48;
/// The longest radius of an outline in each direction, mm; empty without an outline.
using Radii = std::vector<double>;

constexpr double infinite = std::numeric_limits<double>::infinity();

std::size_t directionOf(double x, double y) {
    const double turns = std::atan2(y, x) / (2.0 * std::numbers::pi) + 1.0;
    return static_cast<std::size_t>(turns * directions) % directions;
}

/// A direction without a point is interpolated between its neighbours.
void fillGaps(Radii& radii) {
    for (std::size_t i = 0; i < directions; ++i) {
        if (radii[i] > 0.0)
            continue;
        std::size_t before = 1, after = 1;
        while (before < directions && !(radii[(i + directions - before) % directions] > 0.0))
            ++before;
        while (after < directions && !(radii[(i + after) % directions] > 0.0))
            ++after;
        const auto b = static_cast<double>(before), a = static_cast<double>(after);
        radii[i] = (radii[(i + directions - before) % directions] * a +
                    radii[(i + after) % directions] * b) /
                   (a + b);
    }
}

Radii radiiOf(const Particle& piece) {
    if (piece.outline.size() < 3)
        return {};
    Radii radii(directions, 0.0);
    constexpr int steps = 8; // along each edge of the outline
    for (std::size_t i = 0; i < piece.outline.size(); ++i) {
        const PointOnCard p = piece.outline[i], q = piece.outline[(i + 1) % piece.outline.size()];
        for (int k = 0; k < steps; ++k) {
            const double t = static_cast<double>(k) / steps;
            const double x = p.x + t * (q.x - p.x) - piece.centre.x;
            const double y = p.y + t * (q.y - p.y) - piece.centre.y;
            double& radius = radii[directionOf(x, y)];
            radius = std::max(radius, std::hypot(x, y));
        }
    }
    fillGaps(radii);
    return radii;
}

double squares(const Radii& one, const Radii& other, std::size_t turn, bool over) {
    double sum = 0.0;
    for (std::size_t i = 0; i < directions; ++i) {
        const std::size_t j = over ? (turn + directions - i) % directions : (turn + i) % directions;
        sum += (one[i] - other[j]) * (one[i] - other[j]);
    }
    return sum;
}

double difference(const Radii& one, const Radii& other) {
    if (one.empty() || other.empty())
        return infinite;
    double mean = 0.0, least = infinite;
    for (std::size_t i = 0; i < directions; ++i)
        mean += 0.5 * (one[i] + other[i]) / directions;
    for (std::size_t turn = 0; turn < directions; ++turn)
        least =
            std::min({least, squares(one, other, turn, false), squares(one, other, turn, true)});
    return std::sqrt(least / directions) / mean;
}

/// A possible pair, with its cost.
struct Possible {
    double cost = 0.0;
    std::size_t a = 0, b = 0;
};

/// The best first; each piece once.
std::vector<PiecePair> bestPairs(std::vector<Possible> possible, std::span<const Particle> a) {
    std::sort(possible.begin(), possible.end(), [&](const Possible& p, const Possible& q) {
        const PointOnCard atP = a[p.a].centre, atQ = a[q.a].centre;
        return std::tuple(p.cost, atP.x, atP.y) < std::tuple(q.cost, atQ.x, atQ.y);
    });
    std::vector<PiecePair> pairs;
    for (const Possible& p : possible)
        if (std::none_of(pairs.begin(), pairs.end(),
                         [&](const PiecePair& q) { return q.a == p.a || q.b == p.b; }))
            pairs.push_back({p.a, p.b, false});
    return pairs;
}

/// Cost of taking two finds for one piece that lies still; infinite if they cannot be one. Half of
/// the allowed distance costs as much as being longer by half. Weights: ours.
double costAtPlace(const Particle& a, const Particle& b, const CardMotion& motion) {
    const PointOnCard at = motion.onSecond(a.centre);
    const double apart = std::hypot(at.x - b.centre.x, at.y - b.centre.y) / placeTolerance(a, b);
    if (apart > 1.0 || !sizesAlike(a, b))
        return infinite;
    const bool unsure =
        a.type == ParticleType::unidentified || b.type == ParticleType::unidentified;
    return apart + std::abs(std::log(a.maxFeret.value / b.maxFeret.value)) +
           0.5 * std::abs(std::log(a.area.value / b.area.value)) +
           (a.type == b.type ? 0.0
            : unsure         ? 0.1
                             : 0.3);
}

std::vector<PiecePair> pairsAtPlace(std::span<const Particle> a, std::span<const Particle> b,
                                    const CardMotion& motion) {
    std::vector<Possible> possible;
    for (std::size_t i = 0; i < a.size(); ++i)
        for (std::size_t j = 0; j < b.size(); ++j)
            if (const double cost = costAtPlace(a[i], b[j], motion); cost < infinite)
                possible.push_back({cost, i, j});
    return bestPairs(std::move(possible), a);
}

/// The others, ascending.
void setOthers(PieceMatches& matches, std::size_t ofA, std::size_t ofB) {
    std::vector<bool> inA(ofA, false), inB(ofB, false);
    for (const PiecePair& pair : matches.pairs)
        inA[pair.a] = inB[pair.b] = true;
    const auto others = [](const std::vector<bool>& in) {
        std::vector<std::size_t> out;
        for (std::size_t i = 0; i < in.size(); ++i)
            if (!in[i])
                out.push_back(i);
        return out;
    };
    matches.onlyA = others(inA);
    matches.onlyB = others(inB);
}

/// Sizes that one piece keeps when it is turned over or lies elsewhere.
bool mayBeMoved(const Particle& a, const Particle& b) {
    return std::abs(std::log(a.maxFeret.value / b.maxFeret.value)) < 0.25 &&
           std::abs(std::log(a.area.value / b.area.value)) < 0.4;
}

std::vector<Radii> radiiOfAll(std::span<const Particle> pieces) {
    std::vector<Radii> out;
    out.reserve(pieces.size());
    for (const Particle& piece : pieces)
        out.push_back(radiiOf(piece));
    return out;
}

/// How much `piece` differs from the most similar one of `pieces`, leaving out `but`.
double nextLikest(const Particle& piece, std::span<const Particle> pieces, std::size_t but,
                  const std::vector<Radii>& radii) {
    const Radii own = radiiOf(piece);
    double least = infinite;
    for (std::size_t i = 0; i < pieces.size(); ++i)
        if (i != but && mayBeMoved(piece, pieces[i]))
            least = std::min(least, difference(own, radii[i]));
    return least;
}

/// Two outlines of one piece differ by 0.04 to 0.15. Outlines of two small round pieces differ by
/// no more, so the number of other similar pieces decides. Our own experiment with photos of one
/// sample from three sides.
void addMoved(PieceMatches& matches, std::span<const Particle> a, std::span<const Particle> b) {
    constexpr double mostDifferent = 0.15, nextBest = 0.7;
    const std::vector<Radii> radiiA = radiiOfAll(a), radiiB = radiiOfAll(b);
    std::vector<Possible> possible;
    for (const std::size_t i : matches.onlyA)
        for (const std::size_t j : matches.onlyB) {
            if (!mayBeMoved(a[i], b[j]) || a[i].mayBeNone() || b[j].mayBeNone())
                continue;
            const double differs = difference(radiiA[i], radiiB[j]);
            if (differs < mostDifferent && differs < nextBest * nextLikest(a[i], b, j, radiiB) &&
                differs < nextBest * nextLikest(b[j], a, i, radiiA))
                possible.push_back({differs, i, j});
        }
    for (PiecePair pair : bestPairs(std::move(possible), a)) {
        pair.moved = true;
        matches.pairs.push_back(pair);
    }
}

} // namespace

double outlineDifference(const Particle& one, const Particle& other) {
    return difference(radiiOf(one), radiiOf(other));
}

PieceMatches matchPieces(std::span<const Particle> a, std::span<const Particle> b) {
    const FoundMotion found = findCardMotion(a, b);
    PieceMatches matches;
    matches.motion = found.motion;
    matches.placeByPieces = found.byPieces;
    matches.pairs = pairsAtPlace(a, b, found.motion);
    setOthers(matches, a.size(), b.size());
    if (found.byPieces)
        addMoved(matches, a, b);
    setOthers(matches, a.size(), b.size());
    std::sort(matches.pairs.begin(), matches.pairs.end(),
              [](const PiecePair& p, const PiecePair& q) { return p.a < q.a; });
    return matches;
}

} // namespace swarfbook
