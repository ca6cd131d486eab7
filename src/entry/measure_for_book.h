// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/assess.h"
#include "record/book.h"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace swarfbook {

/// How a photo of a visit is measured: what the user said of it, without the book's part.
struct HowMeasured {
    Place place = Place::pad;
    SampleBasis basis{};                 ///< side and area of a filter, volume of fluid
    std::optional<std::int64_t> visit{}; ///< whose magnets were typed in; nothing: of none
    std::string serial{};                ///< of the card, "" when not given
    std::optional<double> typedBarMm{};  ///< its check bar, as typed with the photo
    std::shared_ptr<const PhotoFile>
        cleanReference{}; ///< of the same place cleaned; null when not given
    std::shared_ptr<const PhotoFile>
        afterMagnet{}; ///< of the same place after a magnet; null when not given
    std::shared_ptr<const PhotoFile>
        secondLight{}; ///< of the same scene, the lamp moved; null when not given
};

/// What to hand to assess. Form and size of the visit's magnets come from the book, and so does the
/// card's check bar where it was not typed; where
/// no serial was typed either, by the serial that the card's own code says. The book must outlive
/// it. Throws UsageError when the card is not in the book and no bar was typed.
AssessOptions assessOptions(const Book& book, const HowMeasured& how);

/// The photo of the cleaned place that --blank names. EvidenceRefused when that is no photo:
/// without it the marks of the place would be taken for debris.
std::shared_ptr<const PhotoFile> typedCleanReference(PhotoFile file);

/// The photo that --after-magnet names. EvidenceRefused when the file is not a photo.
std::shared_ptr<const PhotoFile> typedAfterMagnet(PhotoFile file);
/// The photo that --second-light names. EvidenceRefused when the file is not a photo.
std::shared_ptr<const PhotoFile> typedSecondLight(PhotoFile file);

/// Which second photos a photo is measured with, beside one of the cleaned place.
struct SecondPhotosGiven {
    bool afterMagnet = false, secondLight = false;
};

/// UsageError where they do not go with the place or with each other: fuzz on a magnet is magnetic
/// and measured in one light, and the photos before and after a magnet are measured alike.
/// Checked: tests/cli/second_light_test.cpp, tests/web/upload_test.cpp.
void requireFitting(const SecondPhotosGiven& given, Place place);

/// Whether there is a clean reference that can be kept: one that is a photo.
bool keepsCleanReference(const HowMeasured& how);
/// Whether a photo of the book was measured with another second photo than is given now, or with
/// something else said of its sample.
bool isMeasuredOtherwise(const Measurement& known, const HowMeasured& how);

/// `how` as the JSON kept with a finding.
std::string optionsText(const HowMeasured& how, const AssessOptions& used);

/// Measures a photo. Throws UsageError when it shows another layout than the card of that serial
/// has, or when the code on the card says another serial.
Measurement measureForBook(const Book& book, PhotoFile file, const AssessData& data,
                           const HowMeasured& how);

/// The program's version, as kept with every finding.
std::string programVersion();

} // namespace swarfbook
