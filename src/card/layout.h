// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace swarfbook {

/// An axis-parallel rectangle on the card, millimetres.
struct CardRect {
    double x = 0.0, y = 0.0, width = 0.0, height = 0.0;
};

struct GreyPatch {
    PointOnCard centre;
    double ink = 0.0; ///< black ink share, 0 to 1
};

/// Nominal geometry of one card layout, millimetres, origin at the outer top-left corner, y down.
struct CardLayout {
    std::string name; ///< "close" or "wide"
    CardRect outer;
    CardRect window;
    double markerSize = 0.0;            ///< side of a marker's black square
    std::map<int, PointOnCard> markers; ///< marker id -> centre
    double patchSize = 0.0;
    std::vector<GreyPatch> patches;
    double slantedSize = 0.0;
    double slantedTurnDeg = 0.0; ///< clockwise as seen
    std::vector<PointOnCard> slantedCentres;
    CardRect serialCode; ///< square for the serial's code, without its white surround; may be empty
    double checkBarY = 0.0, checkBarX0 = 0.0, checkBarX1 = 0.0;

    [[nodiscard]] double checkBarLength() const { return checkBarX1 - checkBarX0; }
};

/// Reads the card geometry. Throws ToolError naming the file and what is wrong with it.
/// Checked: tests/card/layout_test.cpp.
std::vector<CardLayout> loadCardLayouts(const std::filesystem::path& file);

/// The true size of a printed card.
struct PrintScale {
    double value = 1.0; ///< measured / nominal length of the check bar
    double standardUncertainty = 0.005;
    bool checked = false; ///< false: nobody measured the bar of this card
};

/// The scale from a calliper reading of the check bar. Throws UsageError if the reading is not
/// within 10 % of nominal. Its standard uncertainty: 0.1 mm reading, rectangular -> 0.06 mm.
PrintScale printScaleFromBar(const CardLayout& layout, Millimetres measuredBar);

} // namespace swarfbook
