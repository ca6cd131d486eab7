// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <string>
#include <vector>

namespace swarfbook {

/// What a magnet took, as plain lines for a terminal: how many pieces there were, are gone, are
/// left and are not known, the magnetic share by count and by area with 95 % intervals, the same
/// for each size class, and the bright pieces that are not magnetic; or that the photo was not
/// used. "" if none was given.
/// Checked: tests/report/measurement_text_test.cpp.
std::string afterMagnetLines(const Measurement& measurement);

/// The same as sentences for a report: what the magnet took and left with the shares, the bright
/// pieces that are not magnetic, and a remark if only the card shows that the place is the same; or
/// why the photo was not used. Leaves out the size classes. Checked:
/// tests/report/sweep_words_test.cpp.
std::vector<std::string> sweepSentences(const AfterMagnet& after);

/// The same for a customer: the magnetic share by count with its 95 % interval, and the bright pieces
/// that are not magnetic. "" where the photo was not used or nothing is known of any piece.
/// Checked: tests/report/sweep_words_test.cpp.
std::string sweepInShort(const AfterMagnet& after);

} // namespace swarfbook
