// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/window_crop.h"

#include <vector>

namespace swarfbook {

/// Takes deep shadow out of `crop.inside` of a white window: parts that reach in from the window's
/// edge, at least 50 mm2, where the surface itself (pieces smoothed away over 6 mm) sends less than
/// an eighth of the light that the card's white round the window lets expect. Dark pieces there
/// would be lost in the noise, and the area must not count as clean. Not for a cut-out window,
/// whose surface may be dark itself, nor for a magnet on the paper.
/// @return what was taken out, true mm.
/// Checked: tests/assess/hard_photos_test.cpp (a shadow of known area).
std::vector<LeftOut> leaveOutDeepShadow(const CalibratedPhoto& photo, WindowCrop& crop);

} // namespace swarfbook
