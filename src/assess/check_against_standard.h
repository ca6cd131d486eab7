// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/assess.h"
#include "gauge/check_standard.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// What one photo says of a thing of known size. `refusal`: the photo cannot be measured.
/// `notRead`: it can, but the thing was not read. Else `reading` and `conformity` are there.
struct StandardCheck {
    PhotoFacts photo;
    CheckStandard thing;
    std::optional<Refusal> refusal;
    std::optional<CardFacts> card;
    std::vector<std::string> cautions; ///< what to mind in this photo
    std::optional<StandardNotRead> notRead;
    std::optional<StandardReading> reading;
    std::optional<Conformity> conformity;
};

/// Reads the thing of known size in a photo; of `options` the card's bar, its serial and whether
/// its window is cut out are used. Never throws for a bad photo. Checked:
/// tests/cli/check_test.cpp.
StandardCheck checkAgainstStandard(const PhotoFile& read, const CheckStandard& thing,
                                   const AssessData& data, const AssessOptions& options);
/// The same from an already decoded photo.
StandardCheck checkAgainstStandard(const Photo& photo, const CheckStandard& thing,
                                   const AssessData& data, const AssessOptions& options);

} // namespace swarfbook
