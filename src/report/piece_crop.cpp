// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/annotated_photo.h"
#include "report/hatching.h"
#include "report/outline_spots.h"
#include "report/scale_bar.h"
#include "report/type_marks.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

/// A circle in the middle of a square picture, clear of the piece.
void drawRing(const Picture& picture, const Particle& particle, const CropOptions& options) {
    const double side = options.field.value() * options.scale.value(), line = side / 80.0;
    const Pixels across = particle.maxFeret.value * options.scale;
    static const OutlineMark ring{"", "", {0.62, 0.0, 0.0, 1.0}, {1.0, 1.0, 1.0, 0.9}, {}};
    cairo_new_path(picture.pen());
    cairo_arc(picture.pen(), side / 2.0, side / 2.0,
              std::min(side / 2.0 - 2.0 * line, 0.62 * across.value() + 3.0 * line), 0.0, 6.2832);
    strokeMark(picture.pen(), ring, line);
}

} // namespace

int cropBandHeight(const CropOptions& options) {
    return static_cast<int>(std::lround(0.13 * options.field.value() * options.scale.value()));
}

cv::Mat croppedPiece(const cv::Mat& bgr, const Measurement& measurement, const Particle& particle,
                     const CropOptions& options) {
    requireMeasured(bgr, measurement);
    const double field = options.field.value();
    double low[2] = {particle.centre.x, particle.centre.y}, high[2] = {low[0], low[1]};
    for (const PointOnCard& point : particle.outline) {
        low[0] = std::min(low[0], point.x);
        low[1] = std::min(low[1], point.y);
        high[0] = std::max(high[0], point.x);
        high[1] = std::max(high[1], point.y);
    }
    const CardRect area{0.5 * (low[0] + high[0] - field), 0.5 * (low[1] + high[1] - field), field,
                        field};
    const PhotoView view = PhotoView::straightened(bgr, *measurement.card, area, options.scale);
    const int side = view.picture().cols, band = options.bar ? cropBandHeight(options) : 0;
    cv::Mat room;
    cv::copyMakeBorder(view.picture(), room, 0, band, 0, 0, cv::BORDER_CONSTANT,
                       cv::Scalar::all(255));
    const Picture picture(room);
    if (options.outline && particle.outline.size() >= 3) {
        tracePolygon(picture.pen(), spotsOf(view, particle.outline));
        const Pixels across = particle.minFeret.value * options.scale;
        strokeMark(picture.pen(), markOf(particle.type),
                   std::clamp(across.value() / 9.0, 0.5, std::max(0.5, side / 220.0)));
    }
    if (options.ring)
        drawRing(picture, particle, options);
    if (!options.bar)
        return picture.bgr();
    const Millimetres length = roundLength(Millimetres(field / 2.2));
    const double em = 0.62 * band, thick = std::max(2.0, band / 10.0);
    drawScaleBar(picture.pen(), {thick, side + 0.5 * band}, length * options.scale, thick);
    const Pixels drawn = length * options.scale;
    drawText(picture.pen(), {drawn.value() + 3.0 * thick, side + 0.12 * band}, barWords(length),
             {.size = em});
    return picture.bgr();
}

} // namespace swarfbook
