// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/check_bar.h"

#include "assess/assess.h"
#include "base/errors.h"
#include "bench/typed.h"
#include "card/layout.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <string>
#include <vector>

namespace swarfbook {
namespace {

bool isOfLayout(const CardLayout& layout, Millimetres bar) {
    try {
        (void)printScaleFromBar(layout, bar);
        return true;
    } catch (const UsageError&) {
        return false;
    }
}

} // namespace

Millimetres checkBarTyped(std::string_view typed) {
    const bool hasUnit = typed.find_first_not_of("+-0123456789.,/ \t") != std::string_view::npos;
    const std::string text = std::string(typed) + (hasUnit ? "" : " mm");
    const Millimetres bar = parseSmallLength(text, Sure::meant).value;
    std::vector<std::string> drawn;
    for (const CardLayout& layout :
         loadCardLayouts(dataFolder() / "calibration" / "reference-card.json")) {
        if (isOfLayout(layout, bar))
            return bar;
        drawn.push_back(
            fmt::format("{:.0f} mm on the {} card", layout.checkBarLength(), layout.name));
    }
    throw UsageError(fmt::format("The check bar was typed as {:.2f} mm. As drawn it is {} long, "
                                 "and a print is less than 10 % off. Measure it once more with "
                                 "callipers and type it like \"79.6 mm\" or \"3.15 in\".",
                                 bar.value(), fmt::join(drawn, " and ")));
}

} // namespace swarfbook
