// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/magnet_sweep.h"

#include "base/share_interval.h"
#include "particles/match_pieces.h"
#include "particles/size_classes.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace swarfbook {
namespace {

using Pieces = std::vector<Particle>;

constexpr std::size_t neighbours = 20, ofThemFound = 18; // nine of ten
constexpr std::size_t enoughForPlace = 5;
constexpr double reach = 5.0; // mm that a magnet may push a piece that it does not take; ours

double sizeOf(const Particle& piece) {
    return piece.maxFeret.value.value();
}

bool holds(const std::vector<PointOnCard>& outline, PointOnCard at) {
    bool inside = false;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const PointOnCard p = outline[i], q = outline[(i + 1) % outline.size()];
        if ((p.y > at.y) != (q.y > at.y) && at.x < p.x + (at.y - p.y) / (q.y - p.y) * (q.x - p.x))
            inside = !inside;
    }
    return inside;
}

/// Whether a photo would show a piece of this size there.
bool inView(const SweptPhoto& photo, PointOnCard at, double size) {
    const CardWindow& w = photo.window;
    const double half = 0.5 * size;
    return at.x - half > w.topLeft.x && at.x + half < w.bottomRight.x &&
           at.y - half > w.topLeft.y && at.y + half < w.bottomRight.y &&
           std::none_of(photo.debris.leftOut.begin(), photo.debris.leftOut.end(),
                        [&](const LeftOut& part) { return holds(part.outline, at); });
}

bool sure(const Particle& piece) {
    return !piece.mayBeNone() && !piece.atEdge && piece.type != ParticleType::fibre;
}

std::size_t surePieces(const SweptPhoto& photo, Millimetres from) {
    return static_cast<std::size_t>(
        std::count_if(photo.debris.particles.begin(), photo.debris.particles.end(),
                      [&](const Particle& p) { return sure(p) && p.maxFeret.value >= from; }));
}

/// The two photos with the pieces that were found in both.
struct Pair {
    const SweptPhoto& before;
    const SweptPhoto& after;
    PieceMatches matches;
    std::vector<const PiecePair*> ofBefore, ofAfter; ///< by index of the piece; null where none

    Pair(const SweptPhoto& first, const SweptPhoto& second)
        : before(first), after(second),
          matches(matchPieces(first.debris.particles, second.debris.particles)),
          ofBefore(first.debris.particles.size(), nullptr),
          ofAfter(second.debris.particles.size(), nullptr) {
        for (const PiecePair& pair : matches.pairs)
            ofBefore[pair.a] = ofAfter[pair.b] = &pair;
    }

    [[nodiscard]] Millimetres sizeLimits() const {
        return std::max(before.debris.detectionLimit, after.debris.detectionLimit);
    }
};

/// Sizes of the second photo's pieces, largest first, and whether the first shows them too.
std::vector<std::pair<double, bool>> seenBefore(const Pair& pair) {
    std::vector<std::pair<double, bool>> out;
    const CardMotion back = pair.matches.motion.inverse();
    const Pieces& after = pair.after.debris.particles;
    for (std::size_t j = 0; j < after.size(); ++j)
        if (sure(after[j]) && inView(pair.before, back.onSecond(after[j].centre), sizeOf(after[j])))
            out.emplace_back(sizeOf(after[j]), pair.ofAfter[j] != nullptr);
    std::sort(out.begin(), out.end(), std::greater<>());
    return out;
}

/// 0 if the pair is too poor to judge.
double smallestSeenInBoth(const Pair& pair) {
    const auto seen = seenBefore(pair);
    double limit = 0.0;
    std::size_t found = 0;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        found += seen[i].second ? 1 : 0;
        if (i >= neighbours && seen[i - neighbours].second)
            --found;
        if (i + 1 < neighbours)
            continue;
        if (found < ofThemFound)
            break;
        limit = seen[i].first;
    }
    return limit;
}

void setLimit(MagnetSweep& sweep, const Pair& pair) {
    const DebrisFinding &a = pair.before.debris, &b = pair.after.debris;
    const double limit = smallestSeenInBoth(pair);
    sweep.limitByPair = limit > 0.0;
    const double poorer =
        a.detectionLimit.value() > 0.0 ? std::max(1.0, b.detectionLimit / a.detectionLimit) : 1.0;
    sweep.judgedFrom =
        sweep.limitByPair
            ? std::max({Millimetres(limit * poorer), a.resolutionLimit, b.resolutionLimit})
            : pair.sizeLimits();
}

/// A piece that is not paired although something is left where it lay.
bool covered(const Pair& pair, const Particle& piece) {
    const PointOnCard at = pair.matches.motion.onSecond(piece.centre);
    const CardMotion back = pair.matches.motion.inverse();
    return std::any_of(pair.after.debris.particles.begin(), pair.after.debris.particles.end(),
                       [&](const Particle& other) {
                           return holds(other.outline, at) ||
                                  holds(piece.outline, back.onSecond(other.centre));
                       });
}

bool mayHaveBecome(const Particle& piece, const Particle& other, PointOnCard at) {
    const double longer = sizeOf(other) / sizeOf(piece),
                 larger = other.area.value / piece.area.value;
    return std::hypot(other.centre.x - at.x, other.centre.y - at.y) < reach && longer > 0.8 &&
           longer < 1.25 && larger > 0.67 && larger < 1.5;
}

bool mayBeNearby(const Pair& pair, const Particle& piece) {
    const PointOnCard at = pair.matches.motion.onSecond(piece.centre);
    return std::any_of(pair.matches.onlyB.begin(), pair.matches.onlyB.end(), [&](std::size_t j) {
        return mayHaveBecome(piece, pair.after.debris.particles[j], at);
    });
}

/// Half of the area of a paired piece is gone: a part of a clump is left.
bool halved(const Pair& pair, const PiecePair& found) {
    const Particle& a = pair.before.debris.particles[found.a];
    const CardMotion back = pair.matches.motion.inverse();
    SquareMillimetres left = pair.after.debris.particles[found.b].area.value;
    for (const std::size_t j : pair.matches.onlyB)
        if (const Particle& b = pair.after.debris.particles[j];
            holds(a.outline, back.onSecond(b.centre)))
            left += b.area.value;
    return left < a.area.value * 0.5;
}

/// Of a piece from the limit up.
Ferrous judged(const Pair& pair, std::size_t i) {
    const Particle& piece = pair.before.debris.particles[i];
    if (piece.mayBeNone() || piece.atEdge)
        return Ferrous::notKnown;
    if (const PiecePair* found = pair.ofBefore[i])
        return halved(pair, *found) ? Ferrous::notKnown : Ferrous::no;
    const PointOnCard at = pair.matches.motion.onSecond(piece.centre);
    if (piece.type == ParticleType::fibre || !inView(pair.after, at, sizeOf(piece)) ||
        covered(pair, piece) || mayBeNearby(pair, piece))
        return Ferrous::notKnown;
    return Ferrous::yes;
}

struct Sums {
    double all = 0.0, squares = 0.0, gone = 0.0, left = 0.0;
};

/// `effective` pieces in all; a piece that is neither gone nor left may be either.
std::optional<MagneticShare> shareOf(const Sums& sums, double effective) {
    if (!(sums.gone + sums.left > 0.0))
        return std::nullopt;
    const double least = sums.gone / sums.all, most = 1.0 - sums.left / sums.all;
    return MagneticShare{sums.gone / (sums.gone + sums.left),
                         shareInterval95(std::clamp(least, 0.0, 1.0) * effective, effective)[0],
                         shareInterval95(std::clamp(most, 0.0, 1.0) * effective, effective)[1]};
}

template <class Which> SweepTally tallyOf(const Pieces& pieces, const Which& which) {
    SweepTally tally;
    Sums count, area;
    const auto add = [](Sums& sums, double weight, Ferrous ferrous) {
        sums.all += weight;
        sums.squares += weight * weight;
        (ferrous == Ferrous::yes ? sums.gone : sums.left) +=
            ferrous == Ferrous::notKnown ? 0.0 : weight;
    };
    for (const Particle& p : pieces) {
        if (!which(p))
            continue;
        (p.ferrous == Ferrous::yes  ? tally.gone
         : p.ferrous == Ferrous::no ? tally.left
                                    : tally.notKnown) += 1;
        add(count, 1.0, p.ferrous);
        add(area, p.area.value.value(), p.ferrous);
    }
    tally.byCount = shareOf(count, count.all);
    tally.byArea = shareOf(area, area.squares > 0.0 ? area.all * area.all / area.squares : 0.0);
    return tally;
}

void countUp(MagnetSweep& sweep, const Pieces& pieces) {
    const auto large = [&](const Particle& p) { return p.maxFeret.value >= sweep.judgedFrom; };
    sweep.pieces = tallyOf(pieces, large);
    sweep.bright = tallyOf(
        pieces, [&](const Particle& p) { return large(p) && p.type == ParticleType::brightMetal; });
    for (const SizeClass& known : sizeClasses()) {
        SweepTally tally = tallyOf(pieces, [&](const Particle& p) {
            const Micrometres size = toMicrometres(p.maxFeret.value);
            return large(p) && size >= known.from && size < known.to;
        });
        if (tally.before() > 0)
            sweep.classes.push_back({std::string(known.letter), known.from, known.to, tally});
    }
    sweep.smaller = static_cast<int>(pieces.size()) - sweep.pieces.before();
}

} // namespace

std::optional<MagnetSweep> sweepPieces(const SweptPhoto& before, const SweptPhoto& after) {
    const Pair pair(before, after);
    if (!pair.matches.placeByPieces && surePieces(before, pair.sizeLimits()) >= enoughForPlace &&
        surePieces(after, pair.sizeLimits()) >= enoughForPlace)
        return std::nullopt;
    MagnetSweep sweep;
    sweep.placeByPieces = pair.matches.placeByPieces;
    sweep.motion = pair.matches.motion;
    setLimit(sweep, pair);
    Pieces& first = before.debris.particles;
    for (std::size_t i = 0; i < first.size(); ++i) {
        first[i].ferrous =
            first[i].maxFeret.value >= sweep.judgedFrom ? judged(pair, i) : Ferrous::notKnown;
        sweep.moved += first[i].ferrous == Ferrous::no && pair.ofBefore[i]->moved ? 1 : 0;
    }
    Pieces& second = after.debris.particles;
    for (std::size_t j = 0; j < second.size(); ++j) {
        second[j].ferrous =
            pair.ofAfter[j] != nullptr ? first[pair.ofAfter[j]->a].ferrous : Ferrous::notKnown;
        sweep.gained += pair.ofAfter[j] == nullptr && sure(second[j]) &&
                                second[j].maxFeret.value >= sweep.judgedFrom
                            ? 1
                            : 0;
    }
    countUp(sweep, first);
    return sweep;
}

} // namespace swarfbook
