// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/share_interval.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace swarfbook {

std::array<double, 2> shareInterval95(double hits, double trials) {
    if (!(trials > 0.0) || !(hits >= 0.0) || hits > trials)
        throw std::logic_error("a share needs trials, and no more hits than trials");
    constexpr double z = 1.959964; // of the normal distribution, two-sided 95 %
    const double share = hits / trials;
    const double middle = share + z * z / (2.0 * trials);
    const double half =
        z * std::sqrt(share * (1.0 - share) / trials + z * z / (4.0 * trials * trials));
    const double whole = 1.0 + z * z / trials;
    return {std::max(0.0, (middle - half) / whole), std::min(1.0, (middle + half) / whole)};
}

} // namespace swarfbook
