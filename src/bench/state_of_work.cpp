// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/state_of_work.h"

namespace swarfbook {
namespace {

template <class... Kinds> bool isAnyOf(const Observation& observation) {
    return (std::holds_alternative<Kinds>(observation) || ...);
}

/// Read at its own pins, or taken out to be compared, exchanged or tested for leaks.
bool solenoidInHand(const SolenoidReadings& s) {
    return s.coilAt == MeasuredAt::pins || s.leakOff != LeakSeen::notTested ||
           s.leakOn != LeakSeen::notTested || s.swap != SwapResult::notSwapped ||
           s.siblings != AgainstSiblings::notCompared || s.flushed == true;
}

bool needsPanOff(const Observation& observation) {
    if (const auto* s = std::get_if<SolenoidReadings>(&observation))
        return solenoidInHand(*s);
    return needsValveBodyOff(observation) ||
           isAnyOf<DebrisSeen, FingerTest, MagnetTest, SqueezeTest, FilterNeckSeen, ValveBodySeen,
                   ConverterSeen>(observation);
}

bool needsItRunning(const Observation& observation) {
    return isAnyOf<Complaint, RoadTest, Noise, PressureSeen, CoolerFlow>(observation);
}

bool tellsOfRefitting(const Observation& observation) {
    return isAnyOf<AfterRepair, Refill, LevelCheck, RoadTest, RepairResult>(observation);
}

} // namespace

bool needsValveBodyOff(const Observation& observation) {
    return isAnyOf<BoreReadings, AirCheck>(observation);
}

StateOfWork stateOfWork(const std::vector<Observation>& recorded, bool debrisSeen) {
    StateOfWork state = debrisSeen ? StateOfWork::panOff : StateOfWork::panOn;
    for (const Observation& observation : recorded) {
        if (needsPanOff(observation))
            state = StateOfWork::panOff;
        else if (tellsOfRefitting(observation) && state == StateOfWork::panOff)
            state = StateOfWork::panOnAgain;
    }
    return state;
}

bool canBeObserved(const Observation& observation, StateOfWork state) {
    if (needsPanOff(observation))
        return state == StateOfWork::panOff;
    if (std::holds_alternative<LevelSeen>(observation))
        return state == StateOfWork::panOn;
    return state != StateOfWork::panOff || !needsItRunning(observation);
}

} // namespace swarfbook
