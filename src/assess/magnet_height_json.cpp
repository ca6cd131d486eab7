// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/magnet_height_json.h"

#include "assess/document_values.h"
#include "assess/rounded.h"

namespace swarfbook {

nlohmann::ordered_json toJson(const std::optional<MagnetHeight>& height) {
    constexpr int decimals = 3;
    if (!height)
        return nullptr;
    return {{"mm", rounded(height->value.value, decimals)},
            {"u_mm", rounded(height->value.standardUncertainty, decimals)},
            {"from", heightFromName(height->from)}};
}

std::optional<MagnetHeight> magnetHeightFrom(const nlohmann::json& magnet) {
    const auto height = magnet.find("height_above_card");
    if (height == magnet.end() || height->is_null())
        return std::nullopt;
    return MagnetHeight{document::measured<Millimetres>(*height, "mm", "u_mm"),
                        heightFromOfName(height->at("from").get<std::string>())};
}

} // namespace swarfbook
