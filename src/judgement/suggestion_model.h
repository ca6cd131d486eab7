// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/bores.h"
#include "bench/driven.h"
#include "bench/solenoids.h"
#include "judgement/full_magnet.h"
#include "judgement/suggestion.h"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace swarfbook {

/// What the suggestion is judged by: models/suggestion.json. Beside each limit in the file stands
/// its unit and its source, or "common practice, no source".
struct SuggestionModel {
    /// A limit as the file states it, for showing.
    struct Limit {
        double value = 0.0;
        std::string unit;
        std::string source;
    };
    /// A rule's own words and where it comes from, shown by `suggest --why`.
    struct Rule {
        std::string words;
        std::string source;
        std::vector<std::string> limits; ///< that it applies, by name
        std::vector<std::string> reads;  ///< kinds of observation, or "photo"
    };
    std::string version;
    std::string
        sha256; ///< of what the file says: judgements by other rules cannot be taken for ours
    std::map<std::string, Limit> limits;
    std::map<std::string, Rule> rules;
    std::map<std::string, double> minutes; ///< bench time of an observation of a kind
    std::map<std::string, Limit> weights;  ///< of reasons by their strength, and of turns
    /// What a reason weighs; each further one of alike reasons a step less.
    [[nodiscard]] double weight(Strength strength, int place = 0) const;
    /// A weight by its name. Throws std::logic_error for a name that the file need not have.
    [[nodiscard]] double weight(const std::string& name) const;

    /// Readings that are tried in place of those recorded, to see what would change.
    Kilopascals tryTight, tryLeaking;
    Ohms tryCoil;
    double tryBandShare = 0.0; ///< of a coil, either way, where no band is known

    /// How far a reading may be off, either way.
    Kilopascals readVacuum;
    Ohms readOhms;
    Volts readVolts;
    double readPressureShare = 0.0, readFlowShare = 0.0;

    WarmthLimits warmth;
    SolenoidLimits solenoids;
    BoreLimits bores;
    Millimetres s1From, s2From, s3From, s4From; ///< trade size classes by longest side
    double sureOfType = 0.8;   ///< probability from which a photo's type is believed
    long plentyFrom = 10;      ///< pieces in one photo
    double beyondDoubt = 0.99; ///< probability from which a photo alone proves
    double coatF1Share = 0.0, coatF2Share = 0.0; ///< covered share from which F1, F2
    FullMagnet fullMagnet;                       ///< coat_full_share and coat_f3_overhang
    Millimetres coatF3Overhang, coatF4Overhang;  ///< fuzz past the rim
    int sharedFeedFrom = 3;                      ///< circuits failing at once
    double coolerLitresPerSecond = 0.0;
    Kilometres recheckUsual, recheckThick, recheckDoubtful;

    /// The limit by name. Throws std::logic_error for a name that the file need not have.
    [[nodiscard]] const Limit& limit(const std::string& name) const;
};

/// Reads the model. Throws ToolError naming the file and what is missing, without a source, or not
/// in rising order. Checked: tests/judgement/suggestion_model_test.cpp.
SuggestionModel loadSuggestionModel(const std::filesystem::path& file);

} // namespace swarfbook
