// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace swarfbook {

/// A gear as people write it ("3", "3rd", "third", "r", "reverse") as "3" or "R"; "all", "forward"
/// and "converter" stay. UsageError for anything else.
/// Checked: tests/cli/observe_test.cpp.
std::string gearOf(const std::string& text);
/// "2-3", "2>3", "2 to 3" as "2-3".
std::string shiftOf(const std::string& text);
/// "1,R" or "1 R" as gears.
std::vector<std::string> gearsOf(const std::string& text);
/// "11-15", "60 to 90 psi", "13 +- 2": both ends; the unit at the end counts for both.
std::pair<std::string, std::string> endsOf(const std::string& text);

} // namespace swarfbook
