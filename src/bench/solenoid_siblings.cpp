// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/solenoid_siblings.h"

#include "bench/solenoid_faults.h"

#include <algorithm>

namespace swarfbook {
namespace {

/// The median without one entry of this value; there must be at least two.
double medianWithout(const std::vector<double>& ascending, double own) {
    const auto at = static_cast<std::size_t>(
        std::lower_bound(ascending.begin(), ascending.end(), own) - ascending.begin());
    const auto other = [&](std::size_t i) { return ascending[i < at ? i : i + 1]; };
    const std::size_t others = ascending.size() - 1, middle = others / 2;
    return others % 2 == 1 ? other(middle) : 0.5 * (other(middle - 1) + other(middle));
}

} // namespace

void SiblingLeaks::count(const SolenoidReadings& s, int by) {
    for (std::size_t i = 0; i < states.size(); ++i) {
        tested_[i] += s.*states[i] != LeakSeen::notTested ? by : 0;
        sealing_[i] += s.*states[i] == LeakSeen::seals ? by : 0;
    }
}

bool SiblingLeaks::leaksMore(const SolenoidReadings& one) const {
    if (one.leakOff == LeakSeen::leaks && one.leakOn == LeakSeen::leaks)
        return true;
    for (std::size_t i = 0; i < states.size(); ++i)
        if (one.*states[i] == LeakSeen::leaks && tested_[i] > 1 && sealing_[i] == tested_[i] - 1)
            return true;
    return false;
}

std::optional<double> Siblings::percentOff(const SolenoidReadings& one) const {
    const auto own = coldAt20(one);
    if (!own || ohms.size() < 2)
        return std::nullopt;
    const double median = medianWithout(ohms, own->value());
    return median > 0.0 ? std::optional(100.0 * (own->value() / median - 1.0)) : std::nullopt;
}

std::map<SolenoidKind, Siblings> siblingsAmong(const std::vector<SolenoidReadings>& all) {
    std::map<SolenoidKind, Siblings> kinds;
    for (const SolenoidReadings& s : all) {
        Siblings& kind = kinds[s.type];
        kind.leaks.add(s);
        if (const auto at20 = coldAt20(s))
            kind.ohms.push_back(at20->value());
    }
    for (auto& [type, kind] : kinds)
        std::sort(kind.ohms.begin(), kind.ohms.end());
    return kinds;
}

} // namespace swarfbook
