// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/piece_features.h"
#include "network/dense_network.h"
#include "particles/particle.h"

#include <array>
#include <filesystem>
#include <vector>

namespace swarfbook {

/// What is said of one piece that the network shows.
struct PieceOpinion {
    double debris = 0.0;                            ///< probability that it is debris at all
    ParticleType type = ParticleType::unidentified; ///< the most probable one, unidentified when
                                                    ///< none is probable enough, nor whether it is
                                                    ///< metal, nor lining rather than plastic
    double typeProbability = 0.0; ///< of the most probable type, given that it is debris
};

/// Log-probabilities of the types, unidentified left out, given that a piece is debris.
using TypeLogShares = std::array<double, particleTypeCount - 1>;

/// What the outline misses or takes in: tips that the lens blurs away, a part of the piece's own
/// shadow.
struct SizeCorrection {
    double factor = 1.0;              ///< true maximum Feret / that of the outline, median
    double relativeUncertainty = 0.1; ///< standard, of a corrected length
};

/// How far the network's answers can be trusted, fitted on photos that it never learnt from: the
/// probability that a piece is one, that of its type, and its true longest side. Small networks of
/// the pieces' features. How it was made and how well it does stands in models/piece-trust.md.
class PieceTrust {
  public:
    /// Reads models/piece-trust.json. Throws ToolError naming the file and what is wrong with it,
    /// features of another order or number included.
    static PieceTrust load(const std::filesystem::path& file);

    [[nodiscard]] PieceOpinion judge(const Features& features) const;
    [[nodiscard]] TypeLogShares typeLogShares(const Features& features) const;
    /// Writes the most probable type and its probability, unidentified where judge() says so too.
    /// @param logShares  need not add up to 1
    void decideType(const TypeLogShares& logShares, PieceOpinion& opinion) const;
    /// 0.78 to 1.28; fitted to pieces of known size, its uncertainty so that +-1.96 of it hold
    /// 95 % of them.
    [[nodiscard]] SizeCorrection sizeCorrection(const Features& features) const;
    /// What is less probable than this is not debris.
    [[nodiscard]] double debrisThreshold() const { return debrisThreshold_; }

  private:
    DenseNetwork debris_; ///< log-odds
    DenseNetwork
        type_; ///< log-probabilities of the types but for a constant, unidentified left out
    DenseNetwork size_;   ///< log of the factor
    DenseNetwork spread_; ///< log of the relative uncertainty
    double debrisThreshold_ = 0.5;
    double typeThreshold_ = 0.5;
    double metalThreshold_ = 0.5;    ///< that it is metal, or that it is not
    double liningOverPlastic_ = 0.5; ///< of lining, given that it is lining or plastic: plastic
                                     ///< that is called lining points at a clutch
};

} // namespace swarfbook
