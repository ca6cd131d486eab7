// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/blank_photo.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

std::string sentences(const Refusal& refusal) {
    return refusal.detail + " " + refusal.advice;
}

/// The blank's scale is that of the card in the photo: both show the same one.
Result<CalibratedPhoto> calibrated(const Photo& blank, const PhotoForBlank& measured,
                                   const std::vector<CardLayout>& layouts) {
    auto photo = calibratePhoto(blank, layouts, std::nullopt);
    if (!photo)
        return photo;
    photo->printScale = measured.photo.printScale;
    return measured.isPad ? *photo : underFrame(*photo);
}

double shareOf(const cv::Mat& part, const cv::Mat& whole) {
    const int all = cv::countNonZero(whole);
    return all > 0 ? static_cast<double>(cv::countNonZero(part & whole)) / all : 0.0;
}

std::optional<BlankPicture> lay(BlankUse& use, const Photo& photo, const PhotoForBlank& measured,
                                const std::vector<CardLayout>& layouts) {
    const auto blank = calibrated(photo, measured, layouts);
    if (!blank) {
        use.whyNot = sentences(blank.error());
        return std::nullopt;
    }
    if (blank->card.layout.name != measured.photo.card.layout.name) {
        use.whyNot = fmt::format("It shows a {} card and the photo a {} one. Use the same card for "
                                 "both.",
                                 blank->card.layout.name, measured.photo.card.layout.name);
        return std::nullopt;
    }
    const auto window = prepareWindow(*blank, measured.isPad);
    if (!window) {
        use.whyNot = sentences(window.error());
        return std::nullopt;
    }
    const SurfacePhoto seen{measured.photo, measured.window}, clean{*blank, *window};
    const auto fitted = fitBlank(seen, clean, measured.isPad);
    if (const auto* misfit = std::get_if<BlankMisfit>(&fitted)) {
        use.whyNot = misfit->detail + " " + misfit->advice;
        return std::nullopt;
    }
    const auto& fit = std::get<BlankFit>(fitted);
    BlankPicture picture = blankUnder(seen, clean, fit);
    use.used = true;
    use.byTexture = fit.byTexture;
    use.likeness = fit.likeness;
    use.shift = fit.shift;
    use.turn = fit.turn;
    use.coveredShare = shareOf(picture.covered, measured.window.crop.inside);
    return picture;
}

} // namespace

std::pair<BlankUse, std::optional<BlankPicture>> layBlank(const PhotoFile& blank,
                                                          const PhotoForBlank& measured,
                                                          const std::vector<CardLayout>& layouts) {
    BlankUse use;
    use.file = blank.file;
    use.sha256 = blank.sha256;
    std::optional<BlankPicture> picture;
    if (!blank.photo)
        use.whyNot = sentences(blank.photo.error());
    else if (!blank.sha256.empty() && blank.sha256 == measured.sha256)
        use.whyNot = "It is the very photo that is measured. Give a photo of the place taken after "
                     "cleaning.";
    else
        picture = lay(use, *blank.photo, measured, layouts);
    return {std::move(use), std::move(picture)};
}

std::string blankCaution(const BlankUse& use) {
    if (use.used)
        return "";
    return fmt::format("The photo of the cleaned place, {}, was not used, so marks of the surface "
                       "may be among the finds: {}",
                       use.file, use.whyNot);
}

} // namespace swarfbook
