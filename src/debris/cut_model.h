// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/cut.h"
#include "network/layers.h"

#include <filesystem>

namespace swarfbook {

/// What a cut through an outline does.
enum class CutOutcome {
    throughPiece,  ///< it would cut a piece in two
    betweenPieces, ///< a piece lies on either side
    smallIsNone,   ///< the small side is no piece but a shadow, a bubble, a stain
    largeIsNone,   ///< the large side is none
    count
};

/// What the model says of one cut.
struct CutOpinion {
    double parts = 0.0; ///< probability that it does not go through a piece
    CutOutcome outcome = CutOutcome::throughPiece; ///< the likeliest of the others
};

/// Tells whether a cut parts pieces that touch, or a piece from its shadow. How it was made and how
/// well it does stands in models/cuts.md. One that was not loaded never cuts.
class CutModel {
  public:
    /// Reads cuts.json. Throws ToolError naming the file and what is wrong with it, features of
    /// another order or number included. Checked: tests/debris/cut_model_test.cpp.
    static CutModel load(const std::filesystem::path& file);

    [[nodiscard]] CutOpinion judge(const CutFeatures& features) const;
    /// A cut is made from this probability on.
    [[nodiscard]] double threshold() const { return threshold_; }

  private:
    Layers layers_;
    double threshold_ = 1.0;
};

} // namespace swarfbook
