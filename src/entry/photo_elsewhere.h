// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "entry/measured_again.h"
#include "particles/sample_basis.h"

#include <cstdint>
#include <string>

/// A photo of the book that was added to the wrong visit or place.
namespace swarfbook {

/// Where a photo belongs, and what was said of its sample there.
struct PhotoBelongs {
    std::int64_t visit = 0;
    Place place = Place::pad;
    SampleBasis basis{};
};

/// Measures a photo as one of another visit or place: card, check bar and second photos are those
/// of before; the photos after a magnet and in a second light do not go to a magnet. Keeps nothing.
/// UsageError where it belongs there already.
MeasuredAgain measuredElsewhere(const Book& book, const AssessData& data, KeptSecondPhotos& seconds,
                                const StoredPhoto& photo, const PhotoBelongs& to);

/// Takes a photo over to that visit and place, with what was measured for it there: both or
/// neither. What the book said before is kept as a correction.
/// @param options  as optionsText() gives them.
/// Checked: tests/cli/book_test.cpp, tests/web/photo_elsewhere_test.cpp.
void takeElsewhere(Book& book, const PhotoBelongs& to, const Measurement& finding,
                   const std::string& options);

/// The same with what measuredElsewhere() gave for `from`, unless something speaks against it;
/// `moved` where the photo is no longer where `from` says.
KeptAgain keepElsewhere(Book& book, const StoredPhoto& from, const MeasuredAgain& there);

} // namespace swarfbook
