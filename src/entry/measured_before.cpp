// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/measured_before.h"

namespace swarfbook {

std::shared_ptr<const PhotoFile>
KeptSecondPhotos::photo(const std::optional<FindingOptions::SecondPhoto>& second) {
    if (!second)
        return nullptr;
    auto& one = photos_[{second->sha256, second->file}];
    if (!one)
        one = std::make_shared<const PhotoFile>(
            photoFrom(book_.originalBytes(second->sha256), second->file));
    return one;
}

HowMeasured howMeasuredBefore(KeptSecondPhotos& seconds, const StoredPhoto& photo) {
    const FindingOptions options = findingOptionsFrom(photo.options).value_or(FindingOptions());
    HowMeasured how;
    how.place = photo.place; // which may have been put right since
    how.visit = photo.visitId;
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

} // namespace swarfbook
