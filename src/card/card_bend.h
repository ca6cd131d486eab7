// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

namespace swarfbook {

/// How far the card is from flat, from the pattern of the edges' offsets.
struct CardBend {
    Millimetres rise;  ///< between the window's highest and lowest place, at most: half of it where
                       ///< the bend runs the other way, which a lens can hide
    Millimetres riseU; ///< its standard uncertainty
    bool bent = false; ///< more than paper lying flat may do, and surely so
};

} // namespace swarfbook
