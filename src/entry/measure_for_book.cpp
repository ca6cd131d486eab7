// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/measure_for_book.h"

#include "assess/after_magnet.h"
#include "base/errors.h"
#include "entry/card_in_photo.h"
#include "entry/known_magnet.h"
#include "record/entry_text.h"
#include "record/finding_options.h"

#include <fmt/format.h>

#include <utility>

namespace swarfbook {

std::string programVersion() {
    return SWARFBOOK_VERSION;
}

AssessOptions assessOptions(const Book& book, const HowMeasured& how) {
    AssessOptions options;
    options.place = how.place;
    options.basis = how.basis;
    options.serial = how.serial;
    options.cleanReference = how.cleanReference;
    options.secondLight = how.secondLight;
    options.barOfCard = barsOf(book);
    if (how.visit && how.place == Place::magnet)
        options.magnet = knownMagnetOf(book, *how.visit);
    const auto card = how.serial.empty() ? std::nullopt : book.card(how.serial);
    if (card)
        options.serial = card->serial;
    if (how.typedBarMm)
        options.measuredBar = Millimetres(*how.typedBarMm);
    if (how.serial.empty() || how.typedBarMm)
        return options;
    if (!card)
        throw UsageError(fmt::format(
            "There is no card {0} in the book, so its true scale is not known. Check the number "
            "printed on it; give its check bar with --measured-bar MM; or keep it in the book "
            "with: swarfbook card --layout close --serial {0} --measured-bar MM.",
            how.serial));
    if (card->measuredBarMm)
        options.measuredBar = Millimetres(*card->measuredBarMm);
    return options;
}

std::shared_ptr<const PhotoFile> typedCleanReference(PhotoFile file) {
    auto cleanReference = std::make_shared<const PhotoFile>(std::move(file));
    if (!cleanReference->photo)
        throw EvidenceRefused(fmt::format("The photo of the cleaned place cannot be used, so "
                                          "nothing was measured. {} {}",
                                          cleanReference->photo.error().detail,
                                          cleanReference->photo.error().advice));
    return cleanReference;
}

namespace {

/// A second file that is not a photo is refused before anything is measured.
std::shared_ptr<const PhotoFile> usablePhoto(PhotoFile file, const char* what) {
    if (!file.photo)
        throw EvidenceRefused(fmt::format("The photo {} cannot be used, so nothing was measured. "
                                          "{} {}",
                                          what, file.photo.error().detail,
                                          file.photo.error().advice));
    return std::make_shared<const PhotoFile>(std::move(file));
}

} // namespace

std::shared_ptr<const PhotoFile> typedAfterMagnet(PhotoFile file) {
    return usablePhoto(std::move(file), "after the magnet");
}

std::shared_ptr<const PhotoFile> typedSecondLight(PhotoFile file) {
    return usablePhoto(std::move(file), "in a second light");
}

void requireFitting(const SecondPhotosGiven& given, Place place) {
    if (given.afterMagnet && place == Place::magnet)
        throw UsageError("The fuzz on a magnet is magnetic: a photo after a magnet goes with "
                         "debris of another place.");
    if (given.secondLight && place == Place::magnet)
        throw UsageError("The fuzz on a magnet is measured in one light: a photo in a second light "
                         "goes with debris of another place.");
    if (given.secondLight && given.afterMagnet)
        throw UsageError("The photos before and after a magnet are measured alike: give a photo "
                         "after the magnet or one in a second light, not both.");
}

bool keepsCleanReference(const HowMeasured& how) {
    return how.cleanReference && how.cleanReference->photo;
}

bool isMeasuredOtherwise(const Measurement& known, const HowMeasured& how) {
    if (known.refusal)
        return false;
    const bool otherCleaned =
        keepsCleanReference(how) &&
        (!known.cleanReference || known.cleanReference->sha256 != how.cleanReference->sha256);
    const bool otherMagnet = how.afterMagnet && (!known.afterMagnet || known.afterMagnet->sha256 !=
                                                                           how.afterMagnet->sha256);
    const bool otherLight = how.secondLight && (!known.secondLight || known.secondLight->sha256 !=
                                                                          how.secondLight->sha256);
    const bool otherBasis = !how.basis.isEmpty() && !(known.basis == how.basis);
    return otherCleaned || otherMagnet || otherLight || otherBasis;
}

std::string optionsText(const HowMeasured& how, const AssessOptions& used) {
    FindingOptions options;
    options.place = how.place;
    options.basis = how.basis;
    options.serial = how.serial;
    if (keepsCleanReference(how))
        options.cleanReference = FindingOptions::SecondPhoto{
            how.cleanReference->sha256, readableText(how.cleanReference->file)};
    if (how.afterMagnet)
        options.afterMagnet = FindingOptions::SecondPhoto{how.afterMagnet->sha256,
                                                          readableText(how.afterMagnet->file)};
    if (how.secondLight)
        options.secondLight = FindingOptions::SecondPhoto{how.secondLight->sha256,
                                                          readableText(how.secondLight->file)};
    options.typedBarMm = how.typedBarMm;
    if (used.measuredBar)
        options.measuredBarMm = used.measuredBar->value();
    return textOf(options);
}

Measurement measureForBook(const Book& book, PhotoFile file, const AssessData& data,
                           const HowMeasured& how) {
    const std::string name = file.file;
    const AssessOptions options = assessOptions(book, how);
    const auto card = how.serial.empty() ? std::nullopt : book.card(how.serial);
    std::optional<Measurement> measurement;
    try {
        measurement = assessPhoto(std::move(file), data, options);
        if (how.afterMagnet)
            assessAfterMagnet(*measurement, PhotoFile(*how.afterMagnet), data, options);
    } catch (const UsageError&) {
        // The bar in the book suits its own card, so it is the photo that shows another one.
        if (!card || how.typedBarMm)
            throw;
    }
    const bool other =
        card && measurement && measurement->card && measurement->card->layout != card->layout;
    if (measurement && !other) {
        requireSameCard(name, measurement->card, options.serial);
        if (std::string caution = cardCaution(&book, measurement->card); !caution.empty())
            measurement->cautions.push_back(std::move(caution));
        return *measurement;
    }
    throw UsageError(fmt::format("{} shows {} card, and card {} is a {} one. Check the number "
                                 "printed on the card. Nothing was kept.",
                                 name, other ? "a " + measurement->card->layout : "another",
                                 card->serial, card->layout));
}

} // namespace swarfbook
