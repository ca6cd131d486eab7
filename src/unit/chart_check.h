// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "unit/application_chart.h"

#include <string>
#include <vector>

namespace swarfbook {

/// What does not fit together, one sentence each; empty when the chart is sound: no gears, a gear
/// that nothing holds, two gears alike in their elements, two forward gears alike in their
/// solenoids, an element that no gear applies, a solenoid that feeds nothing, a name used but not
/// declared or declared twice, a manual range without its gear, a band or window upside down.
/// Checked: tests/unit/application_chart_test.cpp.
std::vector<std::string> inconsistencies(const ApplicationChart& chart);

/// Things that are allowed but worth knowing: the pattern with current removed belongs to no gear,
/// the chart has no fluid or no bores, identical solenoids have different bands.
std::vector<std::string> remarks(const ApplicationChart& chart);

/// The gears whose solenoid states are the pattern with current removed; "any" fits all, modulated
/// counts as on. Common solenoids select no gear and are left out.
std::vector<std::string> gearsWithCurrentRemoved(const ApplicationChart& chart);

} // namespace swarfbook
