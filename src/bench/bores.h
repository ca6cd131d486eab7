// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// Limits by which vacuum readings are judged; the values come from models/suggestion.json.
/// They hold for a stand whose dead-head is `standBlocked` or more.
struct BoreLimits {
    Kilopascals good, pass, marginal, heavyLeak; ///< at or above: good, pass, marginal; below: leak
    Kilopascals standBlocked;   ///< least dead-head of a stand that is taken as it reads
    Kilopascals standUsable;    ///< with a dead-head below this nothing is judged
    Kilopascals standOpen;      ///< highest reading allowed with an open hose
    Kilopascals nominalBlocked; ///< dead-head that the limits were written for
    Kilopascals jetDrift;       ///< greatest drift allowed of the fixed orifice
    Kilopascals alikeSpread;    ///< all bores low within this: suspect the stand
    int manyBores = 3;          ///< this many low bores are no longer "one or a few"
};

enum class BoreState { untested, good, pass, marginal, low, heavyLeak };

struct BoreVerdict {
    std::string name;
    std::string concerns;
    BoreState state = BoreState::untested;
    std::optional<Kilopascals> reading;
    std::optional<double> standRatio; ///< (v - open) / (blocked - open), where both were read
    bool fizzes = false;
    bool newValveRestores = false; ///< the bore is sound, the valve is worn
    bool newValveFails = false;
    bool scored = false;
    bool reamedBefore = false;
    std::string sentence;
};

struct BoreTable {
    std::vector<BoreVerdict> each;
    bool allLowAlike = false;  ///< three or more, all low by the same amount, and not read again
                               ///< since: recalibrate first
    bool standDoubted = false; ///< open, blocked or jet reading is wrong: no bore is judged
    std::string standSentence;
};

/// (v - open) / (blocked - open); nothing where blocked is not above open.
std::optional<double> standRatio(Kilopascals reading, Kilopascals open, Kilopascals blocked);

std::vector<BoreReadings> mergedBores(const std::vector<BoreReadings>& readings);

/// Judges every bore. The ratio corrects a stand whose dead-head is low (altitude); a stand whose
/// jet or zero has drifted is not trusted. Checked: tests/bench/bores_test.cpp.
BoreTable judgeBores(const std::vector<BoreReadings>& readings, const BoreLimits& limits);

} // namespace swarfbook
