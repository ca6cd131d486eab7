// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/flush_kept.h"

#include "base/errors.h"
#include "bench/unit_names.h"
#include "entry/keep_observation.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

void requireSameLayout(const Book& book, const StoredFlush& flush, const Measurement& pass) {
    for (const StoredPass& earlier : flush.passes) {
        const auto card = book.photo(earlier.photoId).measurement.card;
        if (card && pass.card && card->layout != pass.card->layout)
            throw UsageError(fmt::format("The photo shows a {} card, and the passes before a {} "
                                         "one: the card's window is a part of the tray, so use the "
                                         "same card for every pass. Nothing was kept.",
                                         pass.card->layout, card->layout));
    }
}

void refuseSecondBeginning(const Book& book, const NewFlush& begun) {
    for (const StoredFlush& flush : book.flushes(begun.visitId))
        if (flush.part == begun.part && flush.passes.empty())
            throw UsageError(fmt::format("Flush {0} of {1} has no pass yet. Add its first one: "
                                         "swarfbook flush add --flush {0} --step wash TRAY.jpg.",
                                         flush.id, flush.part));
}

} // namespace

std::string partToFlush(const Book& book, const Visit& visit, const std::string& typed, Sure sure) {
    const UnitAtHand unit = unitOfVisit(book, visit);
    return sure == Sure::meant || !unit.chart ? typed : partOfUnit(typed, unitNamesOf(*unit.chart));
}

void requireCounted(const Measurement& tray, std::string_view what) {
    if (tray.refusal)
        throw EvidenceRefused(fmt::format("{} cannot be measured, so nothing was kept. {} {}", what,
                                          tray.refusal->detail, tray.refusal->advice));
    if (tray.debris->shownOnly)
        throw EvidenceRefused(fmt::format("{} shows pieces that cannot be counted, so nothing was "
                                          "kept. {} {}",
                                          what, tray.debris->shownOnly->why,
                                          tray.debris->shownOnly->advice));
}

StoredFlush beginFlush(Book& book, NewFlush begun, const PhotoGiven& tray) {
    BookTransaction transaction = book.begin();
    if (begun.tray)
        begun.traySha256 = book.keepCleanReference(tray.file, tray.bytes);
    else
        refuseSecondBeginning(book, begun);
    const StoredFlush flush = book.startFlush(begun);
    transaction.commit();
    return flush;
}

std::shared_ptr<const PhotoFile> cleanTrayOf(const Book& book, const StoredFlush& flush) {
    return flush.traySha256.empty()
               ? nullptr
               : typedCleanReference(photoFrom(book.originalBytes(flush.traySha256), "clean tray"));
}

std::optional<StoredPhoto> measuredForFlush(const Book& book, const std::string& sha256,
                                            const StoredFlush& flush) {
    auto photo = book.photoBySha256(sha256);
    const bool asBefore = photo && photo->visitId == flush.visitId && photo->place == Place::tray &&
                          !photo->measurement.refusal &&
                          (flush.traySha256.empty() ||
                           (photo->measurement.cleanReference &&
                            photo->measurement.cleanReference->sha256 == flush.traySha256));
    return asBefore ? photo : std::nullopt;
}

StoredPhoto keepPass(Book& book, const StoredFlush& flush, const PhotoGiven& photo,
                     const PassToKeep& pass) {
    const AssessOptions options = assessOptions(book, pass.how);
    BookTransaction transaction = book.begin();
    const StoredFlush now = book.flush(flush.id); // another pass may have come meanwhile
    requireSameLayout(book, now, pass.found);
    const NewPhoto kept{
        now.visitId,
        Place::tray,
        photo.file,
        fmt::format("flush {} of {}, pass {}", now.id, now.part, now.passes.size() + 1),
        optionsText(pass.how, options),
        programVersion()};
    const PhotoAdded added = book.addPhoto(kept, photo.bytes, pass.found);
    if (added.alreadyThere && !pass.measuredBefore)
        book.addFinding(added.photo.id, pass.found, kept.options, kept.programVersion);
    book.addFlushPass(now.id, added.photo.id, pass.step);
    transaction.commit();
    return added.photo;
}

} // namespace swarfbook
