// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/size_words.h"

#include <fmt/format.h>

#include <cmath>

namespace swarfbook {
namespace {

std::string unitOf(const RepeatedFinding& finding) {
    return finding.onWhiteCard ? "pieces in the sample" : "pieces per 100 cm\u00b2";
}

std::string classWords(const RepeatedClass& c) {
    const double from = c.from.value() / 1000.0;
    return std::isfinite(c.to.value()) ? fmt::format("{:g} to {:g} mm", from, c.to.value() / 1000.0)
                                       : fmt::format("{:g} mm and more", from);
}

} // namespace

std::string sizeSamplingSentence(const SizeSampling& c) {
    std::string text = fmt::format("From {} pieces: mean size \u00b1 {:.0f} %, mean size by volume "
                                   "\u00b1 {:.0f} %",
                                   c.pieces, 100.0 * c.meanOff95, 100.0 * c.volumeMeanOff95);
    text += c.medianHigh.value() > 0.0
                ? fmt::format("; half are longer than {:.2f} mm (95 %: {:.2f} to {:.2f}).",
                              c.median.value(), c.medianLow.value(), c.medianHigh.value())
                : std::string("; too few pieces to say how sure the middle size is.");
    if (c.neededFor5Percent > c.pieces)
        text += fmt::format(" \u00b1 5 % would take {} pieces.", c.neededFor5Percent);
    return text;
}

std::string repeatsSentence(const RepeatedFinding& f) {
    std::string text = fmt::format(
        "{} photos of one sample, counted once: {:.1f} {} of {:.2f} mm or more (95 %: {:.1f} to "
        "{:.1f}); between photos the count varies by {:.1f}",
        f.photos, f.count.mean, unitOf(f), f.detectionLimit.value(), f.count.low, f.count.high,
        f.count.between);
    if (f.count.mean > 0.0)
        text += fmt::format(" ({:.0f} %)", 100.0 * f.count.between / f.count.mean);
    return text + fmt::format(", the share of the area under pieces, {:.2f} %, by {:.2f} "
                              "(standard deviations).",
                              100.0 * f.covered.mean, 100.0 * f.covered.between);
}

std::string repeatsText(const RepeatedFinding& f) {
    std::string text = repeatsSentence(f) + "\n";
    for (const RepeatedClass& c : f.classes)
        text += fmt::format("    {:<2} {:<16} {:.1f} ({:.1f} to {:.1f}), between photos {:.1f}\n",
                            c.sizeClass, classWords(c), c.count.mean, c.count.low, c.count.high,
                            c.count.between);
    if (f.foundAgain)
        text += fmt::format("    {:.0f} % of the pieces of one photo are found again in the next\n",
                            100.0 * *f.foundAgain);
    return text;
}

} // namespace swarfbook
