// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/type_evidence.h"
#include "report/evidence_pages.h"
#include "report/magnet_words.h"
#include "report/report_words.h"
#include "report/second_light_words.h"
#include "report/size_words.h"
#include "report/sweep_words.h"
#include "report/type_marks.h"
#include "report/type_sources.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {

namespace {

/// Of a heading whose longest word stays whole.
double columnWidth(const std::string& heading) {
    std::size_t longest = 0, begin = 0;
    while (begin <= heading.size()) {
        const std::size_t end = std::min(heading.find(' ', begin), heading.size());
        longest = std::max(longest, end - begin);
        begin = end + 1;
    }
    return std::max(0.95, 0.1 + 0.125 * static_cast<double>(longest));
}

Table countsTable(const DebrisFinding& debris) {
    Table table{{{"ISO 16232 class and size", 1.95},
                 {"Seen", 0.6, Align::right},
                 {debris.onWhiteCard ? "Per sample (95\u00a0%)" : "Per 100 cm\u00b2 (95\u00a0%)",
                  2.25, Align::right}},
                {}};
    std::vector<int> types;
    for (int i = 0; i < particleTypeCount; ++i)
        for (const ClassCount& row : debris.counts)
            if (row.byType.at(static_cast<std::size_t>(i)) > 0) {
                types.push_back(i);
                const std::string words(markOf(static_cast<ParticleType>(i)).words);
                table.columns.push_back({words, columnWidth(words), Align::right});
                break;
            }
    for (const ClassCount& row : rowsToShow(debris)) {
        std::vector<std::string> cells{
            row.sizeClass + ": " + sizeWords(row), fmt::format("{}", row.count),
            (row.complete ? "" : "\u2265 ") +
                intervalWords(row.per100Cm2, row.intervalLow, row.intervalHigh)};
        for (const int i : types)
            cells.push_back(fmt::format("{}", row.byType.at(static_cast<std::size_t>(i))));
        table.rows.push_back(std::move(cells));
    }
    return table;
}

std::string wordsOfType(const Particle& piece) {
    const std::string who = whoSaidType(piece);
    if (piece.type == ParticleType::unidentified)
        return fmt::format("{}{}", typeWord(piece.type), who.empty() ? "" : " (" + who + ")");
    return fmt::format("{} ({:.0f} %{}{})", typeWord(piece.type), 100.0 * piece.chanceOfType(),
                       who.empty() ? "" : ", ", who);
}

std::string pieceWords(const ReportedPiece& reported) {
    const Particle& piece = reported.particle;
    std::string words = fmt::format("{}: {} long, {} wide, {}", piece.id, longestSideWords(piece),
                                    lengthWords(widthOf(piece)), wordsOfType(piece));
    if (reported.inCoat)
        words = "Sliver in the coat, " + words;
    if (piece.ferrous != Ferrous::notKnown)
        words += ", magnetic: " + ferrousWords(piece.ferrous);
    if (piece.atEdge)
        words += ", cut by the window's edge";
    if (piece.mayBeSeveral)
        words += ", may be several";
    if (piece.mayBeNone())
        words += ", doubtful";
    return words;
}

constexpr int cropsAcross = 6;
constexpr double cropGap = 6.0;

/// Height of the crops and of the words below them; nothing where there are none.
std::pair<double, double> cropHeights(const PageWriter& page, const ReportedSample& sample) {
    const double cell = (page.width() - (cropsAcross - 1) * cropGap) / cropsAcross;
    double pictures = 0.0, words = 0.0;
    for (const ReportedPiece& piece : sample.largest) {
        const TextStyle style{.size = 7.2, .width = cell};
        words = std::max(words, textExtent(page.pen(), pieceWords(piece), style).height);
        if (!piece.crop.empty())
            pictures = std::max(pictures, cell * piece.crop.rows / piece.crop.cols);
    }
    return {pictures, words};
}

std::string threadsSentence(const ReportedSample& sample) {
    std::string list;
    for (const ReportedPiece& thread : sample.threads)
        list += (list.empty() ? "" : "; ") + pieceWords(thread);
    return list.empty() ? "" : "Longest threads: " + list + ".";
}

/// A sentence below the picture, and whether it is small print.
struct Below {
    std::string text;
    bool small = true;
    [[nodiscard]] TextStyle style() const {
        return small ? TextStyle{.size = 8.5, .ink = grey(0.25)} : TextStyle{.size = 9.5};
    }
};

/// What stands between the table of counts and the largest pieces.
std::vector<Below> sentencesOnCounts(const ReportedSample& sample) {
    const DebrisFinding& debris = sample.debris;
    std::vector<Below> sentences;
    if (std::any_of(debris.counts.begin(), debris.counts.end(),
                    [](const ClassCount& row) { return !row.complete; }))
        sentences.push_back({fmt::format("\u2265: minimum count; the photo is complete only down "
                                         "to {:.2f} mm.",
                                         debris.detectionLimit.value())});
    if (debris.sizeSampling)
        sentences.push_back({sizeSamplingSentence(*debris.sizeSampling)});
    if (!debris.code.empty())
        sentences.push_back({"Cleanliness code (ISO 16232): " + debris.code, false});
    for (const std::string& sentence : sample.basis)
        sentences.push_back({sentence, false});
    return sentences;
}

std::string countsTitle(const ReportedSample& sample) {
    return "Counts by size and type: " + countUnit(sample.debris);
}

std::string cropsTitle(const ReportedSample& sample) {
    return fmt::format("{}, each in a field of {:g} mm, all at one scale",
                       sample.largest.front().inCoat
                           ? "Shiny slivers in the fuzz and largest pieces"
                           : "Largest pieces",
                       sample.cropField.value());
}

/// Height of the largest pieces with their title, and of the longest threads.
double piecesHeight(const PageWriter& page, const ReportedSample& sample) {
    const double threads = page.paragraphHeight(threadsSentence(sample), {.size = 8.5});
    if (sample.largest.empty())
        return threads;
    const auto [pictures, words] = cropHeights(page, sample);
    return page.subheadingHeight(cropsTitle(sample)) + pictures + words + 8.0 + threads;
}

/// Room for all that stands below the picture, so that it stays on the picture's page.
double belowPicture(const PageWriter& page, const ReportedSample& sample) {
    double height = 6.0 + piecesHeight(page, sample) +
                    page.paragraphHeight(cardSentence(sample), Below{}.style());
    if (sample.debris.shownOnly)
        return height;
    height +=
        page.subheadingHeight(countsTitle(sample)) + page.tableHeight(countsTable(sample.debris));
    for (const Below& sentence : sentencesOnCounts(sample))
        height += page.paragraphHeight(sentence.text, sentence.style());
    return height;
}

/// The largest pieces in a row; where the photo is no longer there to show them, the words alone.
void writeCrops(PageWriter& page, const ReportedSample& sample) {
    const double cell = (page.width() - (cropsAcross - 1) * cropGap) / cropsAcross;
    const auto [pictures, words] = cropHeights(page, sample);
    if (!sample.largest.empty()) {
        page.subheading(cropsTitle(sample), pictures + words + 8.0);
        for (std::size_t i = 0; i < sample.largest.size(); ++i) {
            const ReportedPiece& piece = sample.largest[i];
            const double x = page.left() + static_cast<double>(i) * (cell + cropGap);
            if (!piece.crop.empty())
                page.picture(piece.crop, {x, page.y()}, {cell, pictures});
            drawText(page.pen(), {x, page.y() + pictures + 2.0}, pieceWords(piece),
                     {.size = 7.2, .width = cell});
        }
        page.gap(pictures + words + 8.0);
    }
    page.paragraph(threadsSentence(sample), {.size = 8.5});
}

constexpr double leastPictureHeight = 140.0, mostPictureHeight = 440.0; // points

/// The annotated photo, as large as it can be with what belongs to it below it on the same page.
void writeAnnotated(PageWriter& page, const cv::Mat& annotated, double below) {
    const double wide = page.width() * annotated.rows / annotated.cols;
    const double height =
        std::min(wide, std::clamp(page.room() - below, leastPictureHeight, mostPictureHeight));
    page.need(height + 4.0);
    page.picture(annotated, {page.left(), page.y()}, {page.width(), height});
    page.gap(height + 6.0);
}

/// What the photo is, above its picture.
std::string photoLine(const ReportedSample& sample) {
    std::string line =
        sample.taken.empty() ? "Capture time not recorded" : "Taken " + dateWords(sample.taken);
    if (!sample.sampling.empty())
        line += "; sample: " + sample.sampling;
    return line + ".";
}

} // namespace

void writeSamplePages(PageWriter& page, const ReportedSample& sample, std::size_t number) {
    const bool drawn = !sample.annotated.empty();
    page.heading(fmt::format("Photo {}: {}", number, placeTitle(sample.place)),
                 drawn ? leastPictureHeight + 60.0 + belowPicture(page, sample) : 60.0);
    page.paragraph(photoLine(sample), {.size = 8.5, .ink = grey(0.25)});
    page.paragraph(sampleSentence(sample));
    page.paragraph(byHandSentence(sample));
    if (sample.refusal)
        return;
    page.paragraph(coatSentences(sample));
    if (sample.magnet)
        page.paragraph(magnetHeightSentence(*sample.magnet));
    if (sample.afterMagnet)
        page.bullets(sweepSentences(*sample.afterMagnet));
    if (sample.secondLight)
        page.paragraph(secondLightSentence(*sample.secondLight, sample.debris));
    page.paragraph(typeSourcesSentence(sample.debris));
    if (sample.debris.shownOnly) {
        if (drawn)
            writeAnnotated(page, sample.annotated, belowPicture(page, sample));
        writeCrops(page, sample);
        page.paragraph(cardSentence(sample), {.size = 8.5, .ink = grey(0.25)});
        return;
    }
    const Table counts = countsTable(sample.debris);
    if (drawn)
        writeAnnotated(page, sample.annotated, belowPicture(page, sample));
    page.subheading(countsTitle(sample));
    page.table(counts);
    for (const Below& sentence : sentencesOnCounts(sample))
        page.paragraph(sentence.text, sentence.style());
    writeCrops(page, sample);
    page.paragraph(cardSentence(sample), {.size = 8.5, .ink = grey(0.25)});
}

} // namespace swarfbook
