// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/facts.h"

namespace swarfbook {

/// Adds facts from the unit's chart: the kind of a solenoid and the maker's band, if the reading
/// has none.
std::vector<SolenoidReadings> withChart(std::vector<SolenoidReadings> readings,
                                        const ApplicationChart& chart);

/// The codes by the names that the chart gives to their solenoids; a code that it does not place
/// keeps its letter. Checked: tests/cli/typed (147 to 149).
void nameSolenoids(const ApplicationChart& chart, std::vector<TroubleCode>& codes);

} // namespace swarfbook
