// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/facts_by_chart.h"

#include "unit/unit_solenoids.h"

#include <algorithm>

namespace swarfbook {
namespace {

std::optional<Typed<Ohms>> byChart(std::optional<Ohms> limit) {
    return limit ? std::optional(Typed<Ohms>{*limit, "by the chart"}) : std::nullopt;
}

bool bandTyped(const std::vector<SolenoidReadings>& typed, const std::string& name) {
    return std::any_of(typed.begin(), typed.end(), [&](const SolenoidReadings& one) {
        return one.name == name && (one.bandLow || one.bandHigh);
    });
}

} // namespace

std::vector<SolenoidReadings> withChart(std::vector<SolenoidReadings> readings,
                                        const ApplicationChart& chart) {
    const std::vector<SolenoidReadings> typed = readings;
    for (SolenoidReadings& reading : readings) {
        const ApplicationChart::Solenoid* known = solenoidMeant(chart, reading.name);
        if (known == nullptr)
            continue;
        if (reading.type == SolenoidKind::notSaid)
            reading.type = known->type;
        if (bandTyped(typed, reading.name))
            continue;
        reading.bandLow = byChart(known->bandLow);
        reading.bandHigh = byChart(known->bandHigh);
    }
    return readings;
}

void nameSolenoids(const ApplicationChart& chart, std::vector<TroubleCode>& codes) {
    for (TroubleCode& code : codes)
        if (const ApplicationChart::Solenoid* solenoid = solenoidOfCode(chart, code))
            code.solenoid = solenoid->name;
}

} // namespace swarfbook
