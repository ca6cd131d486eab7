// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/assess.h"

#include <string>

namespace swarfbook {

/// Measures a photo of the same place after a magnet was drawn over it, as the first was measured,
/// and writes into the first's measurement what the magnet took: `ferrous` of its pieces and
/// Measurement::afterMagnet.
///
/// Where the second photo cannot be used (it is the first one or that of the cleaned place, it is
/// refused or its pieces cannot be counted, another card or another place, more pieces than
/// before), the measurement stands as it is: AfterMagnet::whyNot and a caution say why. A first
/// photo that was refused stays so.
/// @param options  what the first was measured by.
/// Checked: tests/assess/after_magnet_test.cpp.
void assessAfterMagnet(Measurement& before, PhotoFile after, const AssessData& data,
                       const AssessOptions& options);

/// The caution that stands with a measurement whose photo after the magnet could not be used; empty
/// when it was.
std::string afterMagnetCaution(const AfterMagnet& after);

} // namespace swarfbook
