// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/repeats.h"

#include "base/poisson.h"
#include "particles/match_pieces.h"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace swarfbook {
namespace {

/// Figures of one photo each, and how many pieces one unit of the figure stands for.
RepeatedFigure figureOf(const std::vector<double>& values) {
    RepeatedFigure figure;
    const auto n = static_cast<double>(values.size());
    for (const double value : values)
        figure.mean += value / n;
    double squares = 0.0;
    for (const double value : values)
        squares += (value - figure.mean) * (value - figure.mean);
    figure.between = values.size() > 1 ? std::sqrt(squares / (n - 1.0)) : 0.0;
    return figure;
}

/// Means over the photos.
struct MeanPieces {
    double seen = 0.0;     ///< pieces seen per photo
    double perPiece = 0.0; ///< what one of them adds to a photo's figure
};

/// The figure varies by chance as the number of pieces seen does.
void addInterval(RepeatedFigure& figure, const MeanPieces& mean, std::size_t photos) {
    const auto [low, high] = poissonInterval95(static_cast<int>(std::lround(mean.seen)));
    const double rounded = std::round(mean.seen);
    double scatter = 0.0;
    if (photos > 1) {
        const boost::math::students_t_distribution<double> t(static_cast<double>(photos - 1));
        scatter = boost::math::quantile(t, 0.975) * figure.between /
                  std::sqrt(static_cast<double>(photos));
    }
    figure.low = std::max(0.0, figure.mean - std::hypot((rounded - low) * mean.perPiece, scatter));
    figure.high = figure.mean + std::hypot((high - rounded) * mean.perPiece, scatter);
}

/// What one piece adds to a photo's figures: 1 on a white card; on a frame its mean edge weight
/// over the area.
double perPiece(const DebrisFinding& finding) {
    if (finding.onWhiteCard)
        return 1.0;
    double seen = 0.0, figure = 0.0;
    for (const ClassCount& c : finding.counts) {
        if (c.to <= toMicrometres(finding.detectionLimit))
            continue;
        seen += c.count;
        figure += c.per100Cm2;
    }
    return seen > 0.0 ? figure / seen : 100.0 / finding.measuredArea.value();
}

int piecesBetween(const DebrisFinding& finding, Micrometres from, Micrometres to) {
    return static_cast<int>(
        std::count_if(finding.particles.begin(), finding.particles.end(), [&](const Particle& p) {
            const Micrometres size = toMicrometres(p.maxFeret.value);
            return size >= from && size < to && (finding.onWhiteCard || !p.atEdge);
        }));
}

RepeatedFigure countBetween(std::span<const DebrisFinding> repeats, Micrometres from,
                            Micrometres to) {
    std::vector<double> figures;
    MeanPieces mean;
    const auto n = static_cast<double>(repeats.size());
    for (const DebrisFinding& finding : repeats) {
        const int seen = piecesBetween(finding, from, to);
        figures.push_back(seen * perPiece(finding));
        mean.seen += seen / n;
        mean.perPiece += perPiece(finding) / n;
    }
    RepeatedFigure figure = figureOf(figures);
    addInterval(figure, mean, repeats.size());
    return figure;
}

double coveredShare(const DebrisFinding& finding, Millimetres floor) {
    double area = 0.0;
    for (const Particle& p : finding.particles)
        if (p.maxFeret.value >= floor)
            area += p.area.value.value();
    const double measured = finding.measuredArea.value() * 100.0; // mm2
    return measured > 0.0 ? area / measured : 0.0;
}

/// What can be asked for again.
bool askedFor(const Particle& piece, Millimetres floor) {
    return piece.maxFeret.value >= floor && !piece.mayBeNone() && !piece.atEdge &&
           piece.type != ParticleType::fibre;
}

std::optional<double> foundAgain(std::span<const DebrisFinding> repeats, Millimetres floor) {
    int asked = 0, found = 0;
    for (std::size_t i = 0; i + 1 < repeats.size(); ++i) {
        const auto &one = repeats[i].particles, &next = repeats[i + 1].particles;
        const PieceMatches matches = matchPieces(one, next);
        if (!matches.placeByPieces)
            return std::nullopt;
        const auto count = [&](const Particle& piece) { return askedFor(piece, floor) ? 1 : 0; };
        for (const Particle& piece : one)
            asked += count(piece);
        for (const Particle& piece : next)
            asked += count(piece);
        for (const PiecePair& pair : matches.pairs)
            found += count(one[pair.a]) + count(next[pair.b]);
    }
    return asked > 0 ? std::optional(static_cast<double>(found) / asked) : std::nullopt;
}

} // namespace

RepeatedFinding combineRepeats(std::span<const DebrisFinding> repeats) {
    if (repeats.empty())
        throw std::logic_error("no findings to combine");
    RepeatedFinding out;
    out.photos = static_cast<int>(repeats.size());
    out.onWhiteCard = repeats.front().onWhiteCard;
    for (const DebrisFinding& finding : repeats) {
        if (finding.onWhiteCard != out.onWhiteCard)
            throw std::logic_error("a white card and a frame cannot be repeats of one sample");
        out.detectionLimit = std::max(out.detectionLimit, finding.detectionLimit);
    }
    const Micrometres floor = toMicrometres(out.detectionLimit);
    out.count = countBetween(repeats, floor, Micrometres(std::numeric_limits<double>::infinity()));
    for (const ClassCount& c : repeats.front().counts)
        if (c.from >= floor)
            out.classes.push_back({c.sizeClass, c.from, c.to, countBetween(repeats, c.from, c.to)});
    while (!out.classes.empty() && out.classes.back().count.mean == 0.0)
        out.classes.pop_back();
    std::vector<double> covered;
    for (const DebrisFinding& finding : repeats)
        covered.push_back(coveredShare(finding, out.detectionLimit));
    out.covered = figureOf(covered);
    out.foundAgain = foundAgain(repeats, out.detectionLimit);
    return out;
}

} // namespace swarfbook
