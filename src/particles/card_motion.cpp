// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/card_motion.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <tuple>

namespace swarfbook {
namespace {

using Anchors = std::vector<const Particle*>;
using Places = std::vector<std::pair<PointOnCard, PointOnCard>>;

constexpr std::size_t largestTried = 30;
constexpr double leastBase = 15.0;     // mm: shorter ones turn too loosely
constexpr double baseTolerance = 0.3;  // mm
constexpr double looseTolerance = 0.8; // mm, for a motion from two pieces alone
constexpr int fewestAsItLies = 3, fewestMoved = 5;

double distance(PointOnCard p, PointOnCard q) {
    return std::hypot(p.x - q.x, p.y - q.y);
}

/// The pieces that are surely debris, largest first, whatever the order given.
Anchors anchorsOf(std::span<const Particle> pieces) {
    Anchors out;
    for (const Particle& piece : pieces)
        if (!piece.mayBeNone())
            out.push_back(&piece);
    std::sort(out.begin(), out.end(), [](const Particle* p, const Particle* q) {
        return std::tuple(-p->maxFeret.value.value(), p->centre.x, p->centre.y) <
               std::tuple(-q->maxFeret.value.value(), q->centre.x, q->centre.y);
    });
    return out;
}

/// Pairs each anchor of `a` with the nearest similar anchor of `b`; each of `b` is used once.
Places agreeing(const Anchors& a, const Anchors& b, const CardMotion& motion, double more = 0.0) {
    Places out;
    std::vector<bool> taken(b.size(), false);
    for (const Particle* piece : a) {
        const PointOnCard at = motion.onSecond(piece->centre);
        std::size_t nearest = b.size();
        for (std::size_t j = 0; j < b.size(); ++j)
            if (!taken[j] && sizesAlike(*piece, *b[j]) &&
                distance(at, b[j]->centre) <= placeTolerance(*piece, *b[j]) + more &&
                (nearest == b.size() ||
                 distance(at, b[j]->centre) < distance(at, b[nearest]->centre)))
                nearest = j;
        if (nearest == b.size())
            continue;
        taken[nearest] = true;
        out.emplace_back(piece->centre, b[nearest]->centre);
    }
    return out;
}

FoundMotion refined(const Anchors& a, const Anchors& b, CardMotion motion) {
    for (int i = 0; i < 5; ++i)
        motion = fitCardMotion(agreeing(a, b, motion, i == 0 ? looseTolerance : 0.0));
    return {motion, static_cast<int>(agreeing(a, b, motion).size()), false};
}

bool halfAgree(const FoundMotion& found, std::size_t anchors, int fewest) {
    return found.agreeing >= fewest && 2 * static_cast<std::size_t>(found.agreeing) >= anchors;
}

/// Two anchors of one photo, far enough apart to show a turn, the larger first.
std::vector<std::pair<const Particle*, const Particle*>> basesOf(const Anchors& anchors) {
    std::vector<std::pair<const Particle*, const Particle*>> out;
    for (std::size_t i = 0; i < anchors.size(); ++i)
        for (std::size_t j = i + 1; j < anchors.size(); ++j)
            if (distance(anchors[i]->centre, anchors[j]->centre) >= leastBase)
                out.emplace_back(anchors[i], anchors[j]);
    return out;
}

Anchors largestOf(const Anchors& anchors) {
    return {anchors.begin(),
            anchors.begin() + static_cast<std::ptrdiff_t>(std::min(anchors.size(), largestTried))};
}

FoundMotion bestOfAll(const Anchors& a, const Anchors& b) {
    const Anchors largeA = largestOf(a), largeB = largestOf(b);
    auto basesB = basesOf(largeB);
    for (std::size_t i = basesB.size(); i-- > 0;)
        basesB.emplace_back(basesB[i].second, basesB[i].first);
    FoundMotion best;
    for (const auto& [p, q] : basesOf(largeA))
        for (const auto& [r, s] : basesB) {
            if (!sizesAlike(*p, *r) || !sizesAlike(*q, *s) ||
                std::abs(distance(p->centre, q->centre) - distance(r->centre, s->centre)) >
                    baseTolerance)
                continue;
            const Places base{{p->centre, r->centre}, {q->centre, s->centre}};
            const CardMotion motion = fitCardMotion(base);
            const auto agree =
                static_cast<int>(agreeing(largeA, largeB, motion, looseTolerance).size());
            if (agree > best.agreeing)
                best = {motion, agree, false};
        }
    return best;
}

} // namespace

PointOnCard CardMotion::onSecond(PointOnCard p) const {
    const double angle = turn.value() * std::numbers::pi / 180.0;
    const double c = std::cos(angle), s = std::sin(angle);
    return {c * p.x - s * p.y + shift.x, s * p.x + c * p.y + shift.y};
}

CardMotion CardMotion::inverse() const {
    const PointOnCard back = CardMotion{-turn, {}}.onSecond(shift);
    return {-turn, {-back.x, -back.y}};
}

CardMotion fitCardMotion(std::span<const std::pair<PointOnCard, PointOnCard>> places) {
    if (places.empty())
        return {};
    PointOnCard from, to;
    const auto n = static_cast<double>(places.size());
    for (const auto& [p, q] : places) {
        from = {from.x + p.x / n, from.y + p.y / n};
        to = {to.x + q.x / n, to.y + q.y / n};
    }
    double along = 0.0, across = 0.0;
    for (const auto& [p, q] : places) {
        along += (p.x - from.x) * (q.x - to.x) + (p.y - from.y) * (q.y - to.y);
        across += (p.x - from.x) * (q.y - to.y) - (p.y - from.y) * (q.x - to.x);
    }
    CardMotion motion{Degrees(std::atan2(across, along) * 180.0 / std::numbers::pi), {}};
    const PointOnCard turned = motion.onSecond(from);
    motion.shift = {to.x - turned.x, to.y - turned.y};
    return motion;
}

double placeTolerance(const Particle& one, const Particle& other) {
    return 0.25 + 0.25 * std::max(one.maxFeret.value.value(), other.maxFeret.value.value());
}

bool sizesAlike(const Particle& one, const Particle& other) {
    const auto within = [](double x, double y, double factor) {
        return x > 0.0 && x <= factor * y && y <= factor * x;
    };
    return within(one.maxFeret.value.value(), other.maxFeret.value.value(), 2.0) &&
           within(one.area.value.value(), other.area.value.value(), 3.0);
}

FoundMotion findCardMotion(std::span<const Particle> a, std::span<const Particle> b) {
    const Anchors ofA = anchorsOf(a), ofB = anchorsOf(b);
    const std::size_t anchors = std::min(ofA.size(), ofB.size());
    FoundMotion asItLies{{}, static_cast<int>(agreeing(ofA, ofB, {}).size()), false};
    if (halfAgree(asItLies, anchors, fewestAsItLies)) {
        FoundMotion found = refined(ofA, ofB, {});
        found.byPieces = true;
        return found;
    }
    FoundMotion found = refined(ofA, ofB, bestOfAll(ofA, ofB).motion);
    found.byPieces = halfAgree(found, anchors, fewestMoved);
    return found.byPieces ? found : asItLies;
}

} // namespace swarfbook
