// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/drawing.h"
#include "report/photo_view.h"

#include <stdexcept>
#include <vector>

/// Common parts of annotated photos and crops of pieces.
namespace swarfbook {

/// Throws std::logic_error if the measurement was refused or belongs to a photo of another size.
inline void requireMeasured(const cv::Mat& bgr, const Measurement& measurement) {
    if (measurement.refusal || !measurement.card || !measurement.debris)
        throw std::logic_error("a refused photo has nothing to draw");
    if (bgr.cols != measurement.photo.widthPx || bgr.rows != measurement.photo.heightPx)
        throw std::logic_error("the measurement belongs to a photo of another size");
}

/// The points of an outline in the view.
inline std::vector<Spot> spotsOf(const PhotoView& view, const std::vector<PointOnCard>& outline) {
    std::vector<Spot> spots;
    spots.reserve(outline.size());
    for (const PointOnCard& point : outline)
        spots.push_back(view.spotOf(point));
    return spots;
}

} // namespace swarfbook
