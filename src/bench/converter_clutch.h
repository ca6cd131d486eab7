// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation_words.h"

#include <string_view>

namespace swarfbook {

/// Whether a name or note speaks of the torque converter or its clutch: "converter", "TCC",
/// "lock-up". Checked: tests/bench/converter_clutch_test.cpp.
bool namesConverterClutch(std::string_view text);

/// Whether a solenoid serves the converter clutch, by its kind or its name.
bool servesConverterClutch(SolenoidKind kind, std::string_view name);

} // namespace swarfbook
