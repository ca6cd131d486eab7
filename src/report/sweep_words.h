// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <string>

namespace swarfbook {

/// What a magnet took along, as plain lines for a terminal: how many pieces there were, are gone,
/// were left and are not known, the magnetic share by count and by area with 95 % intervals, the
/// same for each size class, and what is bright and not magnetic; or that the photo was not used.
/// "" where none was given.
/// Checked: tests/report/measurement_text_test.cpp.
std::string afterMagnetLines(const Measurement& measurement);

} // namespace swarfbook
