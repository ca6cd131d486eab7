// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "unit/application_chart.h"

#include <map>
#include <string>
#include <string_view>

/// Readers of the interview's longer answers.
/// Checked: tests/unit/unit_interview_test.cpp.
namespace swarfbook {

/// Whether the answer is this word, in whatever case.
bool isWord(const std::string& answer, std::string_view word);
/// The elements that hold a gear, those in brackets without torque. UsageError if the chart has no
/// such element, or if nothing holds a gear that drives.
void takeHolders(const ApplicationChart& chart, const std::string& answer,
                 ApplicationChart::Gear& gear);
/// The solenoids' names with commas between.
std::string namesOf(const ApplicationChart& chart);
/// One state for each solenoid, in the chart's order. UsageError if there are more or fewer.
std::map<std::string, SolenoidCommand> statesTyped(const ApplicationChart& chart,
                                                   const std::string& answer);

} // namespace swarfbook
