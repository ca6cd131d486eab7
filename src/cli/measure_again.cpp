// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/measure_again.h"

#include "base/errors.h"
#include "cli/command.h"
#include "cli/finding_changes.h"
#include "cli/progress.h"
#include "entry/finding_words.h"
#include "entry/measured_again.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook::cli {
namespace {

/// Stores the finding unless something speaks against it. @return the line that says so.
std::string stored(Book& book, const MeasuredAgain& one, int& code) {
    const std::string start =
        fmt::format("{}: place {}: ", one.photo.fileName, placeWord(one.photo.place));
    const KeptAgain became = keepMeasuredAgain(book, one);
    if (became == KeptAgain::lost) {
        code = failed;
        return fmt::format("{}not measured again. {}\n", start, one.lost);
    }
    if (became == KeptAgain::moved) {
        code = std::max<int>(code, refused);
        return start + "it was moved while it was measured, so nothing was kept. Measure the visit "
                       "that it is in now.\n";
    }
    if (one.finding->refusal)
        code = std::max<int>(code, refused);
    std::string text =
        fmt::format("{}{}{}\n", start, findingInFull(*one.finding),
                    became == KeptAgain::worse ? " The finding from before still counts." : "");
    if (became == KeptAgain::worse)
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
        all.push_back(measuredAgain(book, data, seconds, photo));
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
