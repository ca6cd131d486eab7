// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"

#include <string>
#include <vector>

/// What was done at a repair, as it is typed in one line.
namespace swarfbook {

/// Which words of work are required.
enum class WorkAsked {
    partsAlone, ///< parts; what was done to them may be left out: "solenoids A and B"
    wholeWork   ///< every part needs what was done to it
};

/// The content of a line of work: parts with what was done to them, and entries with a kind of
/// their own.
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
/// may still find it bad. Throws UsageError for words that are not understood, for work that was
/// not done, and for a part without what was done to it; with Sure::meant such a phrase is kept as
/// typed. Checked: tests/cli/work_done_test.cpp, tests/cli/judge_test.cpp.
WorkDone workDone(const std::string& line, WorkAsked asked, Sure sure);

/// The observation with its line of work read, and the further observations in the line; unchanged
/// if it has no line of work. Throws UsageError as above, and for a word that is not an outcome.
std::vector<Observation> withWorkRead(Observation observation, WorkAsked asked, Sure sure);

} // namespace swarfbook
