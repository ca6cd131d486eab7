// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

namespace swarfbook::cli {

/// What was done at a repair.
struct RepairDone {
    std::string rung;               ///< an outcome's name, of the dearest part
    std::vector<std::string> parts; ///< "solenoid A", "bore 2-3 shift valve", "converter"
};

/// Reads an outcome's name, or parts as people write them: "solenoid A replaced", "solenoids A and
/// B, filter". UsageError for what names neither. Checked: tests/cli/judge_test.cpp.
RepairDone repairDone(const std::string& text);

} // namespace swarfbook::cli
