// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/front_page.h"

#include "report/report_words.h"
#include "report/scale_bar.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace swarfbook {

namespace {

constexpr double signatureBlock = 122.0; // authorisation and standing line, at the page's foot
constexpr double textSize = 10.0;

void box(cairo_t* pen, Spot at, Extent size, double thickness) {
    setInk(pen, black);
    cairo_set_line_width(pen, thickness);
    cairo_rectangle(pen, at.x, at.y, size.width, size.height);
    cairo_stroke(pen);
}

void writeTitle(PageWriter& page, const ReportedJob& job) {
    const TextStyle name{.size = 16.0, .bold = true, .width = page.width(), .maxLines = 1};
    if (!job.workshop.empty()) {
        drawText(page.pen(), {page.left(), page.y()}, job.workshop, name);
        page.gap(21.0);
    }
    drawText(page.pen(), {page.left(), page.y()}, "Transmission inspection: what was found",
             {.size = 12.0, .ink = grey(0.2), .width = page.width(), .maxLines = 1});
    page.gap(20.0);
}

/// Pairs of a name and what is said, two side by side.
void writeJob(PageWriter& page, const ReportedJob& job) {
    std::vector<std::pair<std::string, std::string>> facts{
        {"Vehicle", job.vehicle}, {"Date", fmt::format("{}, visit {}", job.date, job.visit)}};
    facts.emplace_back("Odometer", job.odometerKm ? kilometreWords(*job.odometerKm) : "not said");
    facts.emplace_back("Since last clean",
                       job.sinceCleanKm ? kilometreWords(*job.sinceCleanKm) : "not known");
    if (!job.unit.empty())
        facts.emplace_back("Transmission", job.unit);
    if (!job.lookedBy.empty())
        facts.emplace_back("Looked at by", job.lookedBy);
    if (!job.plate.empty())
        facts.emplace_back("Plate", job.plate);
    if (!job.vin.empty())
        facts.emplace_back("VIN", job.vin);
    const double half = page.width() / 2.0, name = 88.0;
    double height = 0.0;
    for (std::size_t i = 0; i < facts.size(); ++i) {
        const double x = page.left() + (i % 2 == 0 ? 0.0 : half);
        drawText(page.pen(), {x, page.y()}, facts[i].first,
                 {.size = 9.0, .ink = grey(0.3), .width = name, .maxLines = 1});
        const Extent room = drawText(page.pen(), {x + name, page.y()}, facts[i].second,
                                     {.size = 9.0, .width = half - name - 8.0, .maxLines = 3});
        height = std::max(height, room.height + 3.0);
        if (i % 2 == 1 || i + 1 == facts.size())
            page.gap(std::exchange(height, 0.0));
    }
    if (!job.complaint.empty()) {
        drawText(page.pen(), {page.left(), page.y()}, "Complaint",
                 {.size = 9.0, .ink = grey(0.3), .width = name, .maxLines = 1});
        const Extent room = drawText(page.pen(), {page.left() + name, page.y()}, job.complaint,
                                     {.size = 9.0, .width = page.width() - name, .maxLines = 2});
        page.gap(room.height + 3.0);
    }
    page.gap(6.0);
}

void writeVerdict(PageWriter& page, const std::string& verdict) {
    const double pad = 10.0;
    const TextStyle style{
        .size = 15.0, .bold = true, .width = page.width() - 2.0 * pad, .maxLines = 6};
    const double height = textExtent(page.pen(), verdict, style).height;
    box(page.pen(), {page.left(), page.y()}, {page.width(), height + 2.0 * pad}, 1.6);
    drawText(page.pen(), {page.left() + pad, page.y() + pad}, verdict, style);
    page.gap(height + 2.0 * pad + 10.0);
}

struct TextColumn {
    Spot at;
    double width = 0.0;
    double lowest = 0.0; ///< y that nothing goes beyond
};

/// Bullets in a column while they fit; a last one says where the others are.
double writeColumn(PageWriter& page, const TextColumn& column,
                   const std::vector<std::string>& list) {
    const auto& [at, width, lowest] = column;
    const double indent = 11.0;
    double y = at.y;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const TextStyle style{.size = textSize, .width = width - indent, .maxLines = 3};
        const double height = textExtent(page.pen(), list[i], style).height;
        const bool last = i + 1 == list.size();
        if (y + height + (last ? 0.0 : 14.0) > lowest) {
            drawText(page.pen(), {at.x + indent, y},
                     fmt::format("{} more on the next pages.", list.size() - i),
                     {.size = textSize, .italic = true, .width = width - indent, .maxLines = 1});
            return y + 14.0;
        }
        drawText(page.pen(), {at.x, y}, "\u2022", {.size = textSize});
        drawText(page.pen(), {at.x + indent, y}, list[i], style);
        y += height + 3.0;
    }
    return y;
}

double writeTitled(PageWriter& page, const TextColumn& column, const std::string& title,
                   const std::vector<std::string>& list) {
    const auto& [at, width, lowest] = column;
    if (list.empty() || at.y + 30.0 > lowest)
        return at.y;
    drawText(page.pen(), at, title, {.size = 11.0, .bold = true, .width = width, .maxLines = 1});
    return writeColumn(page, {{at.x, at.y + 15.0}, width, lowest}, list) + 5.0;
}

/// The picture with a scale bar and one sentence below; gives the lowest y it takes.
double writePicture(PageWriter& page, Spot at, double width, const ReportedSample& sample) {
    const Extent drawn = page.picture(sample.plain, at, {width, 165.0});
    box(page.pen(), at, drawn, 0.5);
    double y = at.y + drawn.height + 8.0;
    const PixelsPerMillimetre scale(sample.plainPxPerMm * drawn.width / sample.plain.cols);
    const Millimetres length = roundLength(Pixels(drawn.width / 3.0) / scale);
    const Pixels bar = length * scale;
    drawScaleBar(page.pen(), {at.x, y}, bar, 1.0);
    drawText(page.pen(), {at.x + bar.value() + 6.0, y - 5.5}, barWords(length), {.size = 8.5});
    y += 8.0;
    const std::string caption =
        placeTitle(sample.place) + ", seen straight from above. " +
        (sample.magnet ? magnetSentence(*sample.magnet) : sampleSentence(sample));
    return y +
           drawText(page.pen(), {at.x, y}, caption, {.size = 8.5, .width = width, .maxLines = 3})
               .height;
}

std::vector<std::string> reasonsOf(const ReportModel& model) {
    if (!model.suggestion)
        return {model.noSuggestion};
    std::vector<std::string> reasons = model.suggestion->strongestReasons;
    if (!model.suggestion->strongestContrary.empty())
        reasons.push_back("Speaks against it: " + model.suggestion->strongestContrary);
    return reasons;
}

void writeSignature(PageWriter& page) {
    const double top = page.bottom() - signatureBlock + 6.0, width = page.width();
    box(page.pen(), {page.left(), top}, {width, 78.0}, 0.8);
    drawText(page.pen(), {page.left() + 8.0, top + 6.0},
             "Authorisation: I agree to the work named here, up to the amount below.",
             {.size = 9.0, .bold = true, .width = width - 16.0, .maxLines = 1});
    const char* const fields[2][2] = {{"Name", "Date"}, {"Signature", "Amount"}};
    for (int row = 0; row < 2; ++row)
        for (int column = 0; column < 2; ++column) {
            const double x = page.left() + 8.0 + column * 0.58 * width;
            const double lineLeft = x + 52.0, y = top + 42.0 + row * 26.0;
            const double lineRight = page.left() + (column == 0 ? 0.56 * width : width - 8.0);
            drawText(page.pen(), {x, y - 9.0}, fields[row][column], {.size = 9.0});
            setInk(page.pen(), black);
            cairo_set_line_width(page.pen(), 0.6);
            cairo_move_to(page.pen(), lineLeft, y + 2.0);
            cairo_line_to(page.pen(), lineRight, y + 2.0);
            cairo_stroke(page.pen());
        }
    drawText(page.pen(), {page.left(), top + 86.0}, standingLine(),
             {.size = 8.5, .italic = true, .width = width, .maxLines = 2});
}

} // namespace

const ReportedSample* tellingSample(const ReportModel& model) {
    const ReportedSample* telling = nullptr;
    double largest = -1.0;
    for (const ReportedSample& sample : model.samples) {
        if (sample.refusal || sample.debris.shownOnly || sample.plain.empty())
            continue;
        double here = 0.0;
        for (const Particle& particle : sample.debris.particles)
            if (particle.look != Look::fibre)
                here = std::max(here, particle.maxFeret.value.value());
        if (here > largest) {
            largest = here;
            telling = &sample;
        }
    }
    return telling;
}

void writeFrontPage(PageWriter& page, const ReportModel& model) {
    const double lowest = page.bottom() - signatureBlock;
    writeTitle(page, model.job);
    writeJob(page, model.job);
    writeVerdict(page, model.verdict);

    const ReportedSample* sample = tellingSample(model);
    const double pictureWidth = sample != nullptr ? 0.44 * page.width() : 0.0;
    const double textWidth = page.width() - pictureWidth - (sample != nullptr ? 14.0 : 0.0);
    const Spot start{page.left(), page.y()};
    double y = writeTitled(page, {start, textWidth, lowest}, "Why", reasonsOf(model));
    const double pictureEnd =
        sample != nullptr ? writePicture(page, {page.left() + textWidth + 14.0, start.y + 2.0},
                                         pictureWidth, *sample)
                          : start.y;
    if (model.suggestion)
        y = writeTitled(page, {{page.left(), y}, textWidth, lowest}, "What we suggest",
                        suggestionSentences(*model.suggestion));
    if (!model.nextCheck.empty())
        y = writeTitled(page, {{page.left(), y}, textWidth, lowest}, "Next check",
                        {model.nextCheck});
    y = std::max(y, pictureEnd + 8.0);
    std::vector<std::string> unknown = notLookedAt(model);
    if (unknown.empty())
        unknown.emplace_back("Nothing was recorded as left out.");
    writeTitled(page, {{page.left(), y}, page.width(), lowest},
                "What was not looked at or is not known", unknown);
    writeSignature(page);
}

} // namespace swarfbook
