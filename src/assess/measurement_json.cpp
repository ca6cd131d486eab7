// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/measurement_json.h"

#include "assess/after_magnet_json.h"
#include "assess/magnet_height_json.h"
#include "assess/rounded.h"
#include "assess/sample_basis_json.h"
#include "assess/second_light_json.h"
#include "assess/text_or_null.h"
#include "assess/type_evidence_json.h"
#include "base/text.h"

#include <cmath>
#include <stdexcept>

namespace swarfbook {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

// Decimals: finer than a photo can show, but few enough to keep the document short.
constexpr int mmDecimals = lengthDecimals;
constexpr int mm2Decimals = 6;
constexpr int pxDecimals = 2;
constexpr int shareDecimals = 4;
constexpr int countDecimals = 4;

/// Text that any JSON reader accepts: bytes that are not UTF-8 become the replacement character.
ordered_json text(const std::string& raw) {
    return validUtf8(raw);
}

ordered_json outlineJson(const std::vector<PointOnCard>& outline) {
    ordered_json points = ordered_json::array();
    for (const PointOnCard& p : outline)
        points.push_back({rounded(p.x, mmDecimals), rounded(p.y, mmDecimals)});
    return points;
}

ordered_json photoJson(const PhotoFacts& facts) {
    return {{"file", text(facts.file)},         {"sha256", textOrNull(facts.sha256)},
            {"width_px", facts.widthPx},        {"height_px", facts.heightPx},
            {"orientation", facts.orientation}, {"taken", textOrNull(facts.taken)}};
}

ordered_json cardJson(const CardFacts& card) {
    ordered_json grid = ordered_json::array();
    for (const GridPoint& p : card.grid)
        grid.push_back({{"x_mm", rounded(p.onCard.x, mmDecimals)},
                        {"y_mm", rounded(p.onCard.y, mmDecimals)},
                        {"u_px", rounded(p.inPhoto.u, pxDecimals)},
                        {"v_px", rounded(p.inPhoto.v, pxDecimals)}});
    return {{"layout", text(card.layout)},
            {"serial", textOrNull(card.serial)},
            {"print_scale", rounded(card.printScale.value, 6)},
            {"print_scale_u", rounded(card.printScale.standardUncertainty, 6)},
            {"print_scale_checked", card.printScale.checked},
            {"markers_used", card.markersUsed},
            {"residual_px", rounded(card.residual, 3)},
            {"tilt_deg", rounded(card.tilt, 2)},
            {"px_per_mm", rounded(card.scale, 4)},
            {"scale_u_percent", rounded(card.scaleUPercent, 4)},
            {"grid", std::move(grid)}};
}

ordered_json ferrousJson(Ferrous ferrous) {
    if (ferrous == Ferrous::notKnown)
        return nullptr;
    return ferrous == Ferrous::yes;
}

ordered_json particlesJson(const std::vector<Particle>& particles) {
    ordered_json list = ordered_json::array();
    for (const Particle& p : particles)
        list.push_back({{"id", p.id},
                        {"x_mm", rounded(p.centre.x, mmDecimals)},
                        {"y_mm", rounded(p.centre.y, mmDecimals)},
                        {"max_feret_mm", rounded(p.maxFeret.value, mmDecimals)},
                        {"max_feret_u_mm", rounded(p.maxFeret.standardUncertainty, mmDecimals)},
                        {"max_feret_at_least_mm", roundedOrNull(p.leastSize, mmDecimals)},
                        {"min_feret_mm", rounded(p.minFeret.value, mmDecimals)},
                        {"min_feret_u_mm", rounded(p.minFeret.standardUncertainty, mmDecimals)},
                        {"area_mm2", rounded(p.area.value, mm2Decimals)},
                        {"area_u_mm2", rounded(p.area.standardUncertainty, mm2Decimals)},
                        {"length_mm", rounded(p.length, mmDecimals)},
                        {"size_class", textOrNull(p.sizeClass)},
                        {"type", typeWord(p.type)},
                        {"debris_probability", rounded(p.debrisProbability, shareDecimals)},
                        {"type_probability", rounded(p.typeProbability, shareDecimals)},
                        {"glint", rounded(p.glint, 3)},
                        {"glint_at_least", p.glintAtLeast},
                        {"ferrous", ferrousJson(p.ferrous)},
                        {"type_said", toJson(p.said)},
                        {"at_edge", p.atEdge},
                        {"may_be_several", p.mayBeSeveral},
                        {"outline_mm", outlineJson(p.outline)}});
    return list;
}

ordered_json countsJson(const std::vector<ClassCount>& counts) {
    ordered_json list = ordered_json::array();
    for (const ClassCount& c : counts) {
        ordered_json byType = ordered_json::object();
        for (std::size_t type = 0; type < c.byType.size(); ++type)
            if (c.byType[type] != 0)
                byType[std::string(typeWord(static_cast<ParticleType>(type)))] = c.byType[type];
        const bool openAbove = !std::isfinite(c.to.value());
        list.push_back(
            {{"size_class", text(c.sizeClass)},
             {"from_um", rounded(c.from, 1)},
             {"to_um", openAbove ? ordered_json(nullptr) : ordered_json(rounded(c.to, 1))},
             {"count", c.count},
             {"weighted", rounded(c.weighted, countDecimals)},
             {"per_100_cm2", rounded(c.per100Cm2, countDecimals)},
             {"interval_95",
              {rounded(c.intervalLow, countDecimals), rounded(c.intervalHigh, countDecimals)}},
             {"by_type", std::move(byType)},
             {"complete", c.complete}});
    }
    return list;
}

ordered_json windowJson(const DebrisFinding& debris) {
    ordered_json leftOut = ordered_json::array();
    for (const LeftOut& part : debris.leftOut)
        leftOut.push_back({{"why", text(part.why)}, {"outline_mm", outlineJson(part.outline)}});
    return {{"area_cm2", rounded(debris.windowArea, mmDecimals)},
            {"measured_cm2", rounded(debris.measuredArea, mmDecimals)},
            {"cut_out", !debris.onWhiteCard},
            {"left_out", std::move(leftOut)}};
}

ordered_json magnetJson(const MagnetFinding& magnet) {
    ordered_json size = ordered_json::array();
    for (const Millimetres& length : magnet.size)
        size.push_back(rounded(length, mmDecimals));
    ordered_json outlines = ordered_json::array();
    for (const auto& outline : magnet.outlines)
        outlines.push_back(outlineJson(outline));
    return {{"shape", magnetShapeName(magnet.shape)},
            {"size_mm", std::move(size)},
            {"covered_share", rounded(magnet.coveredShare.value, shareDecimals)},
            {"covered_share_u", rounded(magnet.coveredShare.standardUncertainty, shareDecimals)},
            {"overhang_mean_mm", rounded(magnet.overhangMean, mmDecimals)},
            {"overhang_p95_mm", rounded(magnet.overhangP95, mmDecimals)},
            {"overhang_max_mm", rounded(magnet.overhangMax, mmDecimals)},
            {"overhang_u_mm", roundedOrNull(magnet.overhangUncertainty, mmDecimals)},
            {"outline_lost", magnet.outlineLost},
            {"slivers_told", magnet.sliversTold},
            {"height_above_card", toJson(magnet.height)},
            {"outlines_mm", std::move(outlines)},
            {"slivers", particlesJson(magnet.slivers)}};
}

ordered_json sharpnessJson(const Measurement& measurement) {
    ordered_json places = ordered_json::array();
    for (const EdgeWidths& place : measurement.edgesOverWindow)
        places.push_back({{"x_mm", rounded(place.at.x, mmDecimals)},
                          {"y_mm", rounded(place.at.y, mmDecimals)},
                          {"along_x_px", rounded(place.alongX, pxDecimals)},
                          {"along_y_px", rounded(place.alongY, pxDecimals)}});
    return {{"edge_width_px", rounded(measurement.edgeWidth, pxDecimals)},
            {"edge_width_mm", rounded(measurement.edgeWidthOnCard, mmDecimals)},
            {"over_window", places.empty() ? ordered_json(nullptr) : std::move(places)}};
}

ordered_json cleanReferenceJson(const Measurement& measurement) {
    if (!measurement.cleanReference)
        return nullptr;
    const CleanReferenceUse& cleanReference = *measurement.cleanReference;
    ordered_json document{{"file", text(cleanReference.file)},
                          {"sha256", textOrNull(cleanReference.sha256)},
                          {"used", cleanReference.used},
                          {"why_not", textOrNull(cleanReference.whyNot)}};
    if (!cleanReference.used)
        return document;
    document["laid_by"] = cleanReference.byTexture ? "surface" : "card";
    document["likeness"] = rounded(cleanReference.likeness, shareDecimals);
    document["shift_mm"] = {rounded(cleanReference.shift.x, mmDecimals),
                            rounded(cleanReference.shift.y, mmDecimals)};
    document["turn_deg"] = rounded(cleanReference.turn, 3);
    document["covered_share"] = rounded(cleanReference.coveredShare, shareDecimals);
    document["also_on_blank"] = measurement.debris->alsoOnCleanReference;
    return document;
}

} // namespace

ordered_json toJson(const SizeSampling& c) {
    const bool limits = c.medianHigh.value() > 0.0;
    return {{"pieces", c.pieces},
            {"median_mm", rounded(c.median, mmDecimals)},
            {"median_interval_95", limits ? ordered_json{rounded(c.medianLow, mmDecimals),
                                                         rounded(c.medianHigh, mmDecimals)}
                                          : ordered_json(nullptr)},
            {"geometric_sd", rounded(c.spread, shareDecimals)},
            {"mean_off_95", rounded(c.meanOff95, shareDecimals)},
            {"volume_mean_off_95", rounded(c.volumeMeanOff95, shareDecimals)},
            {"needed_for_5_percent", c.neededFor5Percent}};
}

namespace {

/// The pieces, each with the fields that depend on the whole finding.
ordered_json piecesJson(const DebrisFinding& debris) {
    ordered_json pieces = particlesJson(debris.particles);
    for (std::size_t i = 0; i < debris.particles.size(); ++i) {
        const Particle& piece = debris.particles[i];
        pieces[i]["below_floor"] = piece.maxFeret.value < debris.detectionLimit;
        if (piece.twoLights)
            pieces[i]["second_light"] = toJson(*piece.twoLights);
    }
    return pieces;
}

/// The document of an optional part.
template <typename Part> ordered_json documentOf(const std::optional<Part>& part) {
    return part ? toJson(*part) : ordered_json(nullptr);
}

} // namespace

ordered_json toJson(const Measurement& measurement) {
    ordered_json document{{"format", "swarfbook measurement 2"},
                          {"photo", photoJson(measurement.photo)},
                          {"place", placeName(measurement.place)}};
    if (measurement.refusal) {
        document["refusal"] = {{"reason", reasonName(measurement.refusal->reason)},
                               {"detail", text(measurement.refusal->detail)},
                               {"advice", text(measurement.refusal->advice)}};
        return document;
    }
    if (!measurement.card || !measurement.debris)
        throw std::logic_error("a measured photo without its card or its debris");
    const DebrisFinding& debris = *measurement.debris;
    document["refusal"] = nullptr;
    document["sample"] = sampleJson(measurement);
    document["card"] = cardJson(*measurement.card);
    document["sharpness"] = sharpnessJson(measurement);
    document["size_floor_mm"] = rounded(debris.detectionLimit, mmDecimals);
    document["seen_from_mm"] = rounded(debris.resolutionLimit, mmDecimals);
    document["window"] = windowJson(debris);
    document["shown_only"] = debris.shownOnly
                                 ? ordered_json{{"why", text(debris.shownOnly->why)},
                                                {"advice", text(debris.shownOnly->advice)}}
                                 : ordered_json(nullptr);
    document["particles"] = piecesJson(debris);
    document["counts"] = countsJson(debris.counts);
    document["size_certainty"] = documentOf(debris.sizeSampling);
    document["code"] = textOrNull(debris.code);
    document["magnet"] =
        measurement.magnet ? magnetJson(*measurement.magnet) : ordered_json(nullptr);
    document["blank"] = cleanReferenceJson(measurement);
    document["after_magnet"] = documentOf(measurement.afterMagnet);
    document["second_light"] = documentOf(measurement.secondLight);
    document["cautions"] = ordered_json::array();
    for (const std::string& caution : measurement.cautions)
        document["cautions"].push_back(text(caution));
    return document;
}

ordered_json toJson(const RepeatedFinding& finding) {
    const auto figure = [](const RepeatedFigure& f) {
        return ordered_json{
            {"mean", rounded(f.mean, countDecimals)},
            {"between_photos_sd", rounded(f.between, countDecimals)},
            {"interval_95", {rounded(f.low, countDecimals), rounded(f.high, countDecimals)}}};
    };
    ordered_json classes = ordered_json::array();
    for (const RepeatedClass& c : finding.classes) {
        ordered_json one{{"size_class", c.sizeClass}, {"from_um", rounded(c.from, 1)}};
        one.update(figure(c.count));
        classes.push_back(std::move(one));
    }
    return {{"format", "swarfbook repeats 1"},
            {"photos", finding.photos},
            {"counts_are", finding.onWhiteCard ? "per sample" : "per 100 cm2"},
            {"size_floor_mm", rounded(finding.detectionLimit, mmDecimals)},
            {"count", figure(finding.count)},
            {"counts", std::move(classes)},
            {"covered_share", rounded(finding.covered.mean, 6)},
            {"covered_share_sd", rounded(finding.covered.between, 6)},
            {"found_again_share", roundedOrNull(finding.foundAgain, shareDecimals)}};
}

json toJson(const PlaneMapping& mapping) {
    json h = json::array();
    for (const double element : mapping.h.val)
        h.push_back(element);
    return {{"h", std::move(h)},
            {"focal", mapping.focal},
            {"centre", {mapping.centre.x, mapping.centre.y}},
            {"k1", mapping.k1},
            {"k2", mapping.k2}};
}

} // namespace swarfbook
