// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "unit/application_chart.h"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// Words by which a person writes down an application chart, in answers and in tables alike. Each
/// reader throws UsageError with a sentence that says what to type instead.
/// Checked: tests/unit/unit_interview_test.cpp, tests/unit/unit_table_test.cpp.
namespace swarfbook {

/// Blanks at both ends cut off.
std::string trimmed(std::string_view text);
/// "R, 1, 1 by hand" split at commas if there are any, else at blanks; empty parts are left out.
std::vector<std::string> listTyped(std::string_view text);
/// A name of a gear or part: 1 to 40 bytes, not starting with + - ( and without , ; or tab.
std::string nameTyped(std::string_view what, std::string_view text);
/// Where a chart was read: 1 to 200 bytes of any text.
std::string sourceTyped(std::string_view text);
/// "clutch P", "brake X", "one-way W", "one-way clutch W".
ApplicationChart::Element elementTyped(std::string_view text);
/// "on", "1", "x", "off", "0", "mod", "modulated", "pwm", "any", "-"; case is ignored.
SolenoidCommand stateTyped(std::string_view text);
/// "on-off", "pwm", "linear", "converter", "not-said" and the usual variants.
SolenoidKind solenoidKindTyped(std::string_view text);
/// "x", "yes", "1", "on", "applied"; "", "no", "0", "-"; "c", "idle", "(x)".
Applied appliedTyped(std::string_view text);
/// "+P -X": elements that a solenoid feeds, each of them in the chart; "common +" or "common -"
/// makes it a common one; "unknown" leaves it open.
void feedsTyped(std::string_view text, const ApplicationChart& chart,
                ApplicationChart::Solenoid& into);
/// "11-15", "11 to 15 ohm".
std::pair<Ohms, Ohms> bandTyped(std::string_view text);
/// "35-45C", "95 to 113 F".
std::pair<Celsius, Celsius> windowTyped(std::string_view text);
/// "shift A", "pressure B".
std::string codeNameTyped(std::string_view text);
/// Marks as manual ranges the gears that start with another gear's name: "1 by hand".
void markManualRanges(ApplicationChart& chart);

} // namespace swarfbook
