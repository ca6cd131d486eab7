// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/observation_fields.h"
#include "bench/solenoid_faults.h"

#include <algorithm>
#include <string>
#include <unordered_map>

namespace swarfbook {
namespace {

bool readsCoilHot(const SolenoidReadings& s) {
    return s.hotResistance || s.hotOpen;
}

void forgetCoil(SolenoidReadings& s) {
    s.resistance.reset();
    s.at.reset();
    s.openCircuit.reset();
    s.shorted.reset();
    s.hotResistance.reset();
    s.hotAt.reset();
    s.hotOpen.reset();
    s.coilAt = MeasuredAt::notSaid;
}

void addReading(SolenoidReadings& into, const SolenoidReadings& later) {
    if (readsCoil(later)) {
        into.resistance.reset();
        into.at.reset();
        into.openCircuit.reset();
        into.shorted.reset();
    }
    if (readsCoilHot(later)) {
        into.hotResistance.reset();
        into.hotOpen.reset();
    }
    fields::addLater(into, later);
}

/// Readings of one name joined in the order they were taken, by name.
std::vector<SolenoidReadings> merged(const std::vector<SolenoidReadings>& readings) {
    std::vector<SolenoidReadings> all;
    std::unordered_map<std::string, std::size_t> places;
    for (const SolenoidReadings& reading : readings) {
        const auto [at, isNew] = places.try_emplace(reading.name, all.size());
        if (isNew)
            all.push_back(reading);
        else
            addReading(all[at->second], reading);
    }
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
    return all;
}

} // namespace

bool readsCoil(const SolenoidReadings& s) {
    return s.resistance || s.openCircuit || s.shorted;
}

std::vector<SolenoidReadings> mergedSolenoids(const std::vector<SolenoidReadings>& readings) {
    std::vector<SolenoidReadings> atCoil = readings;
    for (SolenoidReadings& s : atCoil)
        if (s.coilAt == MeasuredAt::connector)
            forgetCoil(s);
    return merged(atCoil);
}

std::vector<SolenoidReadings> mergedCircuits(const std::vector<SolenoidReadings>& readings) {
    std::vector<SolenoidReadings> there;
    for (const SolenoidReadings& s : readings)
        if (s.coilAt == MeasuredAt::connector)
            there.push_back(s);
    return merged(there);
}

} // namespace swarfbook
