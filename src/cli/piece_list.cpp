// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/piece_list.h"

#include "cli/text_table.h"
#include "particles/type_evidence.h"
#include "record/piece_corrections.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace swarfbook::cli {

std::string piecesText(const StoredPhoto& photo) {
    if (photo.measurement.refusal || !photo.measurement.debris)
        return fmt::format("Photo {} was not measured, so it has no pieces.\n", photo.id);
    std::vector<std::vector<std::string>> rows{
        {"piece", "longest side", "type", "certainty", "at (mm)", ""}};
    for (const Particle& piece : photo.measurement.debris->particles) {
        const auto corrected =
            std::find_if(photo.corrected.begin(), photo.corrected.end(),
                         [&](const CorrectedPiece& one) { return one.piece == piece.id; });
        const std::string who = whoSaidType(piece);
        const bool regrouped = regroupingOf(photo, piece.id) != nullptr;
        rows.push_back({fmt::format("{}", piece.id),
                        fmt::format("{:.2f} ± {:.2f} mm", piece.maxFeret.value.value(),
                                    1.96 * piece.maxFeret.standardUncertainty.value()),
                        std::string(typeWord(piece.type)),
                        fmt::format("{:.0f} %", 100.0 * piece.chanceOfType()),
                        fmt::format("{:.1f},{:.1f}", piece.centre.x, piece.centre.y),
                        corrected != photo.corrected.end() ? "corrected " + who
                        : !who.empty()                     ? who
                        : regrouped                        ? "joined or divided by hand"
                        : piece.mayBeNone()                ? "doubtful"
                                                           : ""});
    }
    std::string text = textTable(std::move(rows));
    for (const RegroupedPieces& pieces : photo.regrouped)
        text += "By hand: " + regroupedSentence(pieces) + "\n";
    for (const CorrectedPiece& one : photo.corrected)
        if (one.piece &&
            (one.correction.said == "not debris" || one.correction.said == "left over"))
            text +=
                fmt::format("Piece {} at {:.1f},{:.1f} mm: {} by hand, not counted\n", *one.piece,
                            one.correction.at.x, one.correction.at.y, one.correction.said);
    return text;
}

} // namespace swarfbook::cli
