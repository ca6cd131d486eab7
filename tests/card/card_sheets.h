// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/draw_card.h"

#include <catch2/catch.hpp>
#include <poppler-document.h>

#include <filesystem>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace swarfbook::test {

/// The layouts as calibration/ holds them.
inline std::vector<CardLayout> layouts() {
    return loadCardLayouts(std::filesystem::path(SWARFBOOK_SOURCE_DIR) /
                           "calibration/reference-card.json");
}

/// Every sheet there is, by name.
inline std::vector<std::pair<std::string, CardSheet>> sheets() {
    std::vector<std::pair<std::string, CardSheet>> all;
    for (const CardLayout& layout : layouts())
        for (const PaperSize paper : {PaperSize::a4, PaperSize::letter})
            for (const bool cut : {false, true})
                all.emplace_back(layout.name + (paper == PaperSize::a4 ? " on A4" : " on Letter") +
                                     (cut ? ", frame" : ", pad"),
                                 CardSheet{layout, "C0042", paper, cut});
    return all;
}

/// The sheet as poppler reads it.
inline std::unique_ptr<poppler::document> documentOf(const CardSheet& sheet) {
    const auto bytes = drawCardPdf(sheet);
    std::vector<char> own(bytes.begin(), bytes.end());
    std::unique_ptr<poppler::document> document(poppler::document::load_from_data(&own));
    REQUIRE(document != nullptr);
    return document;
}

} // namespace swarfbook::test
