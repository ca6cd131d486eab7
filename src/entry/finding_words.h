// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <string>

namespace swarfbook {

/// One photo's finding in half a line: "37 pieces of 0.21 mm and larger", or "not measured:
/// the photo is blurred"; in full with what was seen and what to do about it.
/// Checked: tests/cli/book_output_test.cpp.
std::string findingInShort(const Measurement& measurement);
std::string findingInFull(const Measurement& measurement);

} // namespace swarfbook
