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

/// Where a part is asked for, by what was seen there.
struct WherePart {
    Texts open;         ///< bad, and no good observation clears the part for it
    Texts clearedFor;   ///< bad, but good elsewhere
    Texts elsewhereBad; ///< bad without the part
    Texts good;         ///< good, counted as clearing
    bool openAtShift = false, goodAtShift = false; ///< any of them is a shift
    Texts easier; ///< good, but driven less hard or otherwise warm than what is bad
    bool easierForSure = true;
    bool surely = true; ///< all clearing was surely driven as hard and as warm
};

/// Sorts all that was driven by what it says of the part.
/// Checked: tests/elimination/elimination_test.cpp.
WherePart whereIs(const DiagnosisContext& facts, std::size_t part);

} // namespace swarfbook
