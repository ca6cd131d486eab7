// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// Limits by which solenoid readings are judged; the values come from models/suggestion.json.
struct SolenoidLimits {
    double siblingPercent = 10.0; ///< apart from identical siblings at 20 C
    Volts pullInHigh = Volts(9.0);
    Volts dropOutLow = Volts(1.0);
    double alikePercent = 5.0; ///< all outside the band by the same share, within this
    Ohms shortBelow = Ohms(0.5);
    Celsius hotFrom = Celsius(70.0); ///< a coil read at this or above was read hot
};

/// Verdict of the tests on one solenoid. A normal resistance proves only the coil.
enum class SolenoidState {
    untested,
    coilGood, ///< the resistance is right; it was not tested whether it moves and seals
    good,     ///< the coil is right, and it moves, seals or compares like its siblings
    suspect,  ///< worse than it should be, but not flushed and demagnetised yet
    proven    ///< coil fault, or worse than siblings after flush, or the fault moved with a swap
};

struct SolenoidVerdict {
    std::string name;
    SolenoidKind type = SolenoidKind::notSaid;
    SolenoidState state = SolenoidState::untested;
    std::optional<Ohms> at20;                 ///< by copper's coefficient
    std::optional<double> percentOffSiblings; ///< of the median of identical siblings
    bool coilFault = false;                   ///< open, shorted, out of band, or open when hot
    bool coilApart = false;    ///< differs from its siblings, or cold and hot do not agree; not a
                               ///< fault yet
    bool contradicted = false; ///< bad at its own pins, yet right at the case connector, which
                               ///< reads through them; not measured at its pins again since
    bool hotTested = false;
    SwapResult swap = SwapResult::notSwapped;
    bool exchangedBefore = false; ///< a new part since a repair that did not hold
    bool cameClean = false;       ///< worse than its siblings, as good once flushed
    bool circuitBad = false;      ///< bad at the case connector, the coil not read
    bool circuitGood = false;     ///< right at the case connector, or it moves on command: current
                                  ///< reaches it
    bool harness = false;         ///< bad at the case connector, right at its own pins
    std::string sentence;         ///< why, in plain words
};

struct SolenoidTable {
    std::vector<SolenoidVerdict> each; ///< by name
    bool allOffAlike = false; ///< every coil off by the same share, and not measured again since:
                              ///< suspect thermometer or leads
    [[nodiscard]] const SolenoidVerdict* find(const std::string& name) const;
};

/// Adds up the readings of one name, later over earlier. A coil read again, open or with a
/// resistance, replaces what was read of it before; a reading at the case connector shows nothing
/// of the coil unless it is right there.
std::vector<SolenoidReadings> mergedSolenoids(const std::vector<SolenoidReadings>& readings);
/// The same for readings at the case connector, through the harness inside.
std::vector<SolenoidReadings> mergedCircuits(const std::vector<SolenoidReadings>& readings);

/// Judges every solenoid against its band and its identical siblings (same kind, both kinds said,
/// or all of them when no kind was said).
/// Checked: tests/bench/solenoids_test.cpp.
SolenoidTable judgeSolenoids(const std::vector<SolenoidReadings>& readings,
                             const SolenoidLimits& limits);

} // namespace swarfbook
