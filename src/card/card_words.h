// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/draw_card.h"

#include <cairo.h>

/// Inside card/ only: the words on a card's sheet. Lengths are millimetres on the sheet; the
/// context's unit is the millimetre.
namespace swarfbook::carddrawing {

/// Room between what is drawn and the sheet's edges, mm.
constexpr double sideMargin = 10.0;
constexpr double endMargin = 12.7;

/// The title and the most important instruction, above the card.
/// @return where they end, mm from the top.
double drawHeading(cairo_t* pen, const CardSheet& sheet);

/// The numbered steps from `top` down. @return where they end, mm from the top.
double drawSteps(cairo_t* pen, const CardSheet& sheet, double top);

/// Layout, serial and bar length in the card's own margin, between the window and the lower
/// markers' quiet zone. The context's origin is the card's.
void drawMarginLine(cairo_t* pen, const CardSheet& sheet);

/// How far a marker's white surround reaches: one module, an eighth of the marker (8 x 8 modules).
constexpr double quietZone(double markerSize) {
    return markerSize / 8.0;
}
/// The upper edge of the lowest row of markers, and its lower edge, on the card.
double lowestRowTop(const CardLayout& layout);
double lowestRowBottom(const CardLayout& layout);

} // namespace swarfbook::carddrawing
