// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"
#include "particles/sample_basis.h"

#include <optional>
#include <string>
#include <string_view>

namespace swarfbook {

/// How a photo of the book was measured, as it is kept beside each finding (a JSON object).
struct FindingOptions {
    /// A second photo that it was measured with: of the cleaned place, or after a magnet.
    struct SecondPhoto {
        std::string sha256; ///< under which the book keeps it
        std::string file;   ///< as it was called when it was added
    };
    Place place = Place::pad;
    SampleBasis basis;                         ///< side and area of a filter, volume of fluid
    std::string serial;                        ///< of the card, "" when not given
    std::optional<SecondPhoto> cleanReference; ///< nothing when none was given
    std::optional<SecondPhoto> afterMagnet;    ///< the same
    std::optional<double> typedBarMm;          ///< the card's check bar, as typed with the photo
    std::optional<double> measuredBarMm;       ///< the check bar that was typed, or
                                               ///< the book's of the serial that was typed
};

std::string textOf(const FindingOptions& options);

/// Reads it back. What is not said, damaged or cannot be (a bar that is no length, a sum that is
/// none) counts as not given; nothing where the text is no JSON object.
/// Checked: tests/record/finding_options_test.cpp.
std::optional<FindingOptions> findingOptionsFrom(std::string_view text);

} // namespace swarfbook
