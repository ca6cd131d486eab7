// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/codes.h"
#include "unit/application_chart.h"

#include <string>

namespace swarfbook {

/// The solenoid that a code means in this unit: the one to which the chart gives the code; else one
/// whose name is or ends in the code's letter, of the code's kind first; else, for pressure
/// solenoid A, the one solenoid of the line pressure. Nullptr if the chart does not say which one
/// it is.
/// Source: a code's letter names no fixed part, the mapping differs from unit to unit (common
/// practice).
/// Checked: tests/unit/unit_solenoids_test.cpp.
const ApplicationChart::Solenoid* solenoidOfCode(const ApplicationChart& chart,
                                                 const TroubleCode& code);

/// The solenoid of the chart that a typed name means ("A", "a", "shift A", "sol. A"), nullptr if
/// none. Checked: tests/unit/unit_solenoids_test.cpp.
const ApplicationChart::Solenoid* solenoidMeant(const ApplicationChart& chart,
                                                const std::string& typed);

} // namespace swarfbook
