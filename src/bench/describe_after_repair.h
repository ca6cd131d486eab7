// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/after_repair.h"

#include <string>

/// Plain lines of how it drives and of what follows a repair, without the name of their kind.
/// Checked: tests/bench/observation_json_test.cpp, tests/bench/oil_level_test.cpp.
namespace swarfbook {

std::string driveLine(const Complaint& o);
std::string line(const Refill& o);
std::string line(const LevelCheck& o);
std::string line(const RoadTest& o);
std::string line(const AfterRepair& o);
std::string line(const RepairOutcome& o);
std::string line(const TakenBack& o);

} // namespace swarfbook
