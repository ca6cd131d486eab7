// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/photo_legend.h"

#include "report/hatching.h"
#include "report/report_words.h"
#include "report/type_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace swarfbook {

namespace {

std::string titleOf(const Measurement& measurement) {
    std::string title(placeWord(measurement.place));
    title[0] = static_cast<char>(title[0] - 'a' + 'A');
    if (measurement.photo.taken.size() >= 10)
        title += ", photo of " + dateWords(measurement.photo.taken);
    return title;
}

std::string leftOutNote(const DebrisFinding& debris) {
    std::set<std::string> reasons;
    for (const LeftOut& part : debris.leftOut)
        reasons.insert(part.why);
    std::string list;
    for (const std::string& reason : reasons)
        list += (list.empty() ? "" : ", ") + reason;
    return fmt::format("Measured: {:.1f} of {:.1f} cm\u00b2. Left out: {}.",
                       debris.measuredArea.value(), debris.windowArea.value(), list);
}

std::string countNote(const DebrisFinding& debris) {
    if (debris.shownOnly)
        return "Shown, not counted: look at the marked pieces by eye.";
    if (debris.particles.empty())
        return fmt::format("No piece of {:.2f} mm or more was found. From {:.2f} mm up nine of ten "
                           "are found; smaller ones may have been missed.",
                           debris.resolutionLimit.value(), debris.detectionLimit.value());
    const auto atEdge = std::count_if(debris.particles.begin(), debris.particles.end(),
                                      [](const Particle& p) { return p.atEdge; });
    std::string note = piecesWords(debris) + ".";
    if (atEdge > 0)
        note += fmt::format(" {} at the window's edge {}.", atEdge,
                            debris.onWhiteCard ? "counted, length is a minimum" : "not counted");
    return note;
}

/// One sample of the legend: a little outline, its letter and its words.
struct Sample {
    const OutlineMark* mark = nullptr; ///< null: the hatching
    std::string words;
};

std::vector<Sample> samplesOf(const LegendWords& words) {
    std::vector<Sample> samples;
    for (int i = 0; i < particleTypeCount; ++i) {
        const int count = words.byType[static_cast<std::size_t>(i)];
        const OutlineMark& mark = markOf(static_cast<ParticleType>(i));
        if (count > 0)
            samples.push_back({&mark, fmt::format("{} {}: {}", mark.letter, mark.words, count)});
    }
    if (words.slivers > 0)
        samples.push_back(
            {&sliverMark(), fmt::format("S {}: {}", sliverMark().words, words.slivers)});
    if (words.leftOut)
        samples.push_back({nullptr, "not measured"});
    return samples;
}

/// A sample on the grey of an average ground, so that light and dark lines both show.
void drawSample(cairo_t* pen, Spot at, const Sample& sample, double em) {
    const double width = 2.6 * em, height = 1.1 * em;
    cairo_save(pen);
    setInk(pen, grey(0.68));
    cairo_rectangle(pen, at.x, at.y, width, height);
    cairo_fill(pen);
    if (sample.mark == nullptr) {
        hatch(pen,
              {{at.x, at.y},
               {at.x + width, at.y},
               {at.x + width, at.y + height},
               {at.x, at.y + height}},
              em);
    } else {
        cairo_translate(pen, at.x + width / 2.0, at.y + height / 2.0);
        cairo_scale(pen, 1.0 * em, 0.33 * em);
        cairo_arc(pen, 0.0, 0.0, 1.0, 0.0, 6.2832);
        cairo_restore(pen);
        cairo_save(pen);
        strokeMark(pen, *sample.mark, em * 0.12);
    }
    cairo_restore(pen);
}

/// Draws the samples of the legend's marks side by side, from y down; returns where they end.
double drawSamples(cairo_t* pen, const LegendBand& band, const std::vector<Sample>& samples,
                   double y) {
    const double em = band.em;
    const double left = band.topLeft.x + em, room = band.width - 2.0 * em;
    double x = left;
    const TextStyle style{.size = em};
    const double lineHeight = 1.6 * em;
    for (const Sample& sample : samples) {
        const double needed = 3.1 * em + textExtent(pen, sample.words, style).width;
        if (x > left && x + needed > left + room) {
            x = left;
            y += lineHeight;
        }
        if (!band.measureOnly) {
            drawSample(pen, {x, y}, sample, em);
            drawText(pen, {x + 3.1 * em, y - 0.05 * em}, sample.words, style);
        }
        x += needed + 1.6 * em;
    }
    if (!samples.empty())
        y += lineHeight;
    return y;
}

} // namespace

LegendWords legendWords(const Measurement& measurement, const AnnotationOptions& options,
                        int withoutLetter) {
    const DebrisFinding& debris = *measurement.debris;
    LegendWords words;
    words.title = options.title.empty() ? titleOf(measurement) : options.title;
    words.notes.push_back(countNote(debris));
    if (!debris.leftOut.empty())
        words.notes.push_back(leftOutNote(debris));
    if (!measurement.card->printScale.checked)
        words.notes.push_back(fmt::format(
            "The card's print scale was not checked: lengths may be off by {:.1f} % (standard "
            "uncertainty).",
            100.0 * measurement.card->printScale.standardUncertainty));
    if (!options.marks)
        return words;
    for (const Particle& particle : debris.particles)
        if (debris.onWhiteCard || !particle.atEdge) // as the counts
            ++words.byType[static_cast<std::size_t>(particle.type)];
    words.slivers = measurement.magnet ? static_cast<int>(measurement.magnet->slivers.size()) : 0;
    words.leftOut = !debris.leftOut.empty();
    if (const auto doubtful = piecesInDoubt(debris); doubtful > 0 && options.letters)
        words.notes.push_back(fmt::format("In brackets: {} doubtful.", doubtful));
    if (std::any_of(debris.particles.begin(), debris.particles.end(),
                    [](const Particle& p) { return p.maxFeret.value < outlinedFrom; }))
        words.notes.push_back(fmt::format(
            "A piece under {:g} mm has no outline: its letter or a tick stands beside it.",
            outlinedFrom.value()));
    if (withoutLetter > 0)
        words.notes.push_back(fmt::format("{} piece{} not labelled (no room).", withoutLetter,
                                          withoutLetter == 1 ? "" : "s"));
    return words;
}

double drawLegend(cairo_t* pen, const LegendBand& band, const LegendWords& words,
                  const ScaleBar& bar) {
    const double em = band.em;
    const bool measureOnly = band.measureOnly;
    const double left = band.topLeft.x + em, room = band.width - 2.0 * em;
    double y = band.topLeft.y + 0.6 * em;
    auto put = [&](double x, double at, const std::string& text, const TextStyle& style) {
        return measureOnly ? textExtent(pen, text, style) : drawText(pen, {x, at}, text, style);
    };
    y += put(left, y, words.title, {.size = 1.15 * em, .bold = true, .width = room}).height;
    y += 0.6 * em;

    const double barWidth = bar.drawn.value();
    if (!measureOnly)
        drawScaleBar(pen, {left, y + 0.6 * em}, bar.drawn, 0.16 * em);
    const TextStyle barStyle{.size = em, .width = std::max(8.0 * em, room - barWidth - em)};
    y += put(left + barWidth + em, y, barWords(bar.length) + " " + bar.where, barStyle).height;
    y += 0.5 * em;

    y = drawSamples(pen, band, samplesOf(words), y);
    for (const std::string& note : words.notes)
        y += put(left, y, note, {.size = 0.9 * em, .width = room}).height + 0.15 * em;
    return y + 0.5 * em - band.topLeft.y;
}

} // namespace swarfbook
