// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/piece_corrections.h"

#include "particles/count.h"
#include "particles/size_sampling.h"
#include "particles/type_evidence.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace swarfbook {
namespace {

double distance(const Particle& piece, PointOnCard at) {
    return std::hypot(piece.centre.x - at.x, piece.centre.y - at.y);
}

bool reaches(const Particle& piece, PointOnCard at) {
    return distance(piece, at) <= std::max(0.5, 0.5 * piece.maxFeret.value.value());
}

/// The card's window by the measured photo's grid.
WindowSize windowOfGrid(const CardFacts& card) {
    double left = 0.0, right = 0.0, top = 0.0, bottom = 0.0;
    for (std::size_t i = 0; i < card.grid.size(); ++i) {
        const PointOnCard& p = card.grid[i].onCard;
        left = i == 0 ? p.x : std::min(left, p.x);
        right = i == 0 ? p.x : std::max(right, p.x);
        top = i == 0 ? p.y : std::min(top, p.y);
        bottom = i == 0 ? p.y : std::max(bottom, p.y);
    }
    return {Millimetres(right - left), Millimetres(bottom - top)};
}

/// Counts, code and size sampling by the pieces as they now are.
void takeStock(const CardFacts& card, DebrisFinding& debris) {
    if (debris.shownOnly)
        return;
    countAnew(debris, windowOfGrid(card));
    const std::span<const Particle> pieces(debris.particles); // largest first
    debris.sizeSampling =
        sizeSampling(pieces.first(piecesFound(debris).fromFloor), debris.onWhiteCard);
}

void become(Particle& piece, const std::string& said) {
    piece.said.hand = typeFromWord(said);
    piece.debrisProbability = 1.0;
    decideType(piece);
}

} // namespace

const std::vector<std::string>& correctionWords() {
    static const std::vector<std::string> words{
        "bright metal", "yellow metal", "lining", "plastic", "fibre", "not debris", "left over"};
    return words;
}

const Particle* pieceAt(const DebrisFinding& debris, PointOnCard at) {
    const Particle* nearest = nullptr;
    for (const Particle& piece : debris.particles)
        if (reaches(piece, at) &&
            (nearest == nullptr || distance(piece, at) < distance(*nearest, at)))
            nearest = &piece;
    return nearest;
}

std::vector<CorrectedPiece> applyCorrections(Measurement& measurement,
                                             const std::vector<PieceCorrection>& corrections) {
    std::vector<CorrectedPiece> corrected;
    if (corrections.empty() || measurement.refusal || !measurement.debris || !measurement.card)
        return corrected;
    DebrisFinding& debris = *measurement.debris;
    std::vector<int> gone;
    for (const PieceCorrection& correction : corrections) {
        const Particle* found = pieceAt(debris, correction.at);
        corrected.push_back({correction, std::nullopt, ""});
        if (found == nullptr)
            continue;
        corrected.back().piece = found->id;
        corrected.back().measuredAs = typeWord(found->type);
        if (correction.said == "not debris" || correction.said == "left over")
            gone.push_back(found->id);
        else
            become(debris.particles[static_cast<std::size_t>(found - debris.particles.data())],
                   correction.said);
    }
    std::erase_if(debris.particles, [&](const Particle& piece) {
        return std::find(gone.begin(), gone.end(), piece.id) != gone.end();
    });
    takeStock(*measurement.card, debris);
    return corrected;
}

} // namespace swarfbook
