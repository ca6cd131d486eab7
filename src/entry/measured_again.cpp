// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/measured_again.h"

#include "assess/photo_file.h"

#include <utility>

namespace swarfbook {

MeasuredAgain measuredAgain(const Book& book, const AssessData& data, KeptSecondPhotos& seconds,
                            const StoredPhoto& photo) {
    try {
        const HowMeasured how = howMeasuredBefore(seconds, photo);
        Measurement now = measureForBook(
            book, photoFrom(book.originalBytes(photo.sha256), photo.fileName), data, how);
        now.photo.file = photo.fileName;
        return {photo, optionsText(how, assessOptions(book, how)), std::move(now), ""};
    } catch (const PhotoLost& lost) {
        return {photo, "", std::nullopt, lost.what()};
    }
}

KeptAgain keepMeasuredAgain(Book& book, const MeasuredAgain& again) {
    if (!again.finding)
        return KeptAgain::lost;
    const auto now = book.photoBySha256(again.photo.sha256);
    if (!now || now->visitId != again.photo.visitId || now->place != again.photo.place)
        return KeptAgain::moved;
    if (again.isWorse())
        return KeptAgain::worse;
    book.addFinding(again.photo.id, *again.finding, again.options, programVersion());
    return KeptAgain::kept;
}

} // namespace swarfbook
