// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/drawing.h"
#include "report/photo_view.h"

#include <string>

namespace swarfbook {

/// A length drawn beside a picture.
struct ScaleBar {
    Millimetres length;
    Pixels drawn;
    /// Where the bar is true, and how much it may be out elsewhere in the window.
    std::string where;
};

/// A round length (1, 2 or 5 times a power of ten) of at most a quarter of the picture's width,
/// true along the picture's horizontal at the window's centre.
/// Checked: tests/report/annotated_photo_test.cpp.
ScaleBar scaleBarFor(const PhotoView& view, const CardRect& window);

/// A bar of `drawn` pixels with end ticks, its left end's middle at `at`.
void drawScaleBar(cairo_t* pen, Spot at, Pixels drawn, double lineWidth);

/// "10 mm", "0.5 mm".
std::string barWords(Millimetres length);

/// The largest round length of at most `most`.
Millimetres roundLength(Millimetres most);

} // namespace swarfbook
