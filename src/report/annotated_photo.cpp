// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/annotated_photo.h"

#include "report/drawing.h"
#include "report/hatching.h"
#include "report/mark_letters.h"
#include "report/outline_spots.h"
#include "report/photo_legend.h"
#include "report/photo_view.h"
#include "report/picture_room.h"
#include "report/scale_bar.h"
#include "report/type_marks.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace swarfbook {
namespace {

/// Letter size (em) for a picture printed across an A4 page, 180 mm wide: 6.2 points, which is
/// readable at arm's length (common practice, no source). Its capitals are 1.5 mm high.
constexpr Millimetres letterSize(2.2), widthOnA4(180.0);

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

/// The window's edge in small steps, because a lens bends it.
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
              std::max(11.0, view.picture().cols * letterSize.value() / widthOnA4.value())) {}

    void window(const CardRect& area) {
        const std::vector<Spot> round = windowEdge(view_, area);
        room_.keepOffLine(round);
        tracePolygon(pen_, round);
        static const OutlineMark edge{"", "", grey(0.1), {1.0, 1.0, 1.0, 0.9}, {}};
        strokeMark(pen_, edge, lineWidth_);
    }
    void leftOut(const LeftOut& part) {
        const std::vector<Spot> polygon = spotsOf(view_, part.outline);
        hatch(pen_, polygon, room_.em());
        room_.keepOff(polygon);
    }
    void magnet(const MagnetFinding& magnet) {
        for (const auto& outline : magnet.outlines) {
            room_.keepOffLine(spotsOf(view_, outline));
            tracePolygon(pen_, spotsOf(view_, outline));
            strokeMark(pen_, magnetRimMark(), 1.2 * lineWidth_);
        }
        pieces(magnet.slivers, [](const Particle&) -> const OutlineMark& { return sliverMark(); });
    }
    template <class MarkFor> void pieces(const std::vector<Particle>& particles, MarkFor markFor) {
        const std::size_t first = waiting_.size();
        for (const Particle& particle : particles) {
            const std::vector<Spot> spots = spotsOf(view_, particle.outline);
            if (spots.size() < 3)
                continue;
            room_.keepOff(spots);
            const std::string& letter = markFor(particle).letter;
            waiting_.push_back({spots, particle.mayBeNone() ? "(" + letter + ")" : letter,
                                &particle, &markFor(particle)});
        }
        for (std::size_t i = first; i < waiting_.size(); ++i)
            outline(waiting_[i]);
    }
    /// Letters come last, when every piece is known; those of the largest pieces first.
    int letters() {
        int without = 0;
        for (const Waiting& one : waiting_) {
            const double width = textExtent(pen_, one.letter, letterStyle()).width;
            const std::optional<Spot> at = room_.place(one.outline, width);
            if (at) {
                letter(*at, one);
                continue;
            }
            ++without;
            if (one.tiny())
                tick(one);
        }
        return without;
    }
    /// Places without letters.
    void ticks() {
        for (const Waiting& one : waiting_)
            if (one.tiny())
                tick(one);
    }

  private:
    struct Waiting {
        std::vector<Spot> outline;
        std::string letter;
        const Particle* particle = nullptr;
        const OutlineMark* mark = nullptr;
        /// A line round it would hide the piece.
        [[nodiscard]] bool tiny() const { return particle->maxFeret.value < outlinedFrom; }
    };
    void outline(const Waiting& one) {
        if (one.tiny())
            return;
        tracePolygon(pen_, one.outline);
        strokeMark(pen_, *one.mark, lineWidthFor(*one.particle));
    }
    /// A short line that ends before the piece; none if it would cross a letter or a piece.
    void tick(const Waiting& one) {
        Spot middle{0.0, 0.0};
        double radius = 0.0;
        for (const Spot& spot : one.outline)
            middle = {middle.x + spot.x / static_cast<double>(one.outline.size()),
                      middle.y + spot.y / static_cast<double>(one.outline.size())};
        for (const Spot& spot : one.outline)
            radius = std::max(radius, std::hypot(spot.x - middle.x, spot.y - middle.y));
        // outside the piece's cells and beyond the line's own width
        const double gap = radius + 0.35 * room_.em();
        for (const double length : {0.7 * room_.em(), 0.35 * room_.em()})
            for (int i = 0; i < 8; ++i) { // from the lower left on, turning clockwise
                const double angle = (0.75 + 0.25 * i) * std::numbers::pi;
                const double x = std::cos(angle), y = std::sin(angle);
                const Spot from{middle.x + gap * x, middle.y + gap * y};
                const Spot to{middle.x + (gap + length) * x, middle.y + (gap + length) * y};
                if (room_.isClear(from, to))
                    return drawTick(one, from, to);
            }
    }
    void drawTick(const Waiting& one, Spot from, Spot to) {
        room_.keepOffLine({from, to});
        cairo_move_to(pen_, from.x, from.y);
        cairo_line_to(pen_, to.x, to.y);
        strokeMark(pen_, lineOf(*one.mark), lineWidth_);
    }
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
        // clear of the tiny piece
        const double gap = one.tiny() ? 0.25 * em / away : 0.0;
        const Spot from{nearest->x + (middle.x - nearest->x) * gap,
                        nearest->y + (middle.y - nearest->y) * gap};
        if (away > 1.1 * em)
            leader(one, from,
                   {middle.x + (nearest->x - middle.x) * 0.6 * em / away,
                    middle.y + (nearest->y - middle.y) * 0.6 * em / away});
        const TextStyle style = letterStyle();
        const Extent extent = textExtent(pen_, one.letter, style);
        drawHaloText(pen_, {middle.x - extent.width / 2.0, middle.y - extent.height / 2.0},
                     one.letter, {style, {1.0, 1.0, 1.0, 0.9}});
    }
    /// Unbroken, in the colours of an outline.
    static OutlineMark lineOf(const OutlineMark& mark) {
        return {mark.letter, mark.words, mark.core, mark.casing, {}};
    }
    /// The line from a piece to its letter; of a tiny piece it is the tick that marks it.
    void leader(const Waiting& one, Spot from, Spot to) {
        static const OutlineMark line{"", "", black, {1.0, 1.0, 1.0, 0.8}, {}};
        cairo_move_to(pen_, from.x, from.y);
        cairo_line_to(pen_, to.x, to.y);
        strokeMark(pen_, one.tiny() ? lineOf(*one.mark) : line,
                   (one.tiny() ? 0.8 : 0.5) * lineWidth_);
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
        return markOf(particle.type);
    });
    if (measurement.magnet)
        marker.magnet(*measurement.magnet);
    if (letters)
        return marker.letters();
    marker.ticks();
    return 0;
}

/// Draws the legend below the picture. @return its height in rows.
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

/// Draws all marks and the legend. @return the picture for them, and the legend's height in rows
/// below it.
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

} // namespace swarfbook
