// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

/// Meaning of the typed name of a part. Checked: tests/bench/part_names_test.cpp.
namespace swarfbook {

/// "all", "rest", "others": an entry for every solenoid or bore without an entry of its own.
bool standsForOthers(const std::string& name);

/// Whether a name is this letter or ends in it as a word of its own: "A", "shift A", "pressure-A".
bool meansLetter(const std::string& name, const std::string& letter);

} // namespace swarfbook
