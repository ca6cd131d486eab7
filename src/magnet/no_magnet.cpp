// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/no_magnet.h"

#include "particles/magnet_finding.h"

#include <fmt/format.h>

namespace swarfbook {

NoMagnet nothingThere() {
    return {
        fmt::format("No magnet was found: nothing dark of at least {:.0f} mm across lies in the "
                    "card's window.",
                    smallestMagnet.value()),
        "Lay the magnet, fuzz up, into the middle of the card's white window, or give another "
        "place if this photo shows none."};
}

NoMagnet outOfSight() {
    return {"The magnet reaches out of the card's window into the print round it, so its rim "
            "cannot be followed.",
            "Lay the magnet into the middle of the window; take the larger card for a larger "
            "magnet."};
}

} // namespace swarfbook
