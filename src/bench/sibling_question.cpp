// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/sibling_question.h"

#include "base/errors.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

constexpr double apartWithinKind = 3.0, apartOtherwise = 8.0;

std::vector<double> ohmsOfOthers(const SolenoidReadings& reading,
                                 const std::vector<Observation>& others) {
    std::vector<double> ohms;
    for (const Observation& other : others) {
        const auto* s = std::get_if<SolenoidReadings>(&other);
        if (s != nullptr && s->name != reading.name && s->type == reading.type && s->resistance)
            ohms.push_back(s->resistance->value.value());
    }
    std::sort(ohms.begin(), ohms.end());
    return ohms;
}

} // namespace

void questionAgainstSiblings(const SolenoidReadings& reading,
                             const std::vector<Observation>& others) {
    if (!reading.resistance)
        return;
    const std::vector<double> ohms = ohmsOfOthers(reading, others);
    if (ohms.empty())
        return;
    const double median = ohms[ohms.size() / 2], own = reading.resistance->value.value();
    const double apart = reading.type == SolenoidKind::notSaid ? apartOtherwise : apartWithinKind;
    if (own <= median * apart && own >= median / apart)
        return;
    throw UsageError(
        fmt::format("{} for solenoid {}, where the others read about {:g} ohm: check the "
                    "digits and the meter's range. If it is really so, type the same "
                    "again with --sure.",
                    reading.resistance->typed, reading.name, median));
}

} // namespace swarfbook
