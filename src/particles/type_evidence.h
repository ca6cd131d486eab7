// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <string>

namespace swarfbook {

/// Decides a piece's type by what is said of it (`Particle::said`) and writes `type` and
/// `typeProbability`. The first that speaks decides:
/// 1. the technician's entry: as said, certain;
/// 2. the magnet sweep, where it took the piece: iron or steel, which is bright metal, whatever its
///    surface looks like. That it left a piece rules iron out and no type: aluminium is bright
///    metal too. A thread on the magnet hangs in other debris and stays a thread;
/// 3. the photo with a second light;
/// 4. the one photo.
/// A piece of which nothing is said keeps what it has. Everything said stays kept.
/// Checked: tests/particles/type_evidence_test.cpp.
void decideType(Particle& piece);

/// How often a piece that the sweep finds gone is iron or steel: of 54 such pieces of a pair of
/// photos with truth 52 are. tests/blackbox/magnet_sweep_test.cpp asks for nine in ten.
inline constexpr double sweepIsRight = 0.95;

/// Who decided and what the others said where they said something else: "by the magnet; the photo
/// alone: lining", "by hand; the magnet left it; the photo alone: plastic". "" where only the photo
/// speaks.
std::string whoSaidType(const Particle& piece);

} // namespace swarfbook
