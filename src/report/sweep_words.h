// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <string>
#include <vector>

namespace swarfbook {

/// What a magnet took along, as plain lines for a terminal: how many pieces there were, are gone,
/// were left and are not known, the magnetic share by count and by area with 95 % intervals, the
/// same for each size class, and what is bright and not magnetic; or that the photo was not used.
/// "" where none was given.
/// Checked: tests/report/measurement_text_test.cpp.
std::string afterMagnetLines(const Measurement& measurement);

/// The same as sentences for a report: what the magnet took and left with the shares, what is
/// bright and not magnetic, and that the card alone shows the place where it does; or why the photo
/// was not used. The size classes are left out. Checked: tests/report/sweep_words_test.cpp.
std::vector<std::string> sweepSentences(const AfterMagnet& after);

} // namespace swarfbook
