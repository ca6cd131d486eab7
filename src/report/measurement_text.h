// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <string>

namespace swarfbook {

/// One photo's measurement as plain lines for a terminal: what the card told, how small a piece
/// can be trusted, counts by size and type with their 95 % intervals, the largest pieces; or why
/// the photo was refused and what to do.
/// Checked: tests/report/measurement_text_test.cpp.
std::string measurementText(const Measurement& measurement, const std::string& coatClass = "");

} // namespace swarfbook
