// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/measure_again.h"

#include "base/errors.h"
#include "cli/command.h"
#include "cli/finding_changes.h"
#include "cli/progress.h"
#include "entry/finding_words.h"
#include "entry/measure_for_book.h"
#include "entry/measured_before.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace swarfbook::cli {
namespace {

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
        const HowMeasured how = howMeasuredBefore(by.seconds, photo);
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
