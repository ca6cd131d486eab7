// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "card/calibrated_photo.h"

#include <string>

namespace swarfbook {

/// What the measurement document says of the card in a photo. Its serial is what the card's own
/// code says, else `serial` as it was given, "" when not.
CardFacts cardFactsOf(const CalibratedPhoto& photo, const std::string& serial);

} // namespace swarfbook
