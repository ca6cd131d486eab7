// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"

#include <nlohmann/json.hpp>

#include <array>
#include <string>
#include <vector>

namespace swarfbook {

/// The newest flush of this solenoid, by the part as it was typed ("solenoid A" or "A", capitals
/// and small letters alike); null where it was not flushed, or no pass was photographed.
const FlushOfPart* flushOfSolenoid(const std::vector<FlushOfPart>& flushes,
                                   const std::string& solenoid);

/// "7 % (95 %: 3 to 15 %)": a share with its interval.
std::string decayWords(const DecayRatio& ratio);

/// Whether the part is clean by its passes, in one or two sentences: "Flush of solenoid A: clean.
/// Pass 3 washed out ..."; with the figures and the rule.
std::string flushVerdictSentence(const FlushOfPart& flush);

/// Whether demagnetising released more than washing alone had; "" where it was not done, or nothing
/// was counted before it.
std::string demagnetisingSentence(const FlushOfPart& flush);

/// That the clean tray itself showed too much, or that it was not photographed; "" where it was and
/// is clean.
std::string cleanTraySentence(const FlushOfPart& flush);

/// Its passes, ratios and verdict: `from_mm`, `passes` (a pass not counted has no figures),
/// `verdict`, `met_at` (null: not met) and `sentences`. Lengths are mm, areas mm2; a ratio is the
/// pass over all passes so far, 0 to 1.
nlohmann::ordered_json flushJson(const FlushOfPart& flush);

/// The types that passes are told by: threads are not counted.
inline constexpr std::array flushTypes{ParticleType::brightMetal, ParticleType::yellowMetal,
                                       ParticleType::lining, ParticleType::plastic,
                                       ParticleType::unidentified};

/// "2.31 ± 0.12", in mm; "-" where no piece is beyond doubt.
std::string largestOfPass(const PassCount& pass);

/// Those three that say something, in this order. Checked: tests/judgement/flush_words_test.cpp.
std::vector<std::string> flushSentences(const FlushOfPart& flush);

} // namespace swarfbook
