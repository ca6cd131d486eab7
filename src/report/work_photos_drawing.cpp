// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/work_photos_drawing.h"

#include <algorithm>

namespace swarfbook {
namespace {

/// The photos of one row: how wide and high each may be, and where.
struct PairOfPhotos {
    const PiecesCanvas& canvas;
    double cell, most;

    /// Draws one below its name; gives the height of both.
    [[nodiscard]] double put(Spot at, const char* name, const cv::Mat& picture) const {
        const TextStyle style{.size = canvas.letter, .bold = true};
        const double below = 1.5 * canvas.letter;
        const double scale = std::min(cell / picture.cols, most / picture.rows);
        if (!canvas.measureOnly) {
            drawText(canvas.pen, at, name, style);
            canvas.picture(picture, {at.x, at.y + below},
                           {scale * picture.cols, scale * picture.rows});
        }
        return below + scale * picture.rows;
    }
};

} // namespace

double drawWorkPhotos(const PiecesCanvas& canvas, const ReportedWork& work) {
    const double gap = 1.2 * canvas.letter, cell = (canvas.width - gap) / 2.0;
    const PairOfPhotos pair{canvas, cell, 0.62 * cell};
    const TextStyle style{.size = canvas.letter, .width = canvas.width};
    double y = canvas.at.y + 0.3 * canvas.letter +
               (canvas.measureOnly ? textExtent(canvas.pen, work.work, style)
                                   : drawText(canvas.pen, canvas.at, work.work, style))
                   .height;
    for (std::size_t i = 0; i < std::max(work.before.size(), work.after.size()); ++i) {
        double height = 0.0, x = canvas.at.x;
        if (i < work.before.size()) {
            height = pair.put({x, y}, "Before", work.before[i].picture);
            x += cell + gap;
        }
        if (i < work.after.size())
            height = std::max(height, pair.put({x, y}, "After", work.after[i].picture));
        y += height + 0.8 * canvas.letter;
    }
    return y - canvas.at.y;
}

} // namespace swarfbook
