// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"
#include "judgement/evidence.h"
#include "judgement/suggestion_model.h"

#include <optional>
#include <string>

/// The coat on a magnet in the trade's words, and what the magnet that gathered it makes of it.
namespace swarfbook {

/// The class of a coat as measured, by the limits of the model.
/// @param share  of the face that is taken for covered: the measured one, or an end of its limits.
/// Checked: tests/judgement/photo_debris_test.cpp.
Coat coatOf(const MagnetFinding& magnet, double share, const SuggestionModel& model);

/// "F2, covered".
std::string coatInTradeWords(const MagnetFinding& magnet, const SuggestionModel& model);
/// The coat in the trade's words: "In the trade's words: F2, covered.", and of a full magnet that
/// it gathers no more. Checked: tests/judgement/coat_of_magnet_test.cpp.
std::string coatClassSentence(const MagnetFinding& magnet, const SuggestionModel& model);

/// That a full magnet gathers no more, with what that means for the amount; one sentence.
std::string fullMagnetSentence();

/// "2 ring magnets of 30 mm, one of them added since the last clean"; "" where none was typed in.
std::string magnetsWords(const std::optional<MagnetsFitted>& magnets);

/// Why the fuzz at two visits cannot be compared: other magnets gathered it; "" where they are
/// alike or were not typed in. Checked: tests/judgement/coat_of_magnet_test.cpp.
std::string otherMagnets(const VisitEvidence& before, const VisitEvidence& now);

} // namespace swarfbook
