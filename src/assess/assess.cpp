// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"

#include "assess/card_facts.h"
#include "assess/measurement_json.h"
#include "assess/second_light.h"
#include "card/calibrated_photo.h"
#include "debris/measure_debris.h"
#include "magnet/measure_magnet.h"
#include "magnet/window_look.h"
#include "particles/count.h"
#include "particles/size_sampling.h"

#include <cmath>
#include <utility>

namespace swarfbook {
namespace {

bool liesOnWhite(const AssessOptions& options) {
    if (options.windowCutOut)
        return !*options.windowCutOut;
    return options.place == Place::pad || options.place == Place::magnet ||
           options.place == Place::strained;
}

/// @return where there is no paper to find debris on
cv::Mat readMagnet(Measurement& m, const CalibratedPhoto& photo, const PreparedWindow& window,
                   const KnownMagnet& known) {
    auto search = measureMagnet(photo, window.crop, known);
    if (auto* reading = std::get_if<MagnetReading>(&search)) {
        m.magnet = std::move(reading->finding);
        for (std::string& caution : reading->cautions)
            m.cautions.push_back(std::move(caution));
        return reading->region;
    }
    const auto& none = std::get<NoMagnet>(search);
    m.magnetNote = none.detail + " " + none.advice;
    return {};
}

/// Asks about a window that does not look like the place that was given.
void askOfPlace(Measurement& m, const CalibratedPhoto& photo, bool saidWhite) {
    const WindowLook type = windowLookOf(photo);
    for (std::string& question :
         saidWhite ? whiteWindowQuestions(type) : cutWindowQuestions(type, m.place == Place::tray))
        m.cautions.push_back(std::move(question));
}

/// What a photo is measured with.
struct Tools {
    const std::vector<CardLayout>& layouts;
    const DebrisModels& models;
};

void layCleanReferenceUnder(Measurement& m, const PhotoForCleanReference& photo,
                            const AssessOptions& options,
                            std::pair<DebrisOptions&, const Tools&> debrisAndTools) {
    auto [use, picture] =
        layCleanReference(*options.cleanReference, photo, debrisAndTools.second.layouts);
    if (!use.used)
        m.cautions.push_back(cleanReferenceCaution(use));
    m.cleanReference = std::move(use);
    debrisAndTools.first.cleanReference = std::move(picture);
}

void addSecondLight(Measurement& m, const PhotoForCleanReference& photo,
                    const AssessOptions& options,
                    std::pair<DebrisOptions&, const Tools&> debrisAndTools) {
    const Tools& tools = debrisAndTools.second;
    auto [use, light] =
        laySecondLightUnder(*options.secondLight, photo, tools.layouts, tools.models.pieces);
    m.secondLight = std::move(use);
    debrisAndTools.first.secondLight = std::move(light);
}

void sayOfSecondLight(Measurement& m) {
    if (!m.secondLight)
        return;
    tellChange(*m.secondLight, *m.debris);
    if (std::string caution = secondLightCaution(*m.secondLight); !caution.empty())
        m.cautions.push_back(std::move(caution));
}

/// Rounds the size limit and the sizes as the document does, so that a photo read back from the
/// book has the same pieces above its size limit as when it was measured.
void roundAsKept(DebrisFinding& debris) {
    const double perMillimetre = std::pow(10.0, lengthDecimals);
    const auto kept = [&](Millimetres length) {
        return Millimetres(std::round(length.value() * perMillimetre) / perMillimetre);
    };
    debris.detectionLimit = kept(debris.detectionLimit);
    for (Particle& piece : debris.particles)
        piece.maxFeret.value = kept(piece.maxFeret.value);
}

void measureWindow(Measurement& m, const CalibratedPhoto& photo, const Tools& tools,
                   const AssessOptions& options) {
    DebrisOptions debris;
    debris.onWhiteCard = liesOnWhite(options);
    auto window = prepareWindow(photo, debris.onWhiteCard);
    if (!window) {
        m.refusal = window.error();
        return;
    }
    m.card = cardFactsOf(photo, options.serial);
    m.cautions = photo.cautions;
    m.edgeWidth = photo.sharpness.edgeWidth;
    m.edgeWidthOnCard = photo.sharpness.edgeWidth / photo.trueScale();
    for (EdgeWidths place : photo.sharpness.overWindow) {
        place.at = {place.at.x * photo.printScale.value, place.at.y * photo.printScale.value};
        m.edgesOverWindow.push_back(place);
    }
    if (m.place == Place::magnet)
        debris.excluded = readMagnet(m, photo, *window, options.magnet);
    else
        askOfPlace(m, photo, debris.onWhiteCard);
    if (options.cleanReference)
        layCleanReferenceUnder(m, {photo, *window, m.photo.sha256, debris.onWhiteCard}, options,
                               {debris, tools});
    if (options.secondLight && m.place != Place::magnet)
        addSecondLight(m, {photo, *window, m.photo.sha256, debris.onWhiteCard}, options,
                       {debris, tools});
    m.debris = measureDebris(photo, *window, tools.models, debris);
    sayOfSecondLight(m);
    roundAsKept(*m.debris);
    const std::span<const Particle> pieces(m.debris->particles); // largest first
    m.debris->sizeSampling =
        m.debris->shownOnly
            ? std::nullopt
            : sizeSampling(pieces.first(piecesFound(*m.debris).fromFloor), m.debris->onWhiteCard);
}

} // namespace

AssessData loadAssessData() {
    const auto folder = dataFolder();
    return {loadCardLayouts(folder / "calibration" / "reference-card.json"),
            ModelsOnDemand(folder / "models")};
}

Measurement assessPhoto(Photo photo, const AssessData& data, const AssessOptions& options) {
    data.models.startLoading();
    Measurement m;
    m.photo = photo.facts;
    m.place = options.place;
    m.basis = options.basis;
    auto calibrated =
        calibratePhoto(photo, data.layouts, KnownBars{options.measuredBar, options.barOfCard});
    photo.bgr.release();
    const DebrisModels& models = data.models.get();
    if (calibrated)
        measureWindow(
            m, liesOnWhite(options) ? std::move(*calibrated) : underFrame(std::move(*calibrated)),
            {data.layouts, models}, options);
    else
        m.refusal = calibrated.error();
    return m;
}

Measurement assessPhoto(PhotoFile file, const AssessData& data, const AssessOptions& options) {
    if (file.photo)
        return assessPhoto(std::move(*file.photo), data, options);
    Measurement m;
    m.photo.file = file.file;
    m.photo.sha256 = file.sha256;
    m.place = options.place;
    m.basis = options.basis;
    m.refusal = file.photo.error();
    return m;
}

Measurement assessPhotoFile(const std::filesystem::path& file, const AssessData& data,
                            const AssessOptions& options) {
    return assessPhoto(readPhoto(file), data, options);
}

} // namespace swarfbook
