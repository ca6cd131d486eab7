// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// Pieces so large that the surface's own estimate would take them in: regions of light or colour
/// whose border is sharp all round, as that of a stain, a dent or a film is not (maximally stable
/// extremal regions; Matas, Chum, Urban and Pajdla, British Machine Vision Conference 2002).
/// @param reduced  CV_8UC3, the window at 2 to 4 pixels a millimetre, what lies outside filled in
/// @param inside  CV_8U of its size, 0 outside the window
/// @return CV_8U of its size, 255 within a region of 3 to 90 mm2, not longer than 12 mm nor a tenth
/// of the window. Checked: tests/debris/large_pieces_test.cpp (drawn plates, stains, soft shadows).
cv::Mat largePieces(const cv::Mat& reduced, const cv::Mat& inside, PixelsPerMillimetre scale);

} // namespace swarfbook
