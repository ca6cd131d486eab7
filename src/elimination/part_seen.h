// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/elimination_sentences.h"

#include <cstddef>
#include <string>
#include <vector>

/// What was seen of one part, for its sentence in elimination_sentences.cpp.
namespace swarfbook {

using Texts = std::vector<std::string>;

/// Adds the word to those that do not hold it yet.
void addOnce(Texts& words, const std::string& word);

/// The gears and shifts that need a part, by what was seen there.
struct WherePart {
    Texts open;                                    ///< bad, and no good observation clears the part
    Texts clearedFor;                              ///< bad, but good elsewhere
    Texts elsewhereBad;                            ///< bad without the part
    Texts good;                                    ///< good, counted as clearing
    bool openAtShift = false, goodAtShift = false; ///< any of them is a shift
    Texts easier; ///< good, but driven less hard or at another temperature than the bad ones
    bool easierForSure = true;
    bool surely = true; ///< every clearing drive was surely as hard and as warm
};

/// Sorts all drives by what they show of the part.
/// Checked: tests/elimination/elimination_test.cpp.
WherePart whereIs(const DiagnosisContext& facts, std::size_t part);

} // namespace swarfbook
