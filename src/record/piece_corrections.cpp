// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/piece_corrections.h"

#include "particles/count.h"
#include "particles/regroup_pieces.h"
#include "particles/size_sampling.h"
#include "particles/type_evidence.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <set>
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

/// Where the finds of those places stand among the pieces; nothing where one is missing, or two
/// places are of one find.
std::optional<std::vector<std::size_t>> findsAt(const DebrisFinding& debris,
                                                const std::vector<PointOnCard>& places) {
    std::vector<std::size_t> finds;
    for (const PointOnCard place : places) {
        const Particle* found = pieceAt(debris, place);
        if (found == nullptr)
            return std::nullopt;
        const auto at = static_cast<std::size_t>(found - debris.particles.data());
        if (std::find(finds.begin(), finds.end(), at) != finds.end())
            return std::nullopt;
        finds.push_back(at);
    }
    return finds;
}

/// The pieces that those finds are: one, or two of which the second has the number; none where
/// nothing can be cut.
std::vector<Particle> regroupedAs(const std::vector<Particle>& finds, int number) {
    if (finds.size() > 1)
        return {joinedPieces(finds)};
    const auto two = dividedPiece(finds.front(), number);
    return two ? std::vector<Particle>{two->larger, two->smaller} : std::vector<Particle>();
}

/// Makes the pieces that finds are out of them, one regrouping after the other: a part of a piece
/// that was divided can be divided again.
class Regrouper {
  public:
    explicit Regrouper(std::vector<Particle>& pieces) : pieces_(pieces) {
        for (const Particle& piece : pieces)
            highest_ = std::max(highest_, piece.id);
    }

    void take(RegroupedPieces& one, const DebrisFinding& debris) {
        const auto places = findsAt(debris, one.said.at);
        if (!places)
            return;
        std::vector<Particle> finds;
        for (const std::size_t at : *places)
            finds.push_back(pieces_[at]);
        const bool isMadeByHand = std::any_of(finds.begin(), finds.end(), [&](const auto& find) {
            return made_.contains(find.id) && (one.said.joins() || joined_.contains(find.id));
        });
        const std::vector<Particle> now =
            isMadeByHand ? std::vector<Particle>() : regroupedAs(finds, highest_ + 1);
        if (now.empty())
            return;
        highest_ += now.size() > 1 ? 1 : 0;
        for (const Particle& find : finds)
            one.measured.push_back(find.id);
        for (const Particle& piece : now) {
            one.now.push_back(piece.id);
            made_.insert(piece.id);
            if (one.said.joins())
                joined_.insert(piece.id);
        }
        std::erase_if(pieces_, [&](const Particle& piece) {
            return std::find(one.measured.begin(), one.measured.end(), piece.id) !=
                   one.measured.end();
        });
        pieces_.insert(pieces_.end(), now.begin(), now.end());
    }

  private:
    std::vector<Particle>& pieces_;
    std::set<int> made_, joined_; ///< numbers of the pieces that a hand made
    int highest_ = 0;             ///< number that a piece has
};

} // namespace

std::vector<RegroupedPieces> applyRegroupings(Measurement& measurement,
                                              const std::vector<PieceRegrouping>& regroupings) {
    std::vector<RegroupedPieces> all;
    for (const PieceRegrouping& said : regroupings)
        all.push_back({said, {}, {}});
    if (all.empty() || measurement.refusal || !measurement.debris || !measurement.card)
        return all;
    std::vector<Particle>& pieces = measurement.debris->particles;
    Regrouper regrouper(pieces);
    for (RegroupedPieces& one : all)
        regrouper.take(one, *measurement.debris);
    std::stable_sort(pieces.begin(), pieces.end(), [](const Particle& a, const Particle& b) {
        return a.maxFeret.value > b.maxFeret.value; // largest first
    });
    takeStock(*measurement.card, *measurement.debris);
    return all;
}

const RegroupedPieces* regroupingOf(const StoredPhoto& photo, int piece) {
    const RegroupedPieces* last = nullptr; // a part may have been divided again
    for (const RegroupedPieces& one : photo.regrouped)
        if (std::find(one.now.begin(), one.now.end(), piece) != one.now.end())
            last = &one;
    return last;
}

std::string regroupedSentence(const RegroupedPieces& pieces) {
    const std::string by =
        pieces.said.reason.by.empty() ? "" : fmt::format(" (by {})", pieces.said.reason.by);
    if (pieces.now.empty()) {
        const PointOnCard at = pieces.said.at.front();
        return fmt::format("What lies at {:.1f}, {:.1f} mm was said to be {}{}; it is no longer "
                           "found so.",
                           at.x, at.y, pieces.said.joins() ? "one piece" : "two pieces", by);
    }
    std::vector<int> measured = pieces.measured;
    std::sort(measured.begin(), measured.end());
    if (pieces.said.joins())
        return fmt::format("Pieces {} are one piece, {}{}.", fmt::join(measured, " and "),
                           pieces.now.front(), by);
    return fmt::format("Piece {} is two pieces, {}{}.", measured.front(),
                       fmt::join(pieces.now, " and "), by);
}

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
