// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "card/calibrated_photo.h"

#include <string>

namespace swarfbook {

/// What the measurement document says about the card in a photo. The serial is the one in the
/// card's code, else `serial` as given; "" if there is neither.
CardFacts cardFactsOf(const CalibratedPhoto& photo, const std::string& serial);

/// The card's window in true millimetres, from the measurement's own grid.
/// Throws std::logic_error when the grid is not the 5 x 5 points of a measured photo.
CardRect windowOf(const CardFacts& card);

} // namespace swarfbook
