// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/fluid_cleanliness.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace swarfbook {
namespace {

/// Upper limits of the numbers 0, 1, ... 28, counts per ml (ISO 4406).
constexpr std::array<double, 29> upperLimits{0.01,  0.02,  0.04,  0.08,  0.16, 0.32, 0.64,  1.3,
                                             2.5,   5.0,   10.0,  20.0,  40.0, 80.0, 160.0, 320.0,
                                             640.0, 1.3e3, 2.5e3, 5e3,   10e3, 20e3, 40e3,  80e3,
                                             160e3, 320e3, 640e3, 1.3e6, 2.5e6};

constexpr double arithmetic = 1e-9; // relative: far below one piece in any volume
constexpr long fewest = 20;         // pieces; with fewer a number is marked (ISO 4406)
constexpr Micrometres finerSize(5.0), coarserSize(15.0); // by microscope (ISO 4406)

long countedFrom(const DebrisFinding& finding, Micrometres size) {
    return std::count_if(
        finding.particles.begin(), finding.particles.end(),
        [&](const Particle& p) { return toMicrometres(p.maxFeret.value) >= size; });
}

std::string whyNoCode(const DebrisFinding& finding) {
    if (finding.shownOnly)
        return "The photo's pieces are shown and not counted. " + finding.shownOnly->advice;
    if (!finding.onWhiteCard)
        return "The window shows a part of the sample. Strain the fluid through white paper that "
               "lies whole in the window.";
    if (toMicrometres(finding.detectionLimit) > finerSize)
        return fmt::format("The photo is complete down to {:.0f} µm, and ISO 4406 counts every "
                           "piece from 5 and from 15 µm up by microscope. Have a laboratory count "
                           "the fluid where the code is asked for.",
                           toMicrometres(finding.detectionLimit).value());
    return "";
}

} // namespace

std::string iso4406Number(double perMl) {
    if (!(perMl >= 0.0))
        throw std::logic_error("a scale number needs a count of zero or more");
    for (std::size_t number = 0; number < upperLimits.size(); ++number)
        if (perMl <= upperLimits.at(number) * (1.0 + arithmetic))
            return std::to_string(number);
    return ">28";
}

std::string iso4406Entry(long counted, Millilitres volume) {
    if (counted < 0 || !(volume.value() > 0.0))
        throw std::logic_error("a scale number needs a count and a volume above zero");
    return (counted < fewest ? "≥" : "") +
           iso4406Number(static_cast<double>(counted) / volume.value());
}

MicroscopeCode iso4406ByMicroscope(const DebrisFinding& finding, Millilitres volume) {
    if (std::string why = whyNoCode(finding); !why.empty())
        return {"", std::move(why)};
    return {fmt::format("-/{}/{}", iso4406Entry(countedFrom(finding, finerSize), volume),
                        iso4406Entry(countedFrom(finding, coarserSize), volume)),
            ""};
}

} // namespace swarfbook
