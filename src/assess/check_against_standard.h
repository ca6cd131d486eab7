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

/// Result of one photo of a thing of known size. `refusal`: the photo cannot be measured.
/// `notRead`: it can, but the thing was not read. Otherwise `reading` and `conformity` are set.
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

/// Reads the thing of known size in a photo. Uses from `options` the card's bar, its serial and
/// whether its window is cut out. Never throws for a bad photo. Checked: tests/cli/check_test.cpp.
StandardCheck checkAgainstStandard(const PhotoFile& read, const CheckStandard& thing,
                                   const AssessData& data, const AssessOptions& options);
/// The same from an already decoded photo.
StandardCheck checkAgainstStandard(const Photo& photo, const CheckStandard& thing,
                                   const AssessData& data, const AssessOptions& options);

} // namespace swarfbook
