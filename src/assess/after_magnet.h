// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/assess.h"

#include <string>

namespace swarfbook {

/// Measures a photo of the same place after a magnet was drawn over it, in the same way as the
/// first, and writes into the first's measurement which pieces the magnet took: `ferrous` of its
/// pieces and Measurement::afterMagnet.
///
/// If the second photo cannot be used (it is the first one or that of the cleaned place, it is
/// refused or its pieces cannot be counted, it shows another card, another place or more pieces
/// than before), the measurement stays as it is; AfterMagnet::whyNot and a caution say why. A
/// refused first photo stays refused.
/// @param options  those of the first photo.
/// Checked: tests/assess/after_magnet_test.cpp.
void assessAfterMagnet(Measurement& before, PhotoFile after, const AssessData& data,
                       const AssessOptions& options);

/// The caution that stands with a measurement whose photo after the magnet could not be used; empty
/// when it was.
std::string afterMagnetCaution(const AfterMagnet& after);

} // namespace swarfbook
