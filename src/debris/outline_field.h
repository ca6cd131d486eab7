// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/contrast.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// Where an outline is looked for.
struct OutlineTask {
    cv::Rect box;        ///< in the crop
    cv::Mat piece;       ///< CV_32F of the box's size: the piece map
    float level = 0.35F; ///< of the piece map, where the outline lies without an edge of light
    int reach = 3;       ///< px that an edge is spread over, to each side
};

/// A field that is positive within the piece, -1 to 1. Where light changes from one side to the
/// other it crosses zero half way between the two (mid-range threshold; Bernsen 1986), in linear
/// light, since a lens blurs light and not codes. Where no edge shows, and against the half level
/// where the piece map is sure, the map decides: a piece's own shadow has an edge too, and a facet
/// as bright as the surface has none.
/// Checked: tests/debris/measure_debris_test.cpp (drawn pieces of known size).
cv::Mat outlineField(const ContrastField& field, const OutlineTask& task);

} // namespace swarfbook
