// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/solenoids.h"

#include "bench/solenoid_faults.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace swarfbook {
namespace {

/// The readings of each solenoid, by name, in the order they were taken.
using ReadingsByName = std::map<std::string, std::vector<SolenoidReadings>>;

/// Every coil outside its band on the same side by the same share: thermometer or leads.
bool allOffAlike(const std::vector<SolenoidReadings>& all, const SolenoidLimits& limits) {
    std::vector<double> percent;
    int side = 0;
    for (const SolenoidReadings& s : all) {
        const auto at20 = coldAt20(s);
        if (!at20 || !s.bandLow || !s.bandHigh)
            return false;
        const int own = sideOfBand(s, *at20);
        if (own == 0 || (side != 0 && own != side))
            return false;
        side = own;
        const Ohms middle = (s.bandLow->value + s.bandHigh->value) / 2.0;
        percent.push_back(100.0 * (*at20 / middle - 1.0));
    }
    if (percent.size() < 3)
        return false;
    const auto [low, high] = std::minmax_element(percent.begin(), percent.end());
    return *high - *low <= limits.alikePercent;
}

long timesRead(const std::vector<SolenoidReadings>& readings) {
    return std::count_if(readings.begin(), readings.end(), [](const auto& one) {
        return one.coilAt != MeasuredAt::connector && (one.resistance || one.hotResistance);
    });
}

/// Every coil was measured twice, so leads and temperature were checked; coils that still read
/// alike are as good as their siblings, whatever the band says.
bool allReadAgain(const ReadingsByName& readings) {
    return std::all_of(readings.begin(), readings.end(),
                       [](const auto& of) { return timesRead(of.second) > 1; });
}

bool movesAndSeals(const SolenoidReadings& s) {
    return s.siblings == AgainstSiblings::alike || s.command == Movement::works ||
           (s.leakOff != LeakSeen::notTested && s.leakOn != LeakSeen::notTested) ||
           s.swap == SwapResult::stays;
}

void judgeSiblingOhms(const SolenoidReadings& s, const SolenoidLimits& limits,
                      SolenoidVerdict& verdict) {
    const auto hot = hotAt20(s);
    if (hot && verdict.at20 &&
        std::abs(*hot / *verdict.at20 - 1.0) * 100.0 > limits.siblingPercent) {
        verdict.state = SolenoidState::suspect;
        verdict.coilApart = true;
        verdict.sentence = fmt::format("Solenoid {}: brought to 20 C its coil reads {:.1f} ohm "
                                       "cold and {:.1f} ohm hot, which should agree.",
                                       s.name, verdict.at20->value(), hot->value());
    } else if (verdict.percentOffSiblings &&
               std::abs(*verdict.percentOffSiblings) > limits.siblingPercent) {
        verdict.state = SolenoidState::suspect;
        verdict.coilApart = true;
        verdict.sentence =
            fmt::format("Solenoid {}: its coil is {:.0f} % off its siblings at 20 C.", s.name,
                        *verdict.percentOffSiblings);
    }
}

void judgeGood(const SolenoidReadings& s, SolenoidVerdict& verdict) {
    const bool compared = s.bandLow || s.bandHigh || verdict.percentOffSiblings;
    if (movesAndSeals(s)) {
        verdict.state = SolenoidState::good;
        verdict.sentence = fmt::format("Solenoid {} matches the others and works.", s.name);
    } else if (verdict.at20 && !compared) {
        verdict.sentence = fmt::format("Solenoid {} reads {:.1f} ohm at 20 C; there is no band and "
                                       "no similar solenoid to compare it with.",
                                       s.name, verdict.at20->value());
    } else if (verdict.at20) {
        verdict.state = SolenoidState::coilGood;
        verdict.sentence = fmt::format("Solenoid {}: the coil reads right; whether it moves and "
                                       "seals was not tested.",
                                       s.name);
    } else {
        verdict.sentence = s.resistance
                               ? fmt::format("Solenoid {}: a resistance without its temperature "
                                             "proves little.",
                                             s.name)
                               : fmt::format("Solenoid {} was not tested.", s.name);
    }
}

/// Position of this name, or the position for it, in a list in the order of names.
template <class All> auto placeOf(All& all, const std::string& name) {
    return std::lower_bound(all.begin(), all.end(), name,
                            [](const auto& one, const std::string& n) { return one.name < n; });
}

/// The coils as read at their pins. A coil that was read only at the case connector and is right
/// there is right itself, because the reading goes through it.
std::vector<SolenoidReadings> withCircuits(const std::vector<SolenoidReadings>& readings,
                                           const SolenoidLimits& limits) {
    std::vector<SolenoidReadings> all = mergedSolenoids(readings);
    for (const SolenoidReadings& circuit : mergedCircuits(readings)) {
        SolenoidReadings& s = *placeOf(all, circuit.name);
        if (readsCoil(s))
            continue;
        SolenoidReadings through = s;
        through.resistance = circuit.resistance;
        through.at = circuit.at;
        through.openCircuit = circuit.openCircuit;
        through.shorted = circuit.shorted;
        if (coilFault(through, limits, true).empty())
            s = through;
    }
    return all;
}

/// Whether a coil was found open or shorted at its own pins, once.
bool faultSeenOnce(const std::vector<SolenoidReadings>& readings) {
    int reads = 0, faults = 0;
    for (const SolenoidReadings& one : readings) {
        if (one.coilAt == MeasuredAt::connector || !readsCoil(one))
            continue;
        ++reads;
        faults += one.openCircuit == true || one.shorted == true;
    }
    return reads == 1 && faults == 1;
}

/// The case connector reads through the coil's own pins: one of the two readings is wrong.
void judgeContradiction(SolenoidVerdict& v) {
    v.contradicted = true;
    v.coilFault = false;
    v.state = SolenoidState::suspect;
    v.sentence =
        fmt::format("Solenoid {}: the coil is bad at its own pins and right at the case "
                    "connector. Both cannot be true: the connector reads through the pins.",
                    v.name);
}

/// What the case connector shows in addition to the coil itself.
/// @param readings  of this solenoid, as they were taken
void judgeCircuit(const SolenoidReadings& circuit, const std::vector<SolenoidReadings>& readings,
                  const SolenoidLimits& limits, SolenoidTable& table) {
    SolenoidVerdict& v = *placeOf(table.each, circuit.name);
    const std::string fault = coilFault(circuit, limits, true);
    if (v.coilFault && fault.empty() && readsCoil(circuit) && faultSeenOnce(readings)) {
        judgeContradiction(v);
        return;
    }
    v.circuitGood = v.circuitGood || (fault.empty() && readsCoil(circuit));
    if (v.coilFault || fault.empty())
        return;
    v.harness = v.state >= SolenoidState::coilGood;
    v.circuitBad = !v.harness;
    v.sentence = v.harness
                     ? fmt::format("Solenoid {}: bad at the case connector ({}), right at its own "
                                   "pins: the harness between them is at fault.",
                                   v.name, fault)
                     : fmt::format("Solenoid {}: bad at the case connector ({}); its own pins were "
                                   "not measured.",
                                   v.name, fault);
}

/// Deviation, in percent either way, of the coil that is furthest from its siblings.
double furthestOff(const SolenoidTable& table) {
    double furthest = 0.0;
    for (const SolenoidVerdict& v : table.each)
        furthest = std::max(furthest, std::abs(v.percentOffSiblings.value_or(0.0)));
    return furthest;
}

/// A coil that differs from its siblings, or whose cold and hot readings do not agree, and that was
/// measured again: neither the temperature nor the leads were the cause. If several differ, the one
/// furthest off is at fault, because the others differ from it.
void judgeRepeated(const ReadingsByName& readings, const SolenoidLimits& limits,
                   SolenoidTable& table) {
    const double furthest = furthestOff(table);
    for (SolenoidVerdict& v : table.each) {
        const double off = std::abs(v.percentOffSiblings.value_or(0.0));
        const auto& own = readings.at(v.name);
        if (!v.coilApart || timesRead(own) < 2 || (off > limits.siblingPercent && off < furthest))
            continue;
        v.state = SolenoidState::proven;
        v.coilFault = true;
        v.sentence.pop_back();
        v.sentence += ", measured again as well.";
    }
}

/// What was wrong with the response of a solenoid before it was flushed; "" if nothing was, or no
/// reading shows it.
/// @param readings  of this solenoid; @param siblings  all of its kind, as they test now.
std::string faultBeforeFlushing(const SolenoidReadings& s,
                                const std::vector<SolenoidReadings>& readings,
                                SiblingLeaks siblings, const SolenoidLimits& limits) {
    const auto wasFlushed = [](const SolenoidReadings& one) { return one.flushed.value_or(false); };
    const auto flushed = std::find_if(readings.rbegin(), readings.rend(), wasFlushed);
    if (flushed == readings.rend())
        return "";
    const auto before = mergedSolenoids({readings.begin(), std::prev(flushed.base())});
    if (before.empty() || wasFlushed(before.front()))
        return "";
    siblings.remove(s);
    siblings.add(before.front());
    const std::string fault = responseFault(before.front(), siblings, limits);
    return fault.empty() && sealsSince(before.front(), s) ? "it leaked" : fault;
}

/// A solenoid that was worse than its siblings and is as good once flushed was dirty.
/// @param fault  before it was flushed.
void judgeCleaned(const SolenoidReadings& s, const std::string& fault, SolenoidVerdict& verdict) {
    if (fault.empty() || verdict.state == SolenoidState::proven ||
        verdict.state == SolenoidState::suspect)
        return;
    verdict.state = SolenoidState::good;
    verdict.cameClean = true;
    verdict.sentence = fmt::format("Solenoid {}: before it was flushed {}; since then it tests "
                                   "as it should, so it was dirt.",
                                   s.name, fault);
}

SolenoidVerdict judge(const SolenoidReadings& s, const Siblings& siblings,
                      const SolenoidLimits& limits, bool bandsBelieved) {
    SolenoidVerdict verdict;
    verdict.name = s.name;
    verdict.type = s.type;
    verdict.at20 = coldAt20(s);
    verdict.percentOffSiblings = siblings.percentOff(s);
    verdict.hotTested = s.hotOpen || s.hotResistance || s.hotCommand != Movement::notTested ||
                        (s.at && s.at->value >= limits.hotFrom);
    verdict.swap = s.swap;
    verdict.circuitGood = s.command == Movement::works || s.hotCommand == Movement::works;
    const std::string coil = coilFault(s, limits, bandsBelieved);
    const std::string response = responseFault(s, siblings.leaks, limits);
    if (!coil.empty()) {
        verdict.coilFault = true;
        verdict.state = SolenoidState::proven;
        verdict.sentence = fmt::format("Solenoid {}: {}.", s.name, coil);
    } else if (s.swap == SwapResult::moves) {
        verdict.state = SolenoidState::proven;
        verdict.sentence =
            fmt::format("The fault moved with solenoid {} when it was exchanged.", s.name);
    } else if (!response.empty() && s.swap != SwapResult::stays) {
        const bool cleaned = s.flushed == true && s.demagnetised != false;
        verdict.state = cleaned ? SolenoidState::proven : SolenoidState::suspect;
        verdict.sentence = fmt::format("Solenoid {}: {}{}.", s.name, response,
                                       cleaned ? ", even after flushing" : "");
    } else {
        judgeGood(s, verdict);
        judgeSiblingOhms(s, limits, verdict);
    }
    return verdict;
}

} // namespace

const SolenoidVerdict* SolenoidTable::find(const std::string& name) const {
    const auto found = std::find_if(each.begin(), each.end(),
                                    [&](const SolenoidVerdict& v) { return v.name == name; });
    return found == each.end() ? nullptr : &*found;
}

SolenoidTable judgeSolenoids(const std::vector<SolenoidReadings>& readings,
                             const SolenoidLimits& limits) {
    const std::vector<SolenoidReadings> all = withCircuits(readings, limits);
    SolenoidTable table;
    const bool alike = allOffAlike(all, limits);
    ReadingsByName byName;
    for (const SolenoidReadings& one : readings)
        byName[one.name].push_back(one);
    table.allOffAlike = alike && !allReadAgain(byName);
    const auto kinds = siblingsAmong(all);
    for (const SolenoidReadings& s : all) {
        const Siblings& siblings = kinds.at(s.type);
        table.each.push_back(judge(s, siblings, limits, !alike));
        if (s.flushed.value_or(false))
            judgeCleaned(s, faultBeforeFlushing(s, byName.at(s.name), siblings.leaks, limits),
                         table.each.back());
    }
    judgeRepeated(byName, limits, table);
    for (const SolenoidReadings& circuit : mergedCircuits(readings))
        judgeCircuit(circuit, byName.at(circuit.name), limits, table);
    return table;
}

} // namespace swarfbook
