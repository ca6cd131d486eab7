// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/magnet_finding.h"
#include "report/report_model.h"

#include <string>

/// What is said of a magnet, its coat and the slivers in it.
namespace swarfbook {

/// The longest side of a piece: "1.20 ± 0.05 mm"; of one that shows in part only
/// what surely shows: "at least 1.15 mm". Checked: tests/report/magnet_words_test.cpp.
std::string longestSideWords(const Particle& piece);
/// The same where a piece is shown by itself: of one that the window's edge cuts "at least
/// 1.20 ± 0.05 mm", as what lies beyond the edge is not measured.
std::string seenSideWords(const Particle& piece);

/// One sentence of the coat on a magnet, with its uncertainty.
std::string magnetSentence(const MagnetFinding& magnet);
/// The same with the coat in the trade's words; "" where no magnet was measured.
std::string coatSentences(const ReportedSample& sample);

/// How high the magnet's face lies above the card and what that rests on: sizes and overhang follow
/// from it. "" where an earlier program measured it. Checked: tests/report/magnet_words_test.cpp.
std::string magnetHeightSentence(const MagnetFinding& magnet);

} // namespace swarfbook
