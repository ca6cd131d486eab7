// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/photo_elsewhere.h"

#include "base/errors.h"
#include "record/finding_options.h"

#include <fmt/format.h>

#include <utility>

namespace swarfbook {
namespace {

/// The photo as the book will have it there.
StoredPhoto placedElsewhere(StoredPhoto photo, const PhotoBelongs& to) {
    FindingOptions options = findingOptionsFrom(photo.options).value_or(FindingOptions());
    options.place = to.place;
    options.basis = to.basis;
    photo.options = textOf(options);
    photo.visitId = to.visit;
    photo.place = to.place;
    return photo;
}

} // namespace

MeasuredAgain measuredElsewhere(const Book& book, const AssessData& data, KeptSecondPhotos& seconds,
                                const StoredPhoto& photo, const PhotoBelongs& to) {
    if (photo.visitId == to.visit && photo.place == to.place && photo.measurement.basis == to.basis)
        throw UsageError(fmt::format("The photo is at visit {}, place {}, already.", to.visit,
                                     placeWords(to.place, to.basis)));
    (void)book.visit(to.visit); // which has to be there before anything is measured
    return measuredAgain(book, data, seconds, placedElsewhere(photo, to));
}

void takeElsewhere(Book& book, const PhotoBelongs& to, const Measurement& finding,
                   const std::string& options) {
    BookTransaction transaction = book.begin();
    const std::string& sha256 = finding.photo.sha256;
    const auto now = book.photoBySha256(sha256);
    if (!now || now->visitId != to.visit || now->place != to.place)
        book.movePhoto(sha256, to.visit, to.place);
    book.addFinding(book.photoBySha256(sha256)->id, finding, options, programVersion());
    transaction.commit();
}

KeptAgain keepElsewhere(Book& book, const StoredPhoto& from, const MeasuredAgain& there) {
    if (!there.finding)
        return KeptAgain::lost;
    const auto now = book.photoBySha256(from.sha256);
    if (!now || now->visitId != from.visitId || now->place != from.place)
        return KeptAgain::moved;
    if (there.isWorse())
        return KeptAgain::worse;
    takeElsewhere(book, {there.photo.visitId, there.photo.place, there.finding->basis},
                  *there.finding, there.options);
    return KeptAgain::kept;
}

} // namespace swarfbook
