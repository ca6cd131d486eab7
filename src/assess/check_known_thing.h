// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/assess.h"
#include "gauge/known_thing.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// What one photo says of a thing of known size. `refusal`: the photo cannot be measured.
/// `noThing`: it can, but the thing was not read. Else `reading` and `agreement` are there.
struct ThingCheck {
    PhotoFacts photo;
    KnownThing thing;
    std::optional<Refusal> refusal;
    std::optional<CardFacts> card;
    std::vector<std::string> cautions; ///< what to mind in this photo
    std::optional<NoThing> noThing;
    std::optional<ThingReading> reading;
    std::optional<Agreement> agreement;
};

/// Reads the thing of known size in a photo; of `options` the card's bar, its serial and whether
/// its window is cut out are used. Never throws for a bad photo. Checked:
/// tests/cli/check_test.cpp.
ThingCheck checkKnownThing(const PhotoFile& read, const KnownThing& thing, const AssessData& data,
                           const AssessOptions& options);
/// The same from an already decoded photo.
ThingCheck checkKnownThing(const Photo& photo, const KnownThing& thing, const AssessData& data,
                           const AssessOptions& options);

} // namespace swarfbook
