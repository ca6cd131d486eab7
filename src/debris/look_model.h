// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/features.h"
#include "network/layers.h"
#include "particles/particle.h"

#include <filesystem>
#include <vector>

namespace swarfbook {

/// What the classifier says of one candidate.
struct LookOpinion {
    double debris = 0.0;          ///< probability that it is debris at all
    Look look = Look::undecided;  ///< the most probable one, undecided when none is probable enough
    double lookProbability = 0.0; ///< of the most probable look, given that it is debris
};

/// What the outline misses or takes in: tips that the lens blurs away, a part of the piece's own
/// shadow.
struct SizeCorrection {
    double factor = 1.0;              ///< true maximum Feret / that of the outline, median
    double relativeUncertainty = 0.1; ///< standard, of a corrected length
};

/// The particle-look classifier: one hidden layer (rectified), softmax over the looks and "none".
/// How it was made and how well it does stands in models/looks.md.
class LookModel {
  public:
    /// Reads models/looks.json. Throws ToolError naming the file and what is wrong with it,
    /// features of another order or number included.
    static LookModel load(const std::filesystem::path& file);

    [[nodiscard]] LookOpinion judge(const Features& features) const;
    /// All candidates of one photo, in order: how probable debris is follows how much of it there
    /// is in this photo (debris_share.h).
    [[nodiscard]] std::vector<LookOpinion> judgeAll(const std::vector<Features>& candidates) const;
    /// 0.78 to 1.28; fitted to pieces of known size, its uncertainty so that +-1.96 of it hold
    /// 95 % of them.
    [[nodiscard]] SizeCorrection sizeCorrection(const Features& features) const;
    /// Candidates below this probability are not debris.
    [[nodiscard]] double debrisThreshold() const { return debrisThreshold_; }

  private:
    Layers look_, size_;
    std::vector<int> lookOfClass_;      ///< -1: none
    std::vector<double> spreadWeights_; ///< of the features as `size_` standardises them
    double spreadBias_ = 0.0, spreadFactor_ = 1.0;
    double debrisShare_ = 0.5; ///< of debris among what it was fitted to
    double debrisThreshold_ = 0.5;
    double lookThreshold_ = 0.5;
};

} // namespace swarfbook
