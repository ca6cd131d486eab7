// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/codes.h"
#include "unit/application_chart.h"

#include <string>

namespace swarfbook {

/// The solenoid that a code means in this unit: by what the chart says of codes; else by a name
/// that is or ends in the code's letter, of the code's kind first; pressure solenoid A is else the
/// one solenoid of the line pressure. Nullptr where the chart does not say which one it is.
/// Source: letters of codes are no fixed parts, the mapping is per unit (common practice).
/// Checked: tests/unit/unit_solenoids_test.cpp.
const ApplicationChart::Solenoid* solenoidOfCode(const ApplicationChart& chart,
                                                 const TroubleCode& code);

/// The solenoid of the chart that a typed name means ("A", "a", "shift A", "sol. A"), nullptr if
/// none. Checked: tests/unit/unit_solenoids_test.cpp.
const ApplicationChart::Solenoid* solenoidMeant(const ApplicationChart& chart,
                                                const std::string& typed);

} // namespace swarfbook
