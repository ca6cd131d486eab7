// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "unit/application_chart.h"

#include <string>

namespace swarfbook::cli {

/// A chart as tables of text: elements by gear, solenoids by gear, solenoids, bores, fluid.
/// Checked: tests/cli/unit_test.cpp.
std::string unitText(const ApplicationChart& chart);

} // namespace swarfbook::cli
