// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "unit/application_chart.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// Where an interview on a unit stands after some answers.
struct InterviewStep {
    std::string question;   ///< the next one, or the one whose answer was not taken
    std::string wrong;      ///< why an answer was not taken, "" when all were
    std::size_t taken = 0;  ///< answers taken, from the first on
    bool finished = false;  ///< nothing more to ask; the chart is whole
    ApplicationChart chart; ///< so far
};

/// Asks for a unit in the order in which a person holding its manual reads it out: source, gears,
/// elements, what holds each gear, solenoids with kind, band, feeds and siblings, their states in
/// each gear and with current removed, bores, fluid. Each answer is checked at once.
///
/// Pure: the same answers always lead to the same step, so an interview can be continued at any
/// time from its answers.
/// Checked: tests/unit/unit_interview_test.cpp.
InterviewStep interview(const std::string& unit, const std::vector<std::string>& answers);

} // namespace swarfbook
