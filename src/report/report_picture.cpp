// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_picture.h"

#include "report/drawing.h"
#include "report/front_page.h"
#include "report/report_words.h"
#include "report/scale_bar.h"

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
    void picture(const cv::Mat& bgr) {
        const double scale = room / bgr.cols, height = std::floor(bgr.rows * scale);
        y_ = std::ceil(y_ + 10.0);
        if (!measureOnly_) {
            cv::Mat fitted;
            cv::resize(bgr, fitted, {static_cast<int>(room), static_cast<int>(height)}, 0, 0,
                       cv::INTER_AREA);
            const Picture source(fitted);
            cairo_set_source_surface(pen_, cairo_get_target(source.pen()), margin, y_);
            cairo_paint(pen_);
        }
        y_ += height + 12.0;
    }
    void scaleBar(PixelsPerMillimetre scale) {
        const Millimetres length = roundLength(Pixels(room / 3.0) / scale);
        const Pixels bar = length * scale;
        if (!measureOnly_) {
            drawScaleBar(pen_, {margin, y_ + 12.0}, bar, 4.0);
            drawText(pen_, {margin + bar.value() + 16.0, y_ - 4.0}, barWords(length),
                     {.size = 25.0});
        }
        y_ += 34.0;
    }
    void gap(double height) { y_ += height; }
    [[nodiscard]] double y() const { return y_; }

  private:
    cairo_t* pen_;
    bool measureOnly_;
    double y_ = margin;
};

void write(Column& column, const ReportModel& model) {
    const ReportedJob& job = model.job;
    column.text(job.workshop, {.size = 36.0, .bold = true, .maxLines = 2});
    std::string line = fmt::format("Vehicle {}, {}", job.vehicle, job.date);
    if (job.odometerKm)
        line += ", " + kilometreWords(*job.odometerKm);
    column.text(line, {.size = 29.0, .ink = grey(0.25), .maxLines = 2});
    column.verdict(model.verdict);
    column.title("Why");
    column.bullets(model.suggestion ? model.suggestion->strongestReasons
                                    : std::vector<std::string>{model.noSuggestion});
    if (const ReportedSample* sample = tellingSample(model)) {
        column.picture(sample->plain);
        column.scaleBar(PixelsPerMillimetre(sample->plainPxPerMm * room / sample->plain.cols));
        column.text(placeTitle(sample->place) + ": " + sampleSentence(*sample),
                    {.size = 25.0, .maxLines = 5});
    }
    if (model.suggestion) {
        column.title("What we suggest");
        column.bullets(suggestionSentences(*model.suggestion));
    }
    if (!model.nextCheck.empty()) {
        column.title("Next check");
        column.bullets({model.nextCheck});
    }
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
