// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/basis_words.h"

#include "particles/fluid_cleanliness.h"
#include "particles/size_classes.h"
#include "report/report_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace swarfbook {
namespace {

std::string sideSentence(FilterSide side) {
    return side == FilterSide::clean
               ? "This is the filter's clean side: what lies here went through or past the media, "
                 "towards the pump and the valve body, and weighs more than what the filter "
                 "stopped."
               : "This is the filter's dirty side: what lies here was stopped before the pump.";
}

/// As the report lists the photo's own counts: from the first class that holds a piece.
std::vector<ScaledCount> worthShowing(std::vector<ScaledCount> rows) {
    const auto any = [](const ScaledCount& row) { return row.seen > 0; };
    rows.erase(rows.begin(), std::find_if(rows.begin(), rows.end(), any));
    rows.erase(std::find_if(rows.rbegin(), rows.rend(), any).base(), rows.end());
    return rows;
}

std::string rowWords(const ScaledCount& row) {
    ClassCount limits;
    limits.from = row.from;
    limits.to = row.to;
    return fmt::format("{} {}: {}{}", row.sizeClass, sizeWords(limits),
                       intervalWords(row.count, row.low, row.high),
                       row.complete ? "" : ", minimum");
}

template <class Words> std::string joinedRows(const std::vector<ScaledCount>& rows, Words words) {
    std::string out;
    for (const ScaledCount& row : rows)
        out += (out.empty() ? "" : "; ") + words(row);
    return out.empty() ? "no piece seen" : out;
}

std::string mediaSentence(const DebrisFinding& debris, SquareCentimetres media, double areaU) {
    if (const std::string problem = mediaProblem(debris, media); !problem.empty())
        return "The counts were not scaled to the whole media. " + problem;
    return fmt::format(
        "On the whole media of {:g} cm² (of which {:.1f} cm² were measured; 95 % interval, the "
        "debris taken to be spread evenly): {}.",
        media.value(), debris.measuredArea.value(),
        joinedRows(worthShowing(countsOnWholeMedia(debris, media, areaU)), rowWords));
}

/// A level is shown where the class is complete: of a minimum it would say too little.
std::string rowWithLevel(const ScaledCount& row) {
    return rowWords(row) + (row.complete ? fmt::format(" (level {})", levelNumber(row.count)) : "");
}

void addVolume(std::vector<std::string>& sentences, const DebrisFinding& debris,
               Millilitres volume) {
    if (debris.onWhiteCard)
        sentences.push_back(fmt::format(
            "Per 100 ml of the {:g} ml strained, by ISO 16232 class and level (95 % interval): {}.",
            volume.value(),
            joinedRows(worthShowing(countsPer100Ml(debris, volume)), rowWithLevel)));
    const MicroscopeCode code = iso4406ByMicroscope(debris, volume);
    sentences.push_back(code.code.empty() ? "ISO 4406: no code. " + code.whyNot
                                          : fmt::format("ISO 4406 by microscope: {}.", code.code));
}

} // namespace

std::vector<std::string> basisSentences(const SampleBasis& basis, const DebrisFinding& debris,
                                        double areaRelativeU) {
    std::vector<std::string> sentences;
    if (basis.side)
        sentences.push_back(sideSentence(*basis.side));
    if (basis.mediaArea && !debris.shownOnly && !debris.onWhiteCard)
        sentences.push_back(mediaSentence(debris, *basis.mediaArea, areaRelativeU));
    if (basis.volume && !debris.shownOnly)
        addVolume(sentences, debris, *basis.volume);
    return sentences;
}

} // namespace swarfbook
