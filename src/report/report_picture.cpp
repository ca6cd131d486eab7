// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_picture.h"

#include "report/customer_words.h"
#include "report/drawing.h"
#include "report/pieces_drawing.h"
#include "report/report_words.h"
#include "report/trend_chart.h"
#include "report/work_photos_drawing.h"

#include <fmt/format.h>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook {

namespace {

constexpr int pictureWidth = 1080;
constexpr double margin = 44.0, room = pictureWidth - 2.0 * margin;

/// Text and pictures from the top down; with `measureOnly` nothing is drawn.
class Column {
  public:
    Column(cairo_t* pen, bool measureOnly) : pen_(pen), measureOnly_(measureOnly) {}

    void text(const std::string& words, TextStyle style, double indent = 0.0) {
        if (words.empty())
            return;
        style.width = room - indent;
        const Extent extent = measureOnly_ ? textExtent(pen_, words, style)
                                           : drawText(pen_, {margin + indent, y_}, words, style);
        y_ += extent.height + 0.25 * style.size;
    }
    void title(const std::string& words) {
        y_ += 14.0;
        text(words, {.size = 30.0, .bold = true});
    }
    void bullets(const std::vector<std::string>& list) {
        for (const std::string& words : list) {
            if (!measureOnly_)
                drawText(pen_, {margin, y_}, "\u2022", {.size = 29.0});
            text(words, {.size = 29.0, .maxLines = 7}, 32.0);
        }
    }
    void verdict(const std::string& words) {
        const double pad = 22.0, top = y_ + 8.0;
        const TextStyle style{.size = 42.0, .bold = true, .width = room - 2.0 * pad, .maxLines = 8};
        const double height = textExtent(pen_, words, style).height;
        if (!measureOnly_) {
            setInk(pen_, black);
            cairo_set_line_width(pen_, 5.0);
            cairo_rectangle(pen_, margin, top, room, height + 2.0 * pad);
            cairo_stroke(pen_);
            drawText(pen_, {margin + pad, top + pad}, words, style);
        }
        y_ = top + height + 2.0 * pad + 10.0;
    }
    void pieces(const ReportedPieces& pieces) {
        y_ = std::ceil(y_ + 4.0);
        y_ += drawPieces(canvas(), pieces) + 8.0;
    }
    void work(const ReportedWork& work) {
        y_ = std::ceil(y_ + 4.0);
        y_ += drawWorkPhotos(canvas(), work) + 8.0;
    }
    void chart(const std::vector<ReportedTrendPoint>& points) {
        constexpr double height = 300.0, gapAbove = 14.0;
        y_ += gapAbove;
        if (!measureOnly_)
            drawTrendChart(pen_, {{margin, y_}, {room, height}, 21.0}, points);
        y_ += height + 8.0;
    }
    void gap(double height) { y_ += height; }
    [[nodiscard]] double y() const { return y_; }

  private:
    /// The place of the next block with pictures.
    [[nodiscard]] PiecesCanvas canvas() const {
        PiecesCanvas canvas{pen_, {margin, y_}, room, 25.0, measureOnly_, {}};
        canvas.picture = [this](const cv::Mat& bgr, Spot at, Extent size) {
            cv::Mat fitted;
            cv::resize(bgr, fitted, {static_cast<int>(size.width), static_cast<int>(size.height)},
                       0, 0, cv::INTER_AREA);
            const Picture source(fitted);
            cairo_set_source_surface(pen_, cairo_get_target(source.pen()), std::floor(at.x),
                                     std::floor(at.y));
            cairo_paint(pen_);
        };
        return canvas;
    }

    cairo_t* pen_;
    bool measureOnly_;
    double y_ = margin;
};

void write(Column& column, const ReportModel& model) {
    const ReportedJob& job = model.job;
    column.text(job.workshop, {.size = 36.0, .bold = true, .maxLines = 2});
    column.text(contactLine(job), {.size = 25.0, .ink = grey(0.25), .maxLines = 2});
    std::string line = fmt::format("Vehicle {}, {}", job.vehicle, dateWords(job.date));
    if (job.odometerKm)
        line += ", " + distanceWords(*job.odometerKm);
    column.text(line, {.size = 29.0, .ink = grey(0.25), .maxLines = 2});
    column.verdict(model.verdict);
    if (!model.pieces.now.empty()) {
        column.title(model.pieces.restedOn ? "The pieces behind this finding" : "What was found");
        column.pieces(model.pieces);
    }
    column.title("Why");
    column.bullets(reasonSentences(model));
    if (model.suggestion) {
        column.title("What we suggest");
        column.bullets(suggestionSentences(*model.suggestion));
        column.title("What waiting risks");
        column.bullets({waitingSentence(model.suggestion)});
    }
    if (!model.workDone.empty()) {
        column.title("What was done");
        column.bullets(model.workDone);
        for (const ReportedWork& work : model.workShown)
            column.work(work);
    }
    if (!model.nextCheck.empty()) {
        column.title("Next check");
        column.bullets({model.nextCheck});
    }
    column.title("Since the last visit");
    column.bullets({comparisonSentence(model)});
    if (scoredVisits(model.trend) > 1)
        column.chart(model.trend);
    column.gap(16.0);
    column.text(std::string(standingLine()), {.size = 23.0, .italic = true, .ink = grey(0.2)});
}

} // namespace

cv::Mat reportPicture(const ReportModel& model) {
    const Picture trial(1, 1);
    Column measured(trial.pen(), true);
    write(measured, model);
    const Picture picture(pictureWidth, static_cast<int>(std::ceil(measured.y() + margin)));
    Column column(picture.pen(), false);
    write(column, model);
    return picture.bgr();
}

} // namespace swarfbook
