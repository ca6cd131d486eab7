// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/finding_words.h"
#include "record/piece_corrections.h"
#include "report/magnet_words.h"
#include "report/photo_view.h"
#include "report/report_words.h"
#include "report/type_marks.h"
#include "web/page_words.h"
#include "web/pages.h"
#include "web/photo_coming.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <opencv2/core.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook::web {
namespace {

nlohmann::json outlineIn(const PhotoView& view, const std::vector<PointOnCard>& outline) {
    nlohmann::json points = nlohmann::json::array();
    for (const PointOnCard& point : outline) {
        const Spot spot = view.spotOf(point);
        points.push_back({std::round(10.0 * spot.x) / 10.0, std::round(10.0 * spot.y) / 10.0});
    }
    return points;
}

std::string colour(const Ink& ink) {
    return fmt::format("rgba({:.0f}, {:.0f}, {:.0f}, {:.2f})", 255.0 * ink.red, 255.0 * ink.green,
                       255.0 * ink.blue, ink.opacity);
}

nlohmann::json inkOf(const OutlineMark& mark) {
    return {{"letter", mark.letter},
            {"words", mark.words},
            {"core", colour(mark.core)},
            {"casing", colour(mark.casing)},
            {"rhythm", mark.rhythm}};
}

/// How the pieces of each type are drawn, as on the annotated photo.
nlohmann::json kindsOfMarks() {
    nlohmann::json kinds = nlohmann::json::array();
    for (int i = 0; i < particleTypeCount; ++i)
        kinds.push_back(inkOf(markOf(static_cast<ParticleType>(i))));
    kinds.push_back(inkOf(sliverMark()));
    return kinds;
}

/// What a number of certainty is of.
std::string certaintyWords(const Particle& piece) {
    if (piece.type == ParticleType::unidentified)
        return fmt::format("{:.0f} % that it is debris; of which type is not known",
                           100.0 * piece.debrisProbability);
    return fmt::format("{:.0f} % that it is debris, and of this type",
                       100.0 * piece.chanceOfType());
}

std::string glintWords(const Particle& piece) {
    return fmt::format("{}{:.1f} times the card's white, where it shines most",
                       piece.glintAtLeast ? "at least " : "", piece.glint);
}

/// "N: 3 mm and more (ISO 16232)".
std::string sizeClassWords(const Particle& piece, const DebrisFinding& debris) {
    if (piece.sizeClass.empty())
        return "";
    const auto row =
        std::find_if(debris.counts.begin(), debris.counts.end(),
                     [&](const ClassCount& one) { return one.sizeClass == piece.sizeClass; });
    return piece.sizeClass + (row == debris.counts.end() ? "" : ": " + sizeWords(*row)) +
           " (ISO 16232)";
}

std::string toMind(const Particle& piece) {
    std::string words = piece.mayBeSeveral ? "It may be several pieces that touch. " : "";
    if (piece.atEdge)
        words += "It touches the window's edge: what lies beyond is not measured.";
    return words;
}

nlohmann::json markOfPiece(const PhotoView& view, const Particle& piece, const StoredPhoto& photo) {
    const auto corrected =
        std::find_if(photo.corrected.begin(), photo.corrected.end(),
                     [&](const CorrectedPiece& one) { return one.piece == piece.id; });
    const bool byHand = corrected != photo.corrected.end();
    const RegroupedPieces* regrouped = regroupingOf(photo, piece.id);
    return {{"number", piece.id},
            {"outline", outlineIn(view, piece.outline)},
            {"letter", markOf(piece.type).letter},
            {"type", typeWord(piece.type)},
            {"known", piece.type != ParticleType::unidentified},
            {"size", seenSideWords(piece)},
            {"width", lengthWords(widthOf(piece))},
            {"class", sizeClassWords(piece, *photo.measurement.debris)},
            {"glint", glintWords(piece)},
            {"certainty", certaintyWords(piece)},
            {"magnetic", ferrousWords(piece.ferrous)},
            {"doubtful", !byHand && piece.mayBeNone()},
            {"mind", toMind(piece)},
            {"corrected", byHand ? correctedSentence(*corrected) : std::string()},
            {"regrouped", regrouped != nullptr ? regroupedSentence(*regrouped) : std::string()}};
}

/// Pieces that a hand took out of every count: they can be brought back.
nlohmann::json takenOut(const PhotoView& view, const StoredPhoto& photo) {
    nlohmann::json all = nlohmann::json::array();
    for (const CorrectedPiece& one : photo.corrected)
        if (one.piece &&
            (one.correction.said == "not debris" || one.correction.said == "left over"))
            all.push_back({{"number", *one.piece},
                           {"at", outlineIn(view, {one.correction.at})[0]},
                           {"said", correctedSentence(one)}});
    return all;
}

/// A magnet's own outline and the slivers in its fuzz.
nlohmann::json magnetIn(const PhotoView& view, const MagnetFinding& magnet) {
    nlohmann::json all{{"mark", inkOf(magnetRimMark())},
                       {"outlines", nlohmann::json::array()},
                       {"slivers", nlohmann::json::array()}};
    for (const std::vector<PointOnCard>& outline : magnet.outlines)
        all["outlines"].push_back(outlineIn(view, outline));
    for (const Particle& sliver : magnet.slivers)
        all["slivers"].push_back({{"outline", outlineIn(view, sliver.outline)},
                                  {"letter", sliverMark().letter},
                                  {"doubtful", sliver.mayBeNone()}});
    return all;
}

nlohmann::json marksOf(const StoredPhoto& photo) {
    const Measurement& m = photo.measurement;
    nlohmann::json marks{{"width", m.photo.widthPx},
                         {"height", m.photo.heightPx},
                         {"finding", forPages(findingInFull(m))},
                         {"measured", measuredSection(m)},
                         {"kinds", kindsOfMarks()},
                         {"pieces", nlohmann::json::array()},
                         {"takenOut", nlohmann::json::array()}};
    if (!m.debris || !m.card)
        return marks;
    const cv::Mat none(1, 1, CV_8UC3); // only places are asked for
    const PhotoView view(none, *m.card);
    for (const Particle& piece : m.debris->particles)
        marks["pieces"].push_back(markOfPiece(view, piece, photo));
    marks["takenOut"] = takenOut(view, photo);
    if (m.magnet)
        marks["magnet"] = magnetIn(view, *m.magnet);
    for (const GridPoint& point : m.card->grid) // over the card's window, which is shown first
        marks["window"].push_back({point.inPhoto.u, point.inPhoto.v});
    return marks;
}

} // namespace

std::string marksText(const StoredPhoto& photo) {
    return jsonText(marksOf(photo));
}

} // namespace swarfbook::web
