// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/clean_reference.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

std::string sentences(const Refusal& refusal) {
    return refusal.detail + " " + refusal.advice;
}

/// The clean reference has the scale of the card in the photo, since both show the same card.
Result<CalibratedPhoto> calibrated(const Photo& cleanReference,
                                   const PhotoForCleanReference& measured,
                                   const std::vector<CardLayout>& layouts) {
    auto photo = calibratePhoto(cleanReference, layouts, std::nullopt);
    if (!photo)
        return photo;
    photo->printScale = measured.photo.printScale;
    return measured.onWhiteCard ? *photo : underFrame(*photo);
}

double shareOf(const cv::Mat& part, const cv::Mat& whole) {
    const int all = cv::countNonZero(whole);
    return all > 0 ? static_cast<double>(cv::countNonZero(part & whole)) / all : 0.0;
}

std::optional<CleanReferencePicture> lay(CleanReferenceUse& use, const Photo& photo,
                                         const PhotoForCleanReference& measured,
                                         const std::vector<CardLayout>& layouts) {
    const auto cleanReference = calibrated(photo, measured, layouts);
    if (!cleanReference) {
        use.whyNot = sentences(cleanReference.error());
        return std::nullopt;
    }
    if (cleanReference->card.layout.name != measured.photo.card.layout.name) {
        use.whyNot = fmt::format("It shows a {} card and the photo a {} one. Use the same card for "
                                 "both.",
                                 cleanReference->card.layout.name, measured.photo.card.layout.name);
        return std::nullopt;
    }
    const auto window = prepareWindow(*cleanReference, measured.onWhiteCard);
    if (!window) {
        use.whyNot = sentences(window.error());
        return std::nullopt;
    }
    const SurfacePhoto seen{measured.photo, measured.window}, clean{*cleanReference, *window};
    const auto fitted = fitCleanReference(seen, clean, measured.onWhiteCard);
    if (const auto* misfit = std::get_if<CleanReferenceMisfit>(&fitted)) {
        use.whyNot = misfit->detail + " " + misfit->advice;
        return std::nullopt;
    }
    const auto& fit = std::get<CleanReferenceFit>(fitted);
    CleanReferencePicture picture = cleanReferenceUnder(seen, clean, fit);
    use.used = true;
    use.byTexture = fit.byTexture;
    use.likeness = fit.likeness;
    use.shift = fit.shift;
    use.turn = fit.turn;
    use.coveredShare = shareOf(picture.covered, measured.window.crop.inside);
    return picture;
}

} // namespace

std::pair<CleanReferenceUse, std::optional<CleanReferencePicture>>
layCleanReference(const PhotoFile& cleanReference, const PhotoForCleanReference& measured,
                  const std::vector<CardLayout>& layouts) {
    CleanReferenceUse use;
    use.file = cleanReference.file;
    use.sha256 = cleanReference.sha256;
    std::optional<CleanReferencePicture> picture;
    if (!cleanReference.photo)
        use.whyNot = sentences(cleanReference.photo.error());
    else if (!cleanReference.sha256.empty() && cleanReference.sha256 == measured.sha256)
        use.whyNot = "It is the same photo. Give a photo of the place taken after "
                     "cleaning.";
    else
        picture = lay(use, *cleanReference.photo, measured, layouts);
    return {std::move(use), std::move(picture)};
}

std::string cleanReferenceCaution(const CleanReferenceUse& use) {
    if (use.used)
        return "";
    return fmt::format("The photo of the cleaned place, {}, was not used, so marks of the surface "
                       "may be among the finds: {}",
                       use.file, use.whyNot);
}

} // namespace swarfbook
