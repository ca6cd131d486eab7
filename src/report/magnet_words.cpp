// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/magnet_words.h"

#include "report/report_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

constexpr double surely = 1.959964; // standard uncertainties: two-sided 95 %

} // namespace

std::string longestSideWords(const Particle& piece) {
    return piece.leastSize ? fmt::format("at least {:.2f} mm", piece.leastSize->value())
                           : lengthWords(piece.maxFeret);
}

std::string seenSideWords(const Particle& piece) {
    return (piece.atEdge && !piece.leastSize ? "at least " : "") + longestSideWords(piece);
}

std::string magnetSentence(const MagnetFinding& magnet) {
    const auto pastTheRim = [&](Millimetres overhang) {
        return overhangWords(overhang, magnet.overhangUncertainty);
    };
    std::string sentence = fmt::format(
        "{} of the magnet's face is under fuzz; it reaches past the rim by {} on average, by under "
        "{} round nearly all the rim, by {} at most",
        coveredShareWords(magnet.coveredShare), pastTheRim(magnet.overhangMean),
        pastTheRim(magnet.overhangP95), pastTheRim(magnet.overhangMax));
    sentence += magnet.outlineLost ? "; the magnet's own outline is lost under it." : ".";
    if (!magnet.sliversTold)
        return sentence + " Slivers in the fuzz are not visible in this light: the strands shine "
                          "themselves. Light the magnet from above on two sides and take the "
                          "photo again, or wipe the fuzz off and spread it on white paper.";
    const std::size_t slivers = magnet.slivers.size();
    if (slivers == 0)
        return sentence + " No shiny sliver in the fuzz; dull ones do not show in it.";
    const auto longest = std::max_element(
        magnet.slivers.begin(), magnet.slivers.end(),
        [](const Particle& a, const Particle& b) { return a.maxFeret.value < b.maxFeret.value; });
    return sentence +
           fmt::format(" {} shiny {} in the fuzz, the longest {}; dull ones do not show in "
                       "it.",
                       slivers, slivers == 1 ? "sliver" : "slivers", longestSideWords(*longest));
}

std::string coatSentences(const ReportedSample& sample) {
    if (!sample.magnet)
        return "";
    return magnetSentence(*sample.magnet) +
           (sample.coatClass.empty() ? "" : " " + sample.coatClass);
}

std::string magnetHeightSentence(const MagnetFinding& magnet) {
    if (!magnet.height)
        return "";
    const auto& [height, from] = *magnet.height;
    const std::string start =
        fmt::format("Height of its face above the card: {:.1f} \u00b1 {:.1f} mm, ",
                    height.value.value(), surely * height.standardUncertainty.value());
    switch (from) {
    case HeightFrom::size:
        return start + "by its size as typed in.";
    case HeightFrom::hole:
        return start + "estimated from what its hole shows; with its size typed in it is surer.";
    case HeightFrom::usual:
        break;
    }
    return start + "estimated as usual magnets have it; with its size typed in it is surer.";
}

} // namespace swarfbook
