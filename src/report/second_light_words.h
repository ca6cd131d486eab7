// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <string>

namespace swarfbook {

/// What a photo in a second light did for this measurement, as a plain line for a terminal: how
/// many pieces both photos show, how strongly their light changes, of how many the two photos say
/// different types; or that it was not used. "" where none was given. Names no file.
/// Checked: tests/report/measurement_text_test.cpp.
std::string secondLightLine(const Measurement& measurement);

} // namespace swarfbook
