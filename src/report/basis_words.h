// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <string>
#include <vector>

namespace swarfbook {

/// What the side of the filter means, the counts on the whole media or per 100 ml, and the
/// microscope form of ISO 4406 or why there is none; a sentence each, none where nothing was typed
/// of the sample. Every count stands with its 95 % interval.
/// @param areaRelativeU  standard, of the area measured in the window
/// Checked: tests/report/basis_words_test.cpp.
std::vector<std::string> basisSentences(const SampleBasis& basis, const DebrisFinding& debris,
                                        double areaRelativeU);

} // namespace swarfbook
