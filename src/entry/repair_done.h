// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"

#include <string>
#include <vector>

/// What was done at a repair, as it is typed in one line.
namespace swarfbook {

/// Which words of work have to be there.
enum class WorkAsked {
    partsAlone, ///< parts; what was done to them may be left out: "solenoids A and B"
    wholeWork   ///< every part with what was done to it
};

/// What a line of work says: parts and what was done to them, and what has a kind of its own.
struct WorkDone {
    AfterRepair after;
    std::vector<Observation> others;     ///< refill, level, codes afterwards, road test
    std::vector<std::string> alsoWork{}; ///< work on a part that one of `others` implies
    [[nodiscard]] bool anyAfter() const;
};

/// Reads an outcome's name, or work as people write it: "solenoid A replaced, filter and neck seal
/// renewed, 6.5 l of fluid filled in, level right at 40C, codes cleared, road test good".
///
/// A part that was only cleaned or refitted is listed but does not count as repaired: another test
/// may still find it bad. UsageError for words that are not understood, for work that was not done,
/// and for a part without a word on what was done to it; with Sure::meant such a phrase is kept in
/// its words. Checked: tests/cli/work_done_test.cpp, tests/cli/judge_test.cpp.
WorkDone workDone(const std::string& line, WorkAsked asked, Sure sure);

/// The observation with its line of work read, and those that the line holds beside it; as it is
/// where it holds no line of work. UsageError as above, and for a word that names no
/// outcome.
std::vector<Observation> withWorkRead(Observation observation, WorkAsked asked, Sure sure);

} // namespace swarfbook
