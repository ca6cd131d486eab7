// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/best_next_step.h"
#include "elimination/element_sets.h"
#include "elimination/stuck_pattern.h"

#include <nlohmann/json.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

enum class PartState { suspect, cleared, untested };
/// "suspect", "cleared", "untested".
std::string_view partStateName(PartState state);

/// One part with its state and a sentence for the customer that says why.
struct EliminatedPart {
    PartName part;
    std::string label; ///< "clutch Q"
    PartState state = PartState::untested;
    bool surely = true; ///< cleared: false if that holds only if it was driven alike, which is not
                        ///< known
    double score = 0.0; ///< elements: points by gears
    std::string sentence;
    std::vector<std::string> cells; ///< beside Elimination::gears: "slips", "good", "open", ""
};

/// Which of the unit's parts remain suspect after the gears, shifts, codes and tests of a visit.
struct Elimination {
    std::string unit;
    std::vector<std::string> gears;  ///< columns of the table
    std::vector<std::string> seenIn; ///< beside gears: "slips", "good", "not driven"
    std::vector<EliminatedPart> parts;
    ElementSets elements; ///< by gears alone
    std::vector<ElementRole> shiftRoles;
    std::vector<StuckMatch> stuck;
    bool supplyLost = false; ///< a loss of all current would cause the wrong gears
    std::vector<std::vector<std::string>> explanations; ///< labels; one each, or pairs
    bool pairs = false;
    bool soft = false;              ///< only gears surely driven as hard and as warm clear parts
    std::vector<TestChoice> tests;  ///< the first is the next one to make
    std::string summary;            ///< one sentence
    std::vector<std::string> notes; ///< further facts that matter
    bool anythingBad = false;

    [[nodiscard]] std::vector<const EliminatedPart*> inState(PartState state) const;
};

/// Pure: chart and evidence in, elimination out. Never condemns a part that no test condemned.
/// Source: common practice of the trade as set operations, no source; diagnosis.h for the engine.
/// Checked: tests/elimination/elimination_test.cpp (a worked case) and the files beside it.
Elimination eliminate(const ApplicationChart& chart, const EliminationEvidence& evidence,
                      const BenchTests& settings);

/// "If it is bad, clutch Q is left; if it is good, clutch P and clutch T are left."
std::string answersInWords(const TestChoice& test);
/// The test, its minutes and what its answers leave.
std::string testInWords(const TestChoice& test);
/// "a", "a and b", "a, b and c"; beyond `most` "and 3 more".
std::string listInWords(const std::vector<std::string>& words, std::size_t most = 99);

/// "swarfbook elimination 1": every field above by name.
nlohmann::ordered_json toJson(const Elimination& elimination);

} // namespace swarfbook
