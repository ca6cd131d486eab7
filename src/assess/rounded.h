// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <optional>
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

/// The same; null if the value is not known.
template <class Value>
nlohmann::ordered_json roundedOrNull(const std::optional<Value>& value, int decimals) {
    return value ? nlohmann::ordered_json(rounded(*value, decimals)) : nullptr;
}

} // namespace swarfbook
