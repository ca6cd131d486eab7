// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <cmath>
#include <stdexcept>

namespace swarfbook {

/// A number as it stands in our documents. Throws std::logic_error for one that is not finite.
inline double rounded(double value, int decimals) {
    if (!std::isfinite(value))
        throw std::logic_error("a measurement holds a number that is not finite");
    const double factor = std::pow(10.0, decimals);
    return std::round(value * factor) / factor;
}

template <class Tag> double rounded(Quantity<Tag> value, int decimals) {
    return rounded(value.value(), decimals);
}

} // namespace swarfbook
