// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/annotated_photo.h"

#include "report/drawing.h"
#include "report/hatching.h"
#include "report/look_marks.h"
#include "report/mark_letters.h"
#include "report/photo_legend.h"
#include "report/photo_view.h"
#include "report/picture_room.h"
#include "report/scale_bar.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace swarfbook {
namespace {

void requireMeasured(const cv::Mat& bgr, const Measurement& measurement) {
    if (measurement.refusal || !measurement.card || !measurement.debris)
        throw std::logic_error("a refused photo has nothing to draw");
    if (bgr.cols != measurement.photo.widthPx || bgr.rows != measurement.photo.heightPx)
        throw std::logic_error("the measurement belongs to a photo of another size");
}

PhotoView viewFor(const cv::Mat& bgr, const Measurement& measurement,
                  const AnnotationOptions& options) {
    if (!options.straightenedAt)
        return {bgr, *measurement.card};
    CardRect area = windowOf(*measurement.card);
    const double margin = options.margin.value();
    area = {area.x - margin, area.y - margin, area.width + 2.0 * margin,
            area.height + 2.0 * margin};
    return PhotoView::straightened(bgr, *measurement.card, area, *options.straightenedAt);
}

std::vector<Spot> spotsOf(const PhotoView& view, const std::vector<PointOnCard>& outline) {
    std::vector<Spot> spots;
    spots.reserve(outline.size());
    for (const PointOnCard& point : outline)
        spots.push_back(view.spotOf(point));
    return spots;
}

/// The window's edge walked in small steps, for a lens bends it.
std::vector<Spot> windowEdge(const PhotoView& view, const CardRect& window) {
    constexpr int steps = 32;
    std::vector<Spot> spots;
    const PointOnCard corners[5] = {{window.x, window.y},
                                    {window.x + window.width, window.y},
                                    {window.x + window.width, window.y + window.height},
                                    {window.x, window.y + window.height},
                                    {window.x, window.y}};
    for (int side = 0; side < 4; ++side)
        for (int i = 0; i < steps; ++i) {
            const double t = static_cast<double>(i) / steps;
            const PointOnCard a = corners[side], b = corners[side + 1];
            spots.push_back(view.spotOf({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}));
        }
    return spots;
}

/// Draws the marks of one measurement on one picture.
class Marker {
  public:
    Marker(const Drawing& drawing, const PhotoView& view)
        : pen_(drawing.pen()), view_(view), lineWidth_(std::max(1.1, view.picture().cols / 1600.0)),
          room_(
              {static_cast<double>(view.picture().cols), static_cast<double>(view.picture().rows)},
              std::max(11.0, view.picture().cols / (view.isStraightened() ? 95.0 : 115.0))) {}

    void window(const CardRect& area) {
        tracePolygon(pen_, windowEdge(view_, area));
        static const OutlineMark edge{"", "", grey(0.1), {1.0, 1.0, 1.0, 0.9}, {}};
        strokeMark(pen_, edge, lineWidth_);
    }
    void leftOut(const LeftOut& part) {
        const std::vector<Spot> polygon = spotsOf(view_, part.outline);
        hatch(pen_, polygon, room_.em());
        room_.keepOff(polygon);
    }
    void magnet(const MagnetFinding& magnet) {
        static const OutlineMark rim{"", "", white, {0.0, 0.0, 0.0, 0.9}, {9.0, 5.0}};
        for (const auto& outline : magnet.outlines) {
            tracePolygon(pen_, spotsOf(view_, outline));
            strokeMark(pen_, rim, 1.2 * lineWidth_);
        }
        pieces(magnet.slivers, [](const Particle&) -> const OutlineMark& { return sliverMark(); });
    }
    template <class MarkFor> void pieces(const std::vector<Particle>& particles, MarkFor markFor) {
        for (const Particle& particle : particles) {
            const std::vector<Spot> spots = spotsOf(view_, particle.outline);
            if (spots.size() < 3)
                continue;
            room_.keepOff(spots);
            tracePolygon(pen_, spots);
            strokeMark(pen_, markFor(particle), lineWidthFor(particle));
            const std::string& letter = markFor(particle).letter;
            waiting_.push_back({spots, particle.mayBeNone() ? "(" + letter + ")" : letter});
        }
    }
    /// Letters come last, when every piece is known, the largest pieces' first.
    int letters() {
        int without = 0;
        for (const Waiting& one : waiting_) {
            const double width = textExtent(pen_, one.letter, letterStyle()).width;
            const std::optional<Spot> at = room_.place(one.outline, width);
            if (at)
                letter(*at, one);
            else
                ++without;
        }
        return without;
    }

  private:
    struct Waiting {
        std::vector<Spot> outline;
        std::string letter;
    };
    /// Thin round a small piece, so that the line does not hide what it outlines.
    [[nodiscard]] double lineWidthFor(const Particle& particle) const {
        const Pixels across = particle.minFeret.value * view_.horizontalScaleAt(particle.centre);
        return std::clamp(across.value() / 7.0, 0.5 * lineWidth_, lineWidth_);
    }
    [[nodiscard]] TextStyle letterStyle() const {
        return {.size = 0.95 * room_.em(), .bold = true};
    }
    void letter(Spot middle, const Waiting& one) {
        const double em = room_.em();
        const auto nearest = std::min_element(
            one.outline.begin(), one.outline.end(), [&](const Spot& a, const Spot& b) {
                return std::hypot(a.x - middle.x, a.y - middle.y) <
                       std::hypot(b.x - middle.x, b.y - middle.y);
            });
        const double away = std::hypot(nearest->x - middle.x, nearest->y - middle.y);
        if (away > 1.1 * em)
            leader(*nearest, {middle.x + (nearest->x - middle.x) * 0.6 * em / away,
                              middle.y + (nearest->y - middle.y) * 0.6 * em / away});
        const TextStyle style = letterStyle();
        const Extent extent = textExtent(pen_, one.letter, style);
        drawHaloText(pen_, {middle.x - extent.width / 2.0, middle.y - extent.height / 2.0},
                     one.letter, {style, {1.0, 1.0, 1.0, 0.9}});
    }
    void leader(Spot from, Spot to) {
        static const OutlineMark line{"", "", black, {1.0, 1.0, 1.0, 0.8}, {}};
        cairo_move_to(pen_, from.x, from.y);
        cairo_line_to(pen_, to.x, to.y);
        strokeMark(pen_, line, 0.5 * lineWidth_);
    }

    cairo_t* pen_;
    const PhotoView& view_;
    double lineWidth_;
    LetterRoom room_;
    std::vector<Waiting> waiting_;
};

int drawMarks(Marker& marker, const Measurement& measurement, bool letters) {
    const DebrisFinding& debris = *measurement.debris;
    for (const LeftOut& part : debris.leftOut)
        marker.leftOut(part);
    marker.pieces(debris.particles, [](const Particle& particle) -> const OutlineMark& {
        return markOf(particle.look);
    });
    if (measurement.magnet)
        marker.magnet(*measurement.magnet);
    return letters ? marker.letters() : 0;
}

/// Draws the legend below the picture. @return rows that it takes.
int addLegend(const Drawing& drawing, const PhotoView& view, const LegendWords& words,
              const CardRect& window) {
    const ScaleBar bar = scaleBarFor(view, window);
    const cv::Size size = view.picture().size();
    const double em = std::max(12.0, size.width / 62.0);
    const Picture trial(1, 1);
    const auto width = static_cast<double>(size.width);
    const double height = drawLegend(trial.pen(), {{}, width, em, true}, words, bar);
    drawLegend(drawing.pen(), {{0.0, static_cast<double>(size.height)}, width, em, false}, words,
               bar);
    return static_cast<int>(std::ceil(height));
}

/// Draws all marks and the legend. @return the picture that they are to be put onto, and the rows
/// that the legend takes below it.
std::pair<cv::Mat, int> draw(const Drawing& drawing, const cv::Mat& bgr,
                             const Measurement& measurement, const AnnotationOptions& options) {
    const PhotoView view = viewFor(bgr, measurement, options);
    const CardRect window = windowOf(*measurement.card);
    Marker marker(drawing, view);
    marker.window(window);
    const int withoutLetter = options.marks ? drawMarks(marker, measurement, options.letters) : 0;
    if (!options.legend)
        return {view.picture(), 0};
    const LegendWords words = legendWords(measurement, options, withoutLetter);
    return {view.picture(), addLegend(drawing, view, words, window)};
}

} // namespace

cv::Mat annotatedPhoto(cv::Mat bgr, const Measurement& measurement,
                       const AnnotationOptions& options) {
    requireMeasured(bgr, measurement);
    const Drawing drawing;
    auto [picture, rowsBelow] = draw(drawing, bgr, measurement, options);
    bgr.release();
    cv::Mat drawn = withRoom(std::move(picture), rowsBelow);
    drawing.putOnto(drawn);
    return drawn;
}

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
        strokeMark(picture.pen(), markOf(particle.look),
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
