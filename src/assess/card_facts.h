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

/// The card's window in true millimetres, from the measurement's own grid.
/// Throws std::logic_error when the grid is not the 5 x 5 points of a measured photo.
CardRect windowOf(const CardFacts& card);

} // namespace swarfbook
