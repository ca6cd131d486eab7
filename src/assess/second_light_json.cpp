// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/second_light_json.h"

#include "assess/document_values.h"
#include "assess/measurement_json.h"
#include "assess/rounded.h"
#include "assess/text_or_null.h"
#include "base/text.h"

namespace swarfbook {
namespace {

constexpr int decimals = 4;

nlohmann::ordered_json saidJson(ParticleType type, double probability) {
    return {{"type", typeWord(type)}, {"probability", rounded(probability, decimals)}};
}

} // namespace

nlohmann::ordered_json toJson(const SecondLightUse& use) {
    nlohmann::ordered_json document{{"file", validUtf8(use.file)},
                                    {"sha256", textOrNull(use.sha256)},
                                    {"used", use.used},
                                    {"why_not", textOrNull(use.whyNot)}};
    if (!use.used)
        return document;
    document["likeness"] = rounded(use.likeness, decimals);
    document["shift_mm"] = {rounded(use.shift.x, lengthDecimals),
                            rounded(use.shift.y, lengthDecimals)};
    document["pieces_in_both"] = use.piecesInBoth;
    document["median_change"] = rounded(use.change, decimals);
    return document;
}

SecondLightUse secondLightFromJson(const nlohmann::json& document) {
    SecondLightUse use;
    use.file = document.at("file").get<std::string>();
    use.sha256 = document::textOrEmpty(document, "sha256");
    use.used = document.at("used").get<bool>();
    use.whyNot = document::textOrEmpty(document, "why_not");
    if (!use.used)
        return use;
    use.likeness = document::share(document.at("likeness"));
    use.shift = {document::checkedNumber(document.at("shift_mm").at(0)),
                 document::checkedNumber(document.at("shift_mm").at(1))};
    use.piecesInBoth = document::whole(document.at("pieces_in_both"));
    use.change = document::amount(document, "median_change");
    return use;
}

nlohmann::ordered_json toJson(const TwoLights& lights) {
    return {{"first", saidJson(lights.first, lights.firstProbability)},
            {"second", saidJson(lights.second, lights.secondProbability)},
            {"change", rounded(lights.change, decimals)}};
}

TwoLights twoLightsFromJson(const nlohmann::json& document) {
    const nlohmann::json &first = document.at("first"), &second = document.at("second");
    TwoLights lights;
    lights.first = typeFromWord(first.at("type").get<std::string>());
    lights.second = typeFromWord(second.at("type").get<std::string>());
    lights.firstProbability = document::share(first.at("probability"));
    lights.secondProbability = document::share(second.at("probability"));
    lights.change = document::amount(document, "change");
    return lights;
}

} // namespace swarfbook
