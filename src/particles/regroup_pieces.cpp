// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/regroup_pieces.h"

#include "particles/size_classes.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace swarfbook {
namespace {

using Outline = std::vector<PointOnCard>;

double apart(PointOnCard a, PointOnCard b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

/// Twice the area of the triangle of a, b and c, signed by its sense of rotation.
double turn(PointOnCard a, PointOnCard b, PointOnCard c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

double signedArea(const Outline& outline) {
    double twice = 0.0;
    for (std::size_t i = 2; i < outline.size(); ++i)
        twice += turn(outline[0], outline[i - 1], outline[i]);
    return 0.5 * twice;
}

/// Centroid of the enclosed area; the mean of the points if they enclose no area.
PointOnCard centroidOf(const Outline& outline) {
    double twice = 0.0;
    PointOnCard sum, mean;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        mean = {mean.x + outline[i].x, mean.y + outline[i].y};
        if (i < 2)
            continue;
        const double part = turn(outline[0], outline[i - 1], outline[i]);
        twice += part;
        sum.x += part * (outline[0].x + outline[i - 1].x + outline[i].x) / 3.0;
        sum.y += part * (outline[0].y + outline[i - 1].y + outline[i].y) / 3.0;
    }
    const auto points = static_cast<double>(outline.size());
    return twice != 0.0 ? PointOnCard{sum.x / twice, sum.y / twice}
                        : PointOnCard{mean.x / points, mean.y / points};
}

/// Convex hull by Andrew's monotone chain (1979), without the points on its sides.
Outline hullOf(Outline points) {
    std::sort(points.begin(), points.end(),
              [](PointOnCard a, PointOnCard b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
    Outline hull;
    const auto add = [&](PointOnCard point, std::size_t from) {
        while (hull.size() >= from + 2 &&
               turn(hull[hull.size() - 2], hull[hull.size() - 1], point) <= 0.0)
            hull.pop_back();
        hull.push_back(point);
    };
    for (const PointOnCard point : points)
        add(point, 0);
    const std::size_t upper = hull.size() - 1;
    std::for_each(points.rbegin(), points.rend(), [&](PointOnCard point) { add(point, upper); });
    return hull; // its first point stands at its end too
}

struct Feret {
    double longest = 0.0, shortest = 0.0;
};

Feret feretOf(const Outline& outline) {
    const Outline hull = hullOf(outline);
    Feret feret{0.0, std::numeric_limits<double>::infinity()};
    for (std::size_t side = 0; side + 1 < hull.size(); ++side) {
        const double length = apart(hull[side], hull[side + 1]);
        double height = 0.0;
        for (const PointOnCard point : hull) {
            feret.longest = std::max(feret.longest, apart(hull[side], point));
            if (length > 0.0)
                height =
                    std::max(height, std::abs(turn(hull[side], hull[side + 1], point)) / length);
        }
        if (length > 0.0)
            feret.shortest = std::min(feret.shortest, height);
    }
    if (!std::isfinite(feret.shortest))
        feret.shortest = 0.0;
    return feret;
}

/// The outline, always turning the same way; the centre alone if the piece has no outline.
Outline outlineOf(const Particle& piece) {
    Outline outline = piece.outline.empty() ? Outline{piece.centre} : piece.outline;
    if (signedArea(outline) < 0.0)
        std::reverse(outline.begin(), outline.end());
    return outline;
}

/// Places in two outlines.
struct Nearest {
    std::size_t one = 0, other = 0;
    double gap = std::numeric_limits<double>::infinity();
};

Nearest nearest(const Outline& one, const Outline& other) {
    Nearest best;
    for (std::size_t i = 0; i < one.size(); ++i)
        for (std::size_t j = 0; j < other.size(); ++j)
            if (const double gap = apart(one[i], other[j]); gap < best.gap)
                best = {i, j, gap};
    return best;
}

/// One outline that goes round both, along the line between their nearest points there and back.
Outline bridged(const Outline& one, const Outline& other) {
    const Nearest at = nearest(one, other);
    Outline both(one.begin(), one.begin() + static_cast<std::ptrdiff_t>(at.one) + 1);
    for (std::size_t i = 0; i <= other.size(); ++i)
        both.push_back(other[(at.other + i) % other.size()]);
    both.insert(both.end(), one.begin() + static_cast<std::ptrdiff_t>(at.one), one.end());
    return both;
}

void setSizes(Particle& piece, const Feret& feret, Millimetres u) {
    piece.maxFeret = {Millimetres(feret.longest), u};
    piece.minFeret = {Millimetres(feret.shortest), u};
    piece.length = std::max(piece.length, piece.maxFeret.value);
    piece.sizeClass = sizeClassOf(Micrometres(1000.0 * feret.longest));
    piece.mayBeSeveral = false;
}

/// What is known of one part holds for the piece, as it is of one material.
Ferrous ofBoth(Ferrous one, Ferrous other) {
    if (one == Ferrous::notKnown || one == other)
        return other;
    return other == Ferrous::notKnown ? one : Ferrous::notKnown;
}

/// What the other parts of a piece add to what is said of its largest one.
void takeIn(Particle& piece, const Particle& part) {
    piece.id = std::min(piece.id, part.id);
    piece.outline = bridged(outlineOf(piece), outlineOf(part));
    piece.area.value = SquareMillimetres(piece.area.value.value() + part.area.value.value());
    piece.area.standardUncertainty =
        SquareMillimetres(piece.area.standardUncertainty.value() +
                          part.area.standardUncertainty.value()); // one scale: they go together
    if (part.glint > piece.glint) {
        piece.glint = part.glint;
        piece.glintAtLeast = part.glintAtLeast;
    }
    piece.debrisProbability = std::max(piece.debrisProbability, part.debrisProbability);
    piece.ferrous = ofBoth(piece.ferrous, part.ferrous);
    piece.said.sweep = ofBoth(piece.said.sweep, part.said.sweep);
    piece.atEdge = piece.atEdge || part.atEdge;
    piece.length = std::max(piece.length, part.length);
}

/// A line across an outline, between two of its points.
struct Cut {
    std::size_t from = 0, to = 0;
    double length = 0.0;
    double score = std::numeric_limits<double>::infinity();
};

Cut narrowestCut(const Outline& outline) {
    std::vector<double> before(outline.size(), 0.0); // area up to each point, from the first one
    for (std::size_t i = 1; i < outline.size(); ++i)
        before[i] = before[i - 1] + 0.5 * turn(outline[0], outline[i - 1], outline[i]);
    const double whole = before.back();
    Cut best;
    for (std::size_t i = 0; i < outline.size(); ++i)
        for (std::size_t j = i + 2; j < outline.size(); ++j) {
            const double inside =
                before[j] - before[i] - 0.5 * turn(outline[0], outline[i], outline[j]);
            const double off = std::min(inside, whole - inside);
            if (!(off > 0.0)) // the line runs outside
                continue;
            const double length = apart(outline[i], outline[j]);
            const double score =
                std::pow(length, 6) / std::pow(off, 5); // in the order of d / A^(5/6)
            if (score < best.score)
                best = {i, j, length, score};
        }
    return best;
}

/// The same outline with so many points that a cut between two of them can be anywhere along it.
Outline withEnoughPoints(Outline outline) {
    constexpr std::size_t enough = 16;
    while (outline.size() > 2 && outline.size() < enough) {
        Outline more;
        for (std::size_t i = 0; i < outline.size(); ++i) {
            const PointOnCard next = outline[(i + 1) % outline.size()];
            more.push_back(outline[i]);
            more.push_back({0.5 * (outline[i].x + next.x), 0.5 * (outline[i].y + next.y)});
        }
        outline = std::move(more);
    }
    return outline;
}

Particle partOf(const Particle& piece, Outline outline, double cut) {
    Particle part = piece;
    const Feret feret = feretOf(outline);
    const double area = std::abs(signedArea(outline)), hidden = cut / std::sqrt(3.0);
    part.centre = centroidOf(outline);
    part.outline = std::move(outline);
    part.length = Millimetres(0.0);
    setSizes(part, feret,
             Millimetres(std::hypot(piece.maxFeret.standardUncertainty.value(), hidden)));
    const double share = area / std::max(piece.area.value.value(), area);
    part.area = {SquareMillimetres(area),
                 SquareMillimetres(
                     std::hypot(share * piece.area.standardUncertainty.value(), cut * hidden))};
    return part;
}

} // namespace

Particle joinedPieces(const std::vector<Particle>& parts) {
    if (parts.size() < 2)
        throw std::logic_error("One find cannot be joined.");
    std::vector<Particle> bySize(parts);
    std::stable_sort(bySize.begin(), bySize.end(), [](const Particle& a, const Particle& b) {
        return a.area.value.value() > b.area.value.value();
    });
    Particle piece = bySize.front();
    double longest = 0.0, u = 0.0, relative = 0.0;
    for (const Particle& part : bySize) {
        const double length = part.maxFeret.value.value();
        const double own = part.maxFeret.standardUncertainty.value();
        if (length > longest) {
            longest = length;
            relative = own / length;
        }
        u = std::max(u, own);
        if (&part != &bySize.front())
            takeIn(piece, part);
    }
    Feret feret = feretOf(piece.outline);
    feret.longest = std::max(feret.longest, longest);
    piece.centre = centroidOf(piece.outline);
    setSizes(piece, feret, Millimetres(std::max(u, relative * feret.longest)));
    return piece;
}

Millimetres gapBetween(const Particle& one, const Particle& other) {
    return Millimetres(nearest(outlineOf(one), outlineOf(other)).gap);
}

std::optional<DividedPiece> dividedPiece(const Particle& piece, int number) {
    const Outline outline = withEnoughPoints(outlineOf(piece));
    const Cut cut = narrowestCut(outline);
    if (!std::isfinite(cut.score))
        return std::nullopt;
    const auto at = [&](std::size_t i) { return outline.begin() + static_cast<std::ptrdiff_t>(i); };
    Outline rest(at(cut.to), outline.end());
    rest.insert(rest.end(), outline.begin(), at(cut.from) + 1);
    DividedPiece two{partOf(piece, Outline(at(cut.from), at(cut.to) + 1), cut.length),
                     partOf(piece, std::move(rest), cut.length)};
    if (two.larger.maxFeret.value < two.smaller.maxFeret.value)
        std::swap(two.larger, two.smaller);
    two.smaller.id = number;
    return two;
}

} // namespace swarfbook
