// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "judgement/full_magnet.h"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace swarfbook {

/// Weights of models/wear-score.json.
struct WearScoreModel {
    struct SizeWeight {
        Millimetres from; ///< of the maximum Feret, included
        double weight = 0.0;
    };
    std::string version;
    std::vector<SizeWeight> bySize;   ///< rising in size and in weight
    std::vector<double> byType;       ///< indexed by Look
    double coatWeight = 0.0;          ///< of a fully covered magnet
    double overhangWeightPerMm = 0.0; ///< of the mean overhang
    double halfLoad = 0.0;            ///< weighted load per 10,000 km that scores 50
    double repeatability = 0.0;       ///< relative standard uncertainty between repeats
    std::optional<FullMagnet> full{}; ///< of the suggestion's settings; loadJudgementModels says it
};

/// Reads the model. Throws ToolError naming the file and what is wrong, including weights that are
/// not monotone.
WearScoreModel loadWearScoreModel(const std::filesystem::path& file);

/// Our index of how much and how bad, 0 to 100. Comparable only along one vehicle's own history.
struct WearScore {
    double value = 0.0;
    double low = 0.0, high = 0.0; ///< 95 %: counting statistics and repeatability
    Kilometres since;             ///< last documented clean
    Millimetres detectionLimit;   ///< nothing smaller was counted
    Place place = Place::pad;     ///< of the sample it rests on
    std::string method;           ///< one sentence
    bool atLeast = false;         ///< a full magnet gathered less than came: there is no upper
                                  ///< limit, and no trend goes through it
};

/// Why there is no score, and what would allow one.
struct NoWearScore {
    std::string why;
    std::string advice;
};
using WearScoreResult = std::variant<WearScore, NoWearScore>;

/// The score of one place of a visit; several photos of the place are repeats of one sample.
///
/// @param floor  size floor to count from; at least that of the samples (the larger of two visits
///               when they are compared).
/// Gives NoWearScore where distance since the last clean or the sampling is not known, where no
/// photo of that place could be measured.
/// Checked: tests/judgement/wear_score_test.cpp (monotone in count, size, severity; interval),
/// tests/judgement/coat_of_magnet_test.cpp (a full magnet).
WearScoreResult wearScore(const VisitEvidence& visit, Place place, Millimetres floor,
                          const WearScoreModel& model);
/// The score of the visit's best place: pan, pad, strained, tray, filter, magnet, in that order,
/// passing over those whose size floor is more than twice that of another.
WearScoreResult wearScore(const VisitEvidence& visit, const WearScoreModel& model);

nlohmann::ordered_json toJson(const WearScoreResult& result);

} // namespace swarfbook
