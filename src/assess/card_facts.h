// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "card/calibrated_photo.h"

#include <string>

namespace swarfbook {

/// What the measurement document says of the card in a photo; `serial` "" when not given.
CardFacts cardFactsOf(const CalibratedPhoto& photo, const std::string& serial);

} // namespace swarfbook
