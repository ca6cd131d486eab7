// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/sample_basis.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr double normal95 = 1.959964;

/// Two independent factors of one product: their logarithms' half widths add as squares. The
/// count's own interval keeps its two unequal ends.
ScaledCount scaled(const ClassCount& row, double factor, double factorRelativeU) {
    ScaledCount out{row.sizeClass,
                    row.from,
                    row.to,
                    row.count,
                    row.per100Cm2 * factor,
                    row.intervalLow * factor,
                    row.intervalHigh * factor,
                    row.complete};
    const double basis = normal95 * factorRelativeU;
    if (out.count > 0.0 && out.low > 0.0) {
        out.low = out.count * std::exp(-std::hypot(std::log(out.count / out.low), basis));
        out.high = out.count * std::exp(std::hypot(std::log(out.high / out.count), basis));
    } else {
        out.high *= std::exp(basis); // of none the count says nothing but its upper limit
    }
    return out;
}

std::vector<ScaledCount> allScaled(const DebrisFinding& finding, double factor, double relativeU) {
    std::vector<ScaledCount> rows;
    for (const ClassCount& row : finding.counts)
        rows.push_back(scaled(row, factor, relativeU));
    return rows;
}

} // namespace

std::string_view filterSideName(FilterSide side) {
    return side == FilterSide::dirty ? "dirty" : "clean";
}

FilterSide filterSideFromName(std::string_view name) {
    if (name == "dirty")
        return FilterSide::dirty;
    if (name == "clean")
        return FilterSide::clean;
    throw std::invalid_argument("unknown side of a filter: " + std::string(name));
}

std::string placeWords(Place place, const SampleBasis& basis) {
    std::string words(placeWord(place));
    if (place == Place::filter && basis.side)
        words += fmt::format(", {} side", filterSideName(*basis.side));
    return words;
}

std::string samplingOf(const std::string& typed, const SampleBasis& basis) {
    std::string words = typed;
    const auto add = [&](const std::string& more) { words += (words.empty() ? "" : ", ") + more; };
    if (basis.side)
        add(fmt::format("{} side", filterSideName(*basis.side)));
    if (basis.volume)
        add(fmt::format("{:g} ml strained", basis.volume->value()));
    return words;
}

std::vector<ScaledCount> countsOnWholeMedia(const DebrisFinding& finding, SquareCentimetres media,
                                            double measuredAreaRelativeU) {
    if (finding.onWhiteCard || !mediaProblem(finding, media).empty())
        return {};
    return allScaled(finding, media.value() / 100.0,
                     std::hypot(typedAreaRelativeU, measuredAreaRelativeU));
}

std::vector<ScaledCount> countsPer100Ml(const DebrisFinding& finding, Millilitres volume) {
    if (!(volume.value() > 0.0))
        throw std::logic_error("counts per 100 ml need a volume above zero");
    if (!finding.onWhiteCard)
        return {};
    return allScaled(finding, 100.0 / volume.value(), typedVolumeRelativeU);
}

std::string mediaProblem(const DebrisFinding& finding, SquareCentimetres media) {
    if (finding.onWhiteCard || media >= finding.measuredArea)
        return "";
    return fmt::format("The whole media was said to have {:g} cm², and {:.0f} cm² of it were "
                       "measured in the window. Check the area: it is that of the media spread "
                       "out, all pleats together.",
                       media.value(), finding.measuredArea.value());
}

} // namespace swarfbook
