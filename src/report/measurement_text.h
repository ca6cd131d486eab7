// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <string>
#include <vector>

namespace swarfbook {

/// One thing that was measured, by name: {"size limit", "complete down to 0.20 mm ..."}.
struct MeasuredFact {
    std::string name, words;
};
/// The count of one size class: {"F", "0.4 to 0.6 mm", "12 (6.2 to 21.0)", "10 lining"}.
struct CountWords {
    std::string sizeClass, sizes, count, types;
};

/// What was measured of one photo in words, for terminal and pages alike.
struct MeasuredWords {
    std::vector<MeasuredFact> card;   ///< as it was found, its print scale, how sharp the photo is
    std::vector<MeasuredFact> limits; ///< size limit, parts of the window that were left out
    std::string countsPer;            ///< "per 100 cm² of measured area"; "" where nothing counts
    std::vector<CountWords> counts;
    std::vector<MeasuredFact> sample;  ///< doubt, sizes, code, or why the pieces are only shown
    std::vector<MeasuredFact> largest; ///< longest side, and what it is
    std::vector<MeasuredFact> more;    ///< longest thread, magnet, photo of the cleaned place
};
/// @param measurement  that was not refused.
/// @param coatClass    as coatClassSentence() gives it.
MeasuredWords measuredWords(const Measurement& measurement, const std::string& coatClass = "");

/// One photo's measurement as plain lines for a terminal: what the card told, how small a piece
/// can be trusted, counts by size and type with their 95 % intervals, the largest pieces; or why
/// the photo was refused and what to do.
/// Checked: tests/report/measurement_text_test.cpp.
std::string measurementText(const Measurement& measurement, const std::string& coatClass = "");

} // namespace swarfbook
