// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// What a photo can show of a material.
enum class ParticleType { brightMetal, yellowMetal, lining, plastic, fibre, unidentified };
inline constexpr int particleTypeCount = 6;
/// The type's word, for people and in documents: "bright metal", "yellow metal", "lining",
/// "plastic", "fibre", "unidentified".
std::string_view typeWord(ParticleType type);
/// Inverse of typeWord; throws std::invalid_argument.
ParticleType typeFromWord(std::string_view word);
/// The type's word in measurement documents of format 1 and in the files of `models/`: as
/// typeWord, but "polymer" and "undecided".
std::string_view earlierTypeWord(ParticleType type);

/// A photo cannot show it; a magnet step or the technician's entry can.
enum class Ferrous { notKnown, yes, no };

/// Where a sample came from and how it lies.
enum class Place { pan, magnet, filter, tray, pad, strained };
/// "pan", "magnet", "filter", "tray", "pad", "strained".
std::string_view placeName(Place place);
/// Inverse of placeName; throws std::invalid_argument.
Place placeFromName(std::string_view name);
/// The place as people read it: as placeName, but "white card".
std::string_view placeWord(Place place);

/// A type, and how probable it is, given that the piece is debris.
struct TypeSaid {
    ParticleType type = ParticleType::unidentified;
    double probability = 0.0;
};

/// All that was said of a piece's type; type_evidence.h decides by it.
struct TypeEvidence {
    std::optional<TypeSaid> photo;     ///< by the one photo
    std::optional<TypeSaid> twoLights; ///< by two photos under different light
    Ferrous sweep = Ferrous::notKnown; ///< by the magnet sweep: taken, left
    std::optional<ParticleType> hand;  ///< by the technician
};

/// What each of two photos in different light says of a piece's type, and how its light changes.
struct TwoLights {
    ParticleType first = ParticleType::unidentified, second = ParticleType::unidentified;
    double firstProbability = 0.0, secondProbability = 0.0; ///< of those types, as typeProbability
    double change = 0.0; ///< mean over the piece of the change of light / card white, linear light
};

/// One piece of debris. Positions and sizes are true millimetres on the card's plane (nominal x
/// print scale), from the card's outer top-left corner, x right, y down.
struct Particle {
    int id = 0;                     ///< 1, 2, ... within its photo, largest first
    PointOnCard centre;             ///< centroid of the outline
    Measured<Millimetres> maxFeret; ///< ISO 13322-1, half-level outline
    Measured<Millimetres> minFeret;
    Measured<SquareMillimetres> area;
    std::optional<Millimetres> leastSize{}; ///< only a part of it shows, surely so long as this;
                                            ///< maxFeret is then no more than an estimate
    Millimetres length;                     ///< geodesic length (ISO 9276-6); = maxFeret if compact
    std::string sizeClass;                  ///< ISO 16232 letter by maxFeret, "" below class B
    ParticleType type = ParticleType::unidentified;
    double debrisProbability = 1.0; ///< that it is debris at all, 0 to 1
    double typeProbability = 0.0;   ///< of `type`, given that it is debris, 0 to 1
    double glint = 0.0;             ///< brightest part / card white there (debris/glint.h)
    bool glintAtLeast = false;      ///< that part is clipped: the glint is a lower bound
    Ferrous ferrous = Ferrous::notKnown;
    TypeEvidence said{};                  ///< what `type` rests on
    bool atEdge = false;                  ///< touches the window's edge
    bool mayBeSeveral = false;            ///< touching pieces that could not be split
    std::vector<PointOnCard> outline;     ///< closed polygon, true mm
    std::optional<TwoLights> twoLights{}; ///< where a photo in a second light shows its place

    /// That it is debris, and of `type`.
    [[nodiscard]] double chanceOfType() const { return debrisProbability * typeProbability; }
    /// Counted, but less than four times in five rightly; ours.
    [[nodiscard]] bool mayBeNone() const { return debrisProbability < 0.8; }
};

/// Counts of one ISO 16232 size class.
struct ClassCount {
    std::string sizeClass;  ///< "H"
    Micrometres from;       ///< included
    Micrometres to;         ///< excluded; +infinity for class N
    int count = 0;          ///< pieces seen, edge rule applied
    double weighted = 0.0;  ///< Miles-Lantuejoul weighted (frame); = count on a white card
    double per100Cm2 = 0.0; ///< weighted / measured area; on a white card: per sample
    double intervalLow = 0.0, intervalHigh = 0.0; ///< 95 % (Poisson, scaled as per100Cm2)
    std::vector<int> byType = std::vector<int>(particleTypeCount, 0); ///< indexed by Look
    bool complete = true; ///< false: it reaches below the size limit, a minimum count
};

/// A part of the window that was not measured.
struct LeftOut {
    std::string why;                  ///< "glare", "deep shadow", ...
    std::vector<PointOnCard> outline; ///< true mm
};

/// How sure the sizes of the pieces found are as a distribution, from how many were measured.
struct SizeSampling {
    int pieces = 0;                    ///< measured; on a frame only those wholly inside
    Millimetres median;                ///< of the maximum Ferets
    Millimetres medianLow, medianHigh; ///< 95 % interval of the median, free of any distribution
    double spread = 1.0;               ///< geometric standard deviation of the maximum Ferets
    double meanOff95 = 0.0; ///< relative: the mean size is within +- this in 95 of 100 samples
    double volumeMeanOff95 = 0.0; ///< the same of the volume-weighted mean
    int neededFor5Percent = 0;    ///< pieces for a mean size within +-5 %
};

/// Why a photo's pieces are shown but not counted, and what to do.
struct ShownOnly {
    std::string why, advice;
};

/// What one photo shows of the debris in its window.
struct DebrisFinding {
    Millimetres
        detectionLimit; ///< from here up nine of ten are found, threads apart (detection_limit.h)
    Millimetres
        resolutionLimit;      ///< nothing smaller is shown; from here to the floor some are missed
    bool onWhiteCard = false; ///< whole sample in view: no edge weights, per sample
    SquareCentimetres windowArea;
    SquareCentimetres measuredArea;
    std::vector<LeftOut> leftOut;
    std::vector<Particle> particles;          ///< largest first
    std::vector<ClassCount> counts;           ///< classes from `resolutionLimit` up
    std::optional<SizeSampling> sizeSampling; ///< from 3 pieces on
    int alsoOnCleanReference =
        0;            ///< finds left out because a photo of the cleaned place shows them too
    std::string code; ///< ISO 16232 code, "" where the area is not known
    /// Where set, the pieces are to be looked at by eye: there are no counts, no code, and nothing
    /// may rest on them (photo_trust.h).
    std::optional<ShownOnly> shownOnly;
};

} // namespace swarfbook
