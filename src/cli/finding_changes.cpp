// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/finding_changes.h"

#include "entry/finding_words.h"
#include "particles/count.h"
#include "record/piece_corrections.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook::cli {
namespace {

/// Pieces of one finding that the other has none at the place of.
std::size_t missing(const DebrisFinding& of, const DebrisFinding& in) {
    return static_cast<std::size_t>(
        std::count_if(of.particles.begin(), of.particles.end(),
                      [&](const Particle& piece) { return pieceAt(in, piece.centre) == nullptr; }));
}

std::string longest(const DebrisFinding& debris) {
    double length = 0.0;
    for (const Particle& piece : debris.particles)
        length = std::max(length, piece.maxFeret.value.value());
    return debris.particles.empty() ? "none" : fmt::format("{:.2f} mm", length);
}

std::size_t doubtful(const DebrisFinding& debris) {
    return static_cast<std::size_t>(std::count_if(debris.particles.begin(), debris.particles.end(),
                                                  [](const Particle& p) { return p.mayBeNone(); }));
}

class Changes {
  public:
    void compare(std::string_view what, const std::string& before, const std::string& now) {
        if (before != now)
            list.push_back(fmt::format("{}: {} now, {} before.", what, now, before));
    }
    void compareDebris(const DebrisFinding& before, const DebrisFinding& now) {
        const std::size_t came = missing(now, before), went = missing(before, now);
        if (came + went > 0)
            list.push_back(fmt::format("Pieces: {} are new, {} are no longer found.", came, went));
        compare("Size limit", fmt::format("{:.2f} mm", before.detectionLimit.value()),
                fmt::format("{:.2f} mm", now.detectionLimit.value()));
        compare("Longest piece", longest(before), longest(now));
        compare("Doubtful pieces", std::to_string(doubtful(before)), std::to_string(doubtful(now)));
    }

    std::vector<std::string> list;
};

bool lostIn(const CorrectedPiece& piece, const StoredPhoto& photo) {
    return std::any_of(photo.corrected.begin(), photo.corrected.end(), [&](const auto& other) {
        return other.correction.at.x == piece.correction.at.x &&
               other.correction.at.y == piece.correction.at.y && !other.piece;
    });
}

bool lostIn(const RegroupedPieces& pieces, const StoredPhoto& photo) {
    return std::any_of(photo.regrouped.begin(), photo.regrouped.end(), [&](const auto& other) {
        return other.now.empty() && other.said.at.front().x == pieces.said.at.front().x &&
               other.said.at.front().y == pieces.said.at.front().y;
    });
}

} // namespace

std::vector<std::string> findingChanges(const StoredPhoto& before, const StoredPhoto& now) {
    Changes changes;
    changes.compare("Finding", findingInShort(before.measurement), findingInShort(now.measurement));
    if (before.measurement.debris && now.measurement.debris && !before.measurement.refusal &&
        !now.measurement.refusal)
        changes.compareDebris(*before.measurement.debris, *now.measurement.debris);
    for (const CorrectedPiece& piece : before.corrected)
        if (piece.piece && lostIn(piece, now))
            changes.list.push_back(fmt::format(
                "The piece at {:.1f}, {:.1f} mm that a hand corrected to \"{}\" is not found now.",
                piece.correction.at.x, piece.correction.at.y, piece.correction.said));
    for (const RegroupedPieces& pieces : before.regrouped)
        if (!pieces.now.empty() && lostIn(pieces, now))
            changes.list.push_back("By hand: " + regroupedSentence(pieces) +
                                   " They are not found so now.");
    return changes.list;
}

} // namespace swarfbook::cli
