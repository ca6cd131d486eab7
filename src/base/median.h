// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace swarfbook {

/// The median. With an even number of values it is the mean of the two in the middle. There must be
/// at least one value. Checked: tests/base/median_test.cpp.
inline double medianOf(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

/// The median that is always one of the values: with an even number, the greater of the two in the
/// middle. Quicker for the many values of a picture. There must be at least one value.
inline double upperMedianOf(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

} // namespace swarfbook
