// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/measure_for_book.h"

#include "assess/after_magnet.h"
#include "base/errors.h"
#include "cli/book_output.h"
#include "cli/card_in_photo.h"
#include "cli/command.h"
#include "cli/finding_changes.h"
#include "cli/progress.h"
#include "record/entry_text.h"
#include "record/finding_options.h"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <map>
#include <utility>

namespace swarfbook::cli {

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

namespace {

/// The book's photos of cleaned places, after magnets and in a second light, each read when it is
/// first asked for.
class KeptSecondPhotos {
  public:
    explicit KeptSecondPhotos(const Book& book) : book_(book) {}

    /// Null where none was given. PhotoLost when the book has it no longer, or changed.
    std::shared_ptr<const PhotoFile>
    photo(const std::optional<FindingOptions::SecondPhoto>& second) {
        if (!second)
            return nullptr;
        auto& one = photos_[{second->sha256, second->file}];
        if (!one)
            one = std::make_shared<const PhotoFile>(
                photoFrom(book_.originalBytes(second->sha256), second->file));
        return one;
    }

  private:
    const Book& book_;
    std::map<std::pair<std::string, std::string>, std::shared_ptr<const PhotoFile>> photos_;
};

/// `how` as it was kept with the photo's finding.
HowMeasured howMeasured(KeptSecondPhotos& seconds, const StoredPhoto& photo) {
    const FindingOptions options = findingOptionsFrom(photo.options).value_or(FindingOptions());
    HowMeasured how;
    how.place = photo.place; // which may have been put right since
    how.basis = options.basis;
    how.serial = options.serial;
    how.typedBarMm = options.typedBarMm;
    how.cleanReference = seconds.photo(options.cleanReference);
    if (how.place == Place::magnet)
        return how;
    how.afterMagnet = seconds.photo(options.afterMagnet);
    how.secondLight = seconds.photo(options.secondLight);
    return how;
}

/// A photo measured again.
struct MeasuredAgain {
    StoredPhoto photo;
    std::string options;
    std::optional<Measurement> finding; ///< nothing where its original is lost
    std::string lost;                   ///< why
    [[nodiscard]] bool isWorse() const { return finding->refusal && !photo.measurement.refusal; }
};

/// What a visit is measured again by.
struct MeasuringTools {
    const AssessData& data;
    KeptSecondPhotos& seconds;
};

MeasuredAgain measuredAgain(const Book& book, const MeasuringTools& by, const StoredPhoto& photo) {
    try {
        const HowMeasured how = howMeasured(by.seconds, photo);
        Measurement now = measureForBook(
            book, photoFrom(book.originalBytes(photo.sha256), photo.fileName), by.data, how);
        now.photo.file = photo.fileName;
        return {photo, optionsText(how, assessOptions(book, how)), std::move(now), ""};
    } catch (const PhotoLost& lost) {
        return {photo, "", std::nullopt, lost.what()};
    }
}

/// Stores the finding unless something speaks against it. @return the line that says so.
std::string stored(Book& book, const MeasuredAgain& one, int& code) {
    const std::string start =
        fmt::format("{}: place {}: ", one.photo.fileName, placeWord(one.photo.place));
    if (!one.finding) {
        code = failed;
        return fmt::format("{}not measured again. {}\n", start, one.lost);
    }
    const auto now = book.photoBySha256(one.photo.sha256);
    if (!now || now->visitId != one.photo.visitId || now->place != one.photo.place) {
        code = std::max<int>(code, refused);
        return start + "it was moved while it was measured, so nothing was kept. Measure the visit "
                       "that it is in now.\n";
    }
    if (!one.isWorse())
        book.addFinding(one.photo.id, *one.finding, one.options, programVersion());
    if (one.finding->refusal)
        code = std::max<int>(code, refused);
    std::string text = fmt::format("{}{}{}\n", start, findingInFull(*one.finding),
                                   one.isWorse() ? " The finding from before still counts." : "");
    if (one.isWorse())
        return text;
    const auto photos = book.photos(one.photo.visitId);
    const auto kept = std::find_if(photos.begin(), photos.end(),
                                   [&](const StoredPhoto& p) { return p.id == one.photo.id; });
    if (kept == photos.end()) // withdrawn while it was measured
        return text;
    const auto changes = findingChanges(one.photo, *kept);
    for (const std::string& change : changes)
        text += "  " + change + "\n";
    return changes.empty() ? text + "  Nothing changed.\n" : text;
}

} // namespace

MeasuredVisit measureAgain(Book& book, std::int64_t visitId) {
    const std::vector<StoredPhoto> photos = book.photos(book.visit(visitId).id);
    if (photos.empty())
        throw EvidenceRefused(fmt::format("Visit {0} has no photos to measure. Add one with: "
                                          "swarfbook add --visit {0} PHOTO --place pan.",
                                          visitId));
    const AssessData data = loadAssessData();
    data.models.startLoading();
    KeptSecondPhotos seconds(book);
    std::vector<MeasuredAgain> all;
    Progress progress(photos.size());
    for (const StoredPhoto& photo : photos) {
        progress.next(photo.fileName);
        all.push_back(measuredAgain(book, {data, seconds}, photo));
    }
    progress.clear();
    MeasuredVisit visit{"", done};
    BookTransaction transaction = book.begin();
    for (const MeasuredAgain& one : all)
        visit.told += stored(book, one, visit.code);
    transaction.commit();
    return visit;
}

} // namespace swarfbook::cli
