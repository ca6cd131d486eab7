// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/sample_basis_json.h"

#include "assess/document_values.h"
#include "assess/rounded.h"
#include "assess/text_or_null.h"
#include "particles/fluid_cleanliness.h"
#include "particles/size_classes.h"

#include <cmath>
#include <stdexcept>

namespace swarfbook {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

constexpr int scaledDecimals = 4;
constexpr double largestAmount = 1e6; // cm2 or ml: far above any filter or filling

ordered_json rowsJson(const std::vector<ScaledCount>& rows, bool withLevel) {
    if (rows.empty())
        return nullptr;
    ordered_json list = ordered_json::array();
    for (const ScaledCount& row : rows) {
        list.push_back(
            {{"size_class", row.sizeClass},
             {"seen", row.seen},
             {"count", rounded(row.count, scaledDecimals)},
             {"interval_95", {rounded(row.low, scaledDecimals), rounded(row.high, scaledDecimals)}},
             {"complete", row.complete}});
        if (withLevel)
            list.back()["level"] =
                row.complete ? ordered_json(levelNumber(row.count)) : ordered_json(nullptr);
    }
    return list;
}

/// An amount above zero, or nothing.
template <class Unit> std::optional<Unit> typedAmount(const json& from, const char* key) {
    const auto found = from.find(key);
    if (found == from.end() || found->is_null())
        return std::nullopt;
    const double value = document::checkedNumber(*found, 0.0, largestAmount);
    if (!(value > 0.0))
        throw std::invalid_argument("an area or a volume that was typed is above zero");
    return Unit(value);
}

void addVolume(ordered_json& out, const DebrisFinding& debris, Millilitres volume) {
    out["per_100_ml"] = rowsJson(countsPer100Ml(debris, volume), true);
    const MicroscopeCode code = iso4406ByMicroscope(debris, volume);
    out["iso_4406"] = textOrNull(code.code);
    out["iso_4406_why_not"] = textOrNull(code.whyNot);
}

} // namespace

ordered_json toJson(const SampleBasis& basis) {
    return {
        {"filter_side",
         basis.side ? ordered_json(filterSideName(*basis.side)) : ordered_json(nullptr)},
        {"media_cm2",
         basis.mediaArea ? ordered_json(basis.mediaArea->value()) : ordered_json(nullptr)},
        {"volume_ml", basis.volume ? ordered_json(basis.volume->value()) : ordered_json(nullptr)}};
}

ordered_json sampleJson(const Measurement& measurement) {
    const SampleBasis& basis = measurement.basis;
    if (basis.isEmpty())
        return nullptr;
    ordered_json out = toJson(basis);
    if (!measurement.debris || !measurement.card)
        return out;
    if (basis.mediaArea)
        out["whole_media"] = rowsJson(countsOnWholeMedia(*measurement.debris, *basis.mediaArea,
                                                         areaRelativeU(*measurement.card)),
                                      false);
    if (basis.volume)
        addVolume(out, *measurement.debris, *basis.volume);
    return out;
}

SampleBasis sampleBasisFromJson(const json& document) {
    SampleBasis basis;
    if (document.is_null())
        return basis;
    if (const auto side = document.find("filter_side"); side != document.end() && !side->is_null())
        basis.side = filterSideFromName(side->get<std::string>());
    basis.mediaArea = typedAmount<SquareCentimetres>(document, "media_cm2");
    basis.volume = typedAmount<Millilitres>(document, "volume_ml");
    return basis;
}

double areaRelativeU(const CardFacts& card) {
    return 2.0 * std::hypot(card.scaleUPercent / 100.0,
                            card.printScale.standardUncertainty / card.printScale.value);
}

} // namespace swarfbook
