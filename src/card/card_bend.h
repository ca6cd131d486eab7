// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

namespace swarfbook {

/// How far the card is from flat, judged by the pattern of the edges' offsets.
struct CardBend {
    Millimetres rise;  ///< upper bound of the height range over the window; if a lens hides the
                       ///< opposite bend, the true range is half
    Millimetres riseU; ///< its standard uncertainty
    bool bent = false; ///< surely more than paper that lies flat may bend
};

} // namespace swarfbook
