// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/features.h"
#include "debris/particle.h"

#include <filesystem>
#include <vector>

namespace swarfbook {

/// What the classifier says of one candidate.
struct LookOpinion {
    double debris = 0.0;          ///< probability that it is debris at all
    Look look = Look::undecided;  ///< the most probable one, undecided when none is probable enough
    double lookProbability = 0.0; ///< of the most probable look, given that it is debris
};

/// The particle-look classifier: one hidden layer (rectified), softmax over the looks and "none".
/// How it was made and how well it does stands in models/looks.md.
class LookModel {
  public:
    /// Reads models/looks.json. Throws ToolError naming the file and what is wrong with it,
    /// features of another order or number included.
    static LookModel load(const std::filesystem::path& file);

    [[nodiscard]] LookOpinion judge(const Features& features) const;
    /// Candidates below this probability are not debris.
    [[nodiscard]] double debrisThreshold() const { return debrisThreshold_; }

  private:
    std::vector<double> mean_, scale_;
    std::vector<double> hiddenWeights_, hiddenBias_; ///< units x features, row by row
    std::vector<double> outputWeights_, outputBias_; ///< classes x units
    std::vector<int> lookOfClass_;                   ///< -1: none
    double debrisThreshold_ = 0.5;
    double lookThreshold_ = 0.5;
};

} // namespace swarfbook
