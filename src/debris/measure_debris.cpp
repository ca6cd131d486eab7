// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/measure_debris.h"

#include "debris/contrast.h"
#include "debris/glint.h"
#include "debris/photo_trust.h"
#include "particles/count.h"
#include "particles/shape.h"
#include "particles/size_classes.h"
#include "particles/type_evidence.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

namespace swarfbook {
namespace {

constexpr double outlinePixels =
    0.35; // of a sub-pixel contour's two ends; computed on discs drawn in pixels: 0.2 to 0.4 px
constexpr double mostlyExplained =
    0.5; // the clean reference explains half of what stands out of a candidate
constexpr double mostlyBlue = 0.3; // a piece of sealant with a flake on it counts as sealant; ours
constexpr double leastMeasured = 0.6; // of the window; below it the photo is refused for glare

double lengthUncertainty(const CalibratedPhoto& photo, double length, double relative) {
    const double outline = outlinePixels / photo.trueScale().value();
    const double scale = std::hypot(photo.card.scaleUPercent / 100.0,
                                    photo.printScale.standardUncertainty / photo.printScale.value);
    return std::hypot(outline, length * std::hypot(relative, scale));
}

void keepInside(WindowCrop& crop, const cv::Mat& excluded) {
    crop.inside = crop.inside.clone();
    crop.inside.setTo(0, excluded);
}

/// A candidate that is debris.
struct FoundPiece {
    Candidate candidate;
    Particle particle;
    double unsureAround = 0.0; ///< of the network
    double light = 0.0;        ///< of its brightest part, over the card's white
};

/// Keeps the photo's evidence of the type, and that of both photos if there is a second.
void sayTypes(Particle& piece, const PieceOpinion& opinion,
              const std::optional<TypeInTwoLights>& inTwoLights, const PieceTrust& trust) {
    piece.said.photo = TypeSaid{opinion.type, opinion.typeProbability};
    if (!inTwoLights)
        return;
    piece.twoLights = inTwoLights->said;
    PieceOpinion both = opinion;
    trust.decideType(inTwoLights->logShares, both);
    piece.said.twoLights = TypeSaid{both.type, both.typeProbability};
}

double valueOf(const Features& features, Feature which) {
    return features[static_cast<std::size_t>(which)];
}

/// The candidates of which there are pieces; both are used up.
std::vector<FoundPiece> piecesFound(std::vector<Candidate>& candidates,
                                    std::vector<std::optional<Particle>>& particles,
                                    const std::vector<Features>& features) {
    std::vector<FoundPiece> found;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        if (particles[i])
            found.push_back({std::move(candidates[i]), std::move(*particles[i]),
                             valueOf(features[i], Feature::unsureAround),
                             valueOf(features[i], Feature::whiteHigh)});
    return found;
}

/// Debris of at least the smallest size that the photo resolves.
std::vector<FoundPiece> findDebris(const JudgedWindow& window, const DebrisModels& models,
                                   const std::optional<SecondLight>& second) {
    const CalibratedPhoto& photo = window.photo;
    const PieceTrust& trust = models.trust;
    std::vector<Candidate> candidates = findPieces(window.maps, window.crop, models.contacts);
    const auto features = featuresOf(window, candidates);
    const auto inTwoLights = second ? typesInTwoLights(window, *second, trust, candidates)
                                    : std::vector<std::optional<TypeInTwoLights>>{};
    const Millimetres smallest = seenFromOf(photo.sharpness, photo.trueScale());
    const auto debrisOf = [&](std::size_t i) -> std::optional<Particle> {
        const PieceOpinion opinion = trust.judge(features[i]);
        if (opinion.debris < trust.debrisThreshold())
            return std::nullopt;
        Particle p = particleFromOutline(photo, window.crop, candidates[i],
                                         trust.sizeCorrection(features[i]));
        if (p.maxFeret.value < smallest)
            return std::nullopt;
        p.debrisProbability = opinion.debris;
        if (blueShare(photo, window.crop, candidates[i]) > mostlyBlue)
            p.said.photo = TypeSaid{};
        else
            sayTypes(p, opinion, second ? inTwoLights[i] : std::nullopt, trust);
        decideType(p);
        const Glint glint = glintOf(photo, window.crop, candidates[i]);
        p.glint = glint.value;
        p.glintAtLeast = glint.atLeast;
        return p;
    };
    std::vector<std::optional<Particle>> particles(candidates.size());
    const auto measureSome = [&](const cv::Range& some) {
        for (auto i = static_cast<std::size_t>(some.start); i < static_cast<std::size_t>(some.end);
             ++i)
            particles[i] = debrisOf(i);
    };
    cv::parallel_for_(cv::Range(0, static_cast<int>(candidates.size())), measureSome);
    return piecesFound(candidates, particles, features);
}

/// Conditions for finding a piece: from the photo, the surface in its window and the pieces found.
SeeingConditions seeingConditions(const CalibratedPhoto& photo, double surfaceNoise,
                                  const std::vector<FoundPiece>& found) {
    SeeingConditions conditions{seenFromOf(photo.sharpness, photo.trueScale()), surfaceNoise};
    conditions.pieces = static_cast<int>(found.size());
    for (const FoundPiece& one : found)
        conditions.unsureAround += one.unsureAround / conditions.pieces;
    return conditions;
}

/// Why finds that are all alike are not counted.
std::optional<ShownOnly> shownAsSurface(const std::vector<FoundPiece>& found, bool onWhiteCard) {
    std::vector<SizeAndTone> finds;
    for (const FoundPiece& one : found)
        finds.push_back({one.particle.maxFeret.value, one.light});
    return shownAsSurface(finds, onWhiteCard);
}

/// Takes away what a photo of the cleaned surface shows as well. @return how many
int takeAwayKnown(std::vector<FoundPiece>& found, const WindowCrop& crop,
                  const CleanReferencePicture& reference) {
    const ContrastField field = contrastField(crop);
    const CleanReferenceSurface surface = surfaceByCleanReference(crop, field, reference);
    return static_cast<int>(std::erase_if(found, [&](const FoundPiece& one) {
        return shareExplained(one.candidate, field, surface) > mostlyExplained;
    }));
}

/// Largest first, numbered from 1.
void numberBySize(std::vector<Particle>& particles) {
    std::sort(particles.begin(), particles.end(), [](const Particle& a, const Particle& b) {
        return a.maxFeret.value > b.maxFeret.value;
    });
    int id = 0;
    for (Particle& p : particles)
        p.id = ++id;
}

} // namespace

DebrisModels DebrisModels::load(const std::filesystem::path& folder) {
    return {PieceNetwork::load(folder / "pieces.onnx"),
            ContactTrust::load(folder / "contact-trust.json"),
            PieceTrust::load(folder / "piece-trust.json"),
            DetectionModel::load(folder / "detection.json")};
}

CalibratedPhoto underFrame(CalibratedPhoto photo) {
    constexpr double cardStock = 0.35; // mm: heavy card, or paper glued on card; common practice,
                                       // no source. Seen from 30 degrees 0.1 mm more moves a piece
                                       // by 0.06 mm and changes no length by a permille.
    photo.surface =
        mappingBelow(photo.card.mapping, Millimetres(cardStock / photo.printScale.value));
    return photo;
}

Result<PreparedWindow> prepareWindow(const CalibratedPhoto& photo, bool onWhiteCard) {
    // A printed line is 0.2 mm wide; a cut edge has the paper's thickness and its shadow.
    PreparedWindow window;
    window.crop = cropWindow(photo, Millimetres(onWhiteCard ? 0.25 : 0.4));
    window.windowArea = insideArea(photo, window.crop);
    window.leftOut = leaveOutGlare(photo, window.crop, onWhiteCard);
    const double unglared = insideArea(photo, window.crop) / window.windowArea;
    if (unglared < leastMeasured)
        return Refusal{RefusalReason::glare,
                       fmt::format("A lamp is mirrored over {:.0f} % of the window.",
                                   100.0 * (1.0 - unglared)),
                       "Move the lamp or the phone until nothing shines back from the window, use "
                       "matte paper for the card, and take the photo again."};
    auto dark = leaveOutDeepShadow(photo, window.crop);
    std::move(dark.begin(), dark.end(), std::back_inserter(window.leftOut));
    window.measuredArea = insideArea(photo, window.crop);
    const double left = window.measuredArea / window.windowArea;
    if (left < leastMeasured)
        return Refusal{RefusalReason::tooDark,
                       fmt::format("{:.0f} % of the window lies in deep shadow or glare.",
                                   100.0 * (1.0 - left)),
                       "Light the whole window, keep your own shadow off it, and take the photo "
                       "again."};
    return window;
}

Particle particleFromOutline(const CalibratedPhoto& photo, const WindowCrop& crop,
                             const Candidate& candidate, const SizeCorrection& correction) {
    Particle p;
    for (const auto& point : candidate.outline)
        p.outline.push_back(photo.trueFromPhoto(crop.inPhoto(point)));
    const Shape shape = measureShape(p.outline);
    p.centre = {shape.centroid.x, shape.centroid.y};
    const double longest = shape.maxFeret * correction.factor;
    const double relativeU = correction.relativeUncertainty;
    p.maxFeret = {Millimetres(longest), Millimetres(lengthUncertainty(photo, longest, relativeU))};
    p.minFeret = {Millimetres(shape.minFeret),
                  Millimetres(lengthUncertainty(photo, shape.minFeret, relativeU))};
    const double relative = std::hypot(p.maxFeret.standardUncertainty / p.maxFeret.value,
                                       p.minFeret.standardUncertainty / p.minFeret.value);
    p.area = {SquareMillimetres(shape.area), SquareMillimetres(shape.area * relative)};
    p.length = Millimetres(std::max(shape.length, longest));
    p.sizeClass = sizeClassOf(toMicrometres(p.maxFeret.value));
    p.atEdge = candidate.atEdge;
    p.mayBeSeveral = candidate.mayBeSeveral;
    return p;
}

DebrisFinding measureDebris(const CalibratedPhoto& photo, const PreparedWindow& window,
                            const DebrisModels& models, const DebrisOptions& options) {
    WindowCrop crop = window.crop;
    if (!options.excluded.empty())
        keepInside(crop, options.excluded);
    DebrisFinding finding;
    finding.onWhiteCard = options.onWhiteCard;
    finding.windowArea = toSquareCentimetres(window.windowArea);
    finding.measuredArea = toSquareCentimetres(options.excluded.empty() ? window.measuredArea
                                                                        : insideArea(photo, crop));
    finding.leftOut = window.leftOut;
    const PieceMaps maps =
        options.secondLight ? options.secondLight->together : models.pieces.judge(photo, crop);
    const double noise = surfaceNoise(crop);
    std::vector<FoundPiece> found =
        findDebris({photo, crop, maps, noise}, models, options.secondLight);
    if (options.cleanReference)
        finding.alsoOnCleanReference = takeAwayKnown(found, crop, *options.cleanReference);
    const SeeingConditions conditions = seeingConditions(photo, noise, found);
    finding.resolutionLimit = conditions.resolutionLimit;
    finding.detectionLimit = models.detection.detectionLimit(conditions);
    finding.shownOnly = shownAsSurface(found, options.onWhiteCard);
    for (FoundPiece& one : found)
        finding.particles.push_back(std::move(one.particle));
    numberBySize(finding.particles);
    if (!finding.shownOnly)
        finding.shownOnly = shownOnly(
            expectedAgreement(finding.particles, models.detection, conditions, photo.trueScale()),
            models.detection, options.onWhiteCard);
    if (finding.shownOnly)
        return finding;
    const CardRect& w = photo.card.layout.window;
    const double scale = photo.printScale.value;
    countAnew(finding, {Millimetres(w.width * scale), Millimetres(w.height * scale)});
    return finding;
}

} // namespace swarfbook
