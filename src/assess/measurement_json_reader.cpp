// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/after_magnet_json.h"
#include "assess/document_values.h"
#include "assess/magnet_height_json.h"
#include "assess/measurement_format_1.h"
#include "assess/measurement_json.h"
#include "assess/sample_basis_json.h"
#include "assess/second_light_json.h"
#include "assess/type_evidence_json.h"

#include <fmt/format.h>

#include <limits>
#include <stdexcept>

namespace swarfbook {
namespace {

using nlohmann::json;
using namespace document;

std::vector<PointOnCard> outlineFrom(const json& list) {
    std::vector<PointOnCard> outline;
    outline.reserve(list.size());
    for (const json& p : list)
        outline.push_back({checkedNumber(p.at(0)), checkedNumber(p.at(1))});
    return outline;
}

PhotoFacts photoFrom(const json& from) {
    PhotoFacts facts;
    facts.file = from.at("file").get<std::string>();
    facts.sha256 = textOrEmpty(from, "sha256");
    facts.widthPx = whole(from.at("width_px"));
    facts.heightPx = whole(from.at("height_px"));
    facts.orientation = whole(from.at("orientation"));
    facts.taken = textOrEmpty(from, "taken");
    return facts;
}

CardFacts cardFrom(const json& from) {
    CardFacts card;
    card.layout = from.at("layout").get<std::string>();
    if (card.layout != "close" && card.layout != "wide")
        throw std::invalid_argument("there is no such layout of a card");
    card.serial = textOrEmpty(from, "serial");
    card.printScale = {amount(from, "print_scale"), amount(from, "print_scale_u"),
                       from.at("print_scale_checked").get<bool>()};
    card.markersUsed = whole(from.at("markers_used"));
    card.residual = Pixels(amount(from, "residual_px"));
    card.tilt = Degrees(number(from, "tilt_deg"));
    card.scale = PixelsPerMillimetre(amount(from, "px_per_mm"));
    card.scaleUPercent = amount(from, "scale_u_percent");
    for (const json& p : from.at("grid"))
        card.grid.push_back(
            {{number(p, "x_mm"), number(p, "y_mm")}, {number(p, "u_px"), number(p, "v_px")}});
    return card;
}

Ferrous ferrousFrom(const json& value) {
    if (value.is_null())
        return Ferrous::notKnown;
    return value.get<bool>() ? Ferrous::yes : Ferrous::no;
}

std::vector<Particle> particlesFrom(const json& list) {
    std::vector<Particle> particles;
    particles.reserve(list.size());
    for (const json& from : list) {
        Particle p;
        p.id = whole(from.at("id"));
        p.centre = {number(from, "x_mm"), number(from, "y_mm")};
        p.maxFeret = measured<Millimetres>(from, "max_feret_mm", "max_feret_u_mm");
        if (const auto least = from.find("max_feret_at_least_mm"); // older ones do not say
            least != from.end() && !least->is_null())
            p.leastSize = Millimetres(amount(from, "max_feret_at_least_mm"));
        p.minFeret = measured<Millimetres>(from, "min_feret_mm", "min_feret_u_mm");
        p.area = measured<SquareMillimetres>(from, "area_mm2", "area_u_mm2");
        p.length = Millimetres(amount(from, "length_mm"));
        p.sizeClass = textOrEmpty(from, "size_class");
        p.type = typeFromWord(from.at("type").get<std::string>());
        p.debrisProbability =
            share(from.value("debris_probability", json(1.0))); // older ones do not say
        p.typeProbability = share(from.at("type_probability"));
        p.glint = number(from, "glint");
        p.glintAtLeast = from.value("glint_at_least", false); // older ones do not say
        p.ferrous = ferrousFrom(from.at("ferrous"));
        if (const auto said = from.find("type_said"); said != from.end())
            p.said = typeEvidenceFromJson(*said);
        else // older ones have only what the photo showed
            p.said.photo = TypeSaid{p.type, p.typeProbability};
        p.atEdge = from.at("at_edge").get<bool>();
        p.mayBeSeveral = from.at("may_be_several").get<bool>();
        p.outline = outlineFrom(from.at("outline_mm"));
        if (const auto lights = from.find("second_light"); lights != from.end())
            p.twoLights = twoLightsFromJson(*lights);
        particles.push_back(std::move(p));
    }
    return particles;
}

std::vector<ClassCount> countsFrom(const json& list) {
    std::vector<ClassCount> counts;
    for (const json& from : list) {
        ClassCount c;
        c.sizeClass = from.at("size_class").get<std::string>();
        c.from = Micrometres(amount(from, "from_um"));
        c.to = Micrometres(from.at("to_um").is_null() ? std::numeric_limits<double>::infinity()
                                                      : amount(from, "to_um"));
        c.count = whole(from.at("count"));
        c.weighted = amount(from, "weighted");
        c.per100Cm2 = amount(from, "per_100_cm2");
        c.intervalLow = checkedNumber(from.at("interval_95").at(0), 0.0);
        c.intervalHigh = checkedNumber(from.at("interval_95").at(1), 0.0);
        for (const auto& [type, pieces] : from.at("by_type").items())
            c.byType.at(static_cast<std::size_t>(typeFromWord(type))) = whole(pieces);
        c.complete = from.at("complete").get<bool>();
        counts.push_back(std::move(c));
    }
    return counts;
}

/// Documents of earlier programs do not have it.
std::optional<SizeSampling> sizeSamplingFrom(const json& document) {
    const auto found = document.find("size_certainty");
    if (found == document.end() || found->is_null())
        return std::nullopt;
    SizeSampling c;
    c.pieces = whole(found->at("pieces"));
    c.median = Millimetres(amount(*found, "median_mm"));
    if (const json& limits = found->at("median_interval_95"); !limits.is_null()) {
        c.medianLow = Millimetres(checkedNumber(limits.at(0)));
        c.medianHigh = Millimetres(checkedNumber(limits.at(1)));
    }
    c.spread = number(*found, "geometric_sd");
    c.meanOff95 = number(*found, "mean_off_95");
    c.volumeMeanOff95 = number(*found, "volume_mean_off_95");
    c.neededFor5Percent = whole(found->at("needed_for_5_percent"));
    return c;
}

DebrisFinding debrisFrom(const json& document) {
    DebrisFinding debris;
    debris.detectionLimit = Millimetres(amount(document, "size_floor_mm"));
    // Earlier programs showed nothing below the size limit, which was then the photo's resolution
    // limit.
    debris.resolutionLimit = document.contains("seen_from_mm")
                                 ? Millimetres(amount(document, "seen_from_mm"))
                                 : debris.detectionLimit;
    const json& window = document.at("window");
    debris.windowArea = SquareCentimetres(amount(window, "area_cm2"));
    debris.measuredArea = SquareCentimetres(amount(window, "measured_cm2"));
    debris.onWhiteCard = !window.at("cut_out").get<bool>();
    for (const json& part : window.at("left_out"))
        debris.leftOut.push_back(
            {part.at("why").get<std::string>(), outlineFrom(part.at("outline_mm"))});
    debris.particles = particlesFrom(document.at("particles"));
    debris.counts = countsFrom(document.at("counts"));
    debris.sizeSampling = sizeSamplingFrom(document);
    debris.code = textOrEmpty(document, "code");
    if (const auto only = document.find("shown_only"); only != document.end() && !only->is_null())
        debris.shownOnly =
            ShownOnly{only->at("why").get<std::string>(), only->at("advice").get<std::string>()};
    return debris;
}

MagnetFinding magnetFrom(const json& from) {
    MagnetFinding magnet;
    magnet.shape = magnetShapeFromName(from.at("shape").get<std::string>());
    for (const json& length : from.at("size_mm"))
        magnet.size.emplace_back(checkedNumber(length, 0.0));
    magnet.coveredShare = measured<Share>(from, "covered_share", "covered_share_u");
    magnet.overhangMean = Millimetres(number(from, "overhang_mean_mm"));
    magnet.overhangP95 = Millimetres(number(from, "overhang_p95_mm"));
    magnet.overhangMax = Millimetres(number(from, "overhang_max_mm"));
    if (const auto u = from.find("overhang_u_mm"); u != from.end() && !u->is_null())
        magnet.overhangUncertainty = Millimetres(checkedNumber(*u, 0.0));
    magnet.outlineLost = from.at("outline_lost").get<bool>();
    magnet.sliversTold = from.value("slivers_told", true);
    for (const json& outline : from.at("outlines_mm"))
        magnet.outlines.push_back(outlineFrom(outline));
    magnet.height = magnetHeightFrom(from);
    magnet.slivers = particlesFrom(from.at("slivers"));
    return magnet;
}

/// Documents of earlier programs do not have them.
std::vector<EdgeWidths> edgesFrom(const json& sharpness) {
    std::vector<EdgeWidths> places;
    const auto found = sharpness.find("over_window");
    if (found == sharpness.end() || found->is_null())
        return places;
    for (const json& p : *found)
        places.push_back({{number(p, "x_mm"), number(p, "y_mm")},
                          Pixels(number(p, "along_x_px")),
                          Pixels(number(p, "along_y_px"))});
    return places;
}

/// Documents of earlier programs do not have it.
void readCleanReference(Measurement& measurement, const json& document) {
    const auto found = document.find("blank");
    if (found == document.end() || found->is_null())
        return;
    CleanReferenceUse cleanReference;
    cleanReference.file = found->at("file").get<std::string>();
    cleanReference.sha256 = textOrEmpty(*found, "sha256");
    cleanReference.used = found->at("used").get<bool>();
    cleanReference.whyNot = textOrEmpty(*found, "why_not");
    if (cleanReference.used) {
        cleanReference.byTexture = found->at("laid_by").get<std::string>() == "surface";
        cleanReference.likeness = number(*found, "likeness");
        cleanReference.shift = {checkedNumber(found->at("shift_mm").at(0)),
                                checkedNumber(found->at("shift_mm").at(1))};
        cleanReference.turn = Degrees(number(*found, "turn_deg"));
        cleanReference.coveredShare = number(*found, "covered_share");
        measurement.debris->alsoOnCleanReference = whole(found->at("also_on_blank"));
    }
    measurement.cleanReference = std::move(cleanReference);
}

Measurement readMeasurement(const json& document) {
    const std::string format = document.at("format").get<std::string>();
    if (format == "swarfbook measurement 1")
        return readMeasurement(fromFormat1(document));
    if (format != "swarfbook measurement 2")
        throw std::invalid_argument(fmt::format("its format is \"{}\"", format));
    Measurement measurement;
    measurement.photo = photoFrom(document.at("photo"));
    measurement.place = placeFromName(document.at("place").get<std::string>());
    measurement.basis = sampleBasisFromJson(document.value("sample", json()));
    if (const json& refusal = document.at("refusal"); !refusal.is_null()) {
        measurement.refusal = Refusal{reasonFromName(refusal.at("reason").get<std::string>()),
                                      refusal.at("detail").get<std::string>(),
                                      refusal.at("advice").get<std::string>()};
        return measurement;
    }
    measurement.card = cardFrom(document.at("card"));
    const json& sharpness = document.at("sharpness");
    measurement.edgeWidth = Pixels(amount(sharpness, "edge_width_px"));
    measurement.edgeWidthOnCard = Millimetres(amount(sharpness, "edge_width_mm"));
    measurement.edgesOverWindow = edgesFrom(sharpness);
    measurement.debris = debrisFrom(document);
    if (const json& magnet = document.at("magnet"); !magnet.is_null())
        measurement.magnet = magnetFrom(magnet);
    readCleanReference(measurement, document);
    // Documents of earlier programs do not have these.
    if (const auto after = document.find("after_magnet");
        after != document.end() && !after->is_null())
        measurement.afterMagnet = afterMagnetFromJson(*after);
    if (const auto second = document.find("second_light");
        second != document.end() && !second->is_null())
        measurement.secondLight = secondLightFromJson(*second);
    if (const auto cautions = document.find("cautions"); cautions != document.end())
        measurement.cautions = cautions->get<std::vector<std::string>>();
    return measurement;
}

PlaneMapping readMapping(const json& document) {
    PlaneMapping mapping;
    const json& h = document.at("h");
    if (h.size() != 9)
        throw std::invalid_argument("\"h\" needs nine numbers");
    for (int i = 0; i < 9; ++i)
        mapping.h.val[i] = checkedNumber(h.at(static_cast<std::size_t>(i)));
    mapping.focal = number(document, "focal");
    mapping.centre = {checkedNumber(document.at("centre").at(0)),
                      checkedNumber(document.at("centre").at(1))};
    mapping.k1 = number(document, "k1");
    mapping.k2 = number(document, "k2");
    return mapping;
}

/// Runs the reader; whatever is missing or wrong comes out as one kind of exception.
template <class Reader> auto readOrExplain(const char* what, const Reader& reader) {
    try {
        return reader();
    } catch (const json::exception& wrong) {
        throw std::invalid_argument(fmt::format("{} cannot be read: {}", what, wrong.what()));
    } catch (const std::invalid_argument& wrong) {
        throw std::invalid_argument(fmt::format("{} cannot be read: {}", what, wrong.what()));
    }
}

} // namespace

Measurement measurementFromJson(const json& document) {
    return readOrExplain("The measurement document", [&] { return readMeasurement(document); });
}

PlaneMapping mappingFromJson(const json& document) {
    return readOrExplain("The card's mapping", [&] { return readMapping(document); });
}

} // namespace swarfbook
