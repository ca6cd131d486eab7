// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"
#include "report/drawing.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// How the outline of one kind of piece is drawn: a core line over a casing of the opposite
/// lightness, so that it stands out on any ground; kinds differ in the core's lightness and in its
/// rhythm, not by colour alone, and each has a letter.
struct OutlineMark {
    std::string letter;
    std::string words;
    Ink core, casing;
    std::vector<double> rhythm; ///< dashes and gaps in line widths; empty: unbroken
};

/// The mark of a type.
/// Checked: tests/report/type_marks_test.cpp (distinct when printed grey).
const OutlineMark& markOf(ParticleType type);
/// The mark of a sliver in a magnet's coat.
const OutlineMark& sliverMark();
/// The mark of a magnet's own outline; it has no letter.
const OutlineMark& magnetRimMark();

/// Strokes the pen's current path in this style and clears the path.
void strokeMark(cairo_t* pen, const OutlineMark& mark, double lineWidth);

} // namespace swarfbook
