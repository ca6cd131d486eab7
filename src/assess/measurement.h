// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/result.h"
#include "card/edge_width_map.h"
#include "card/layout.h"
#include "card/plane_mapping.h"
#include "particles/magnet_finding.h"
#include "particles/magnet_sweep.h"
#include "particles/particle.h"
#include "particles/sample_basis.h"
#include "photo/photo.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// One point of the 5 x 5 grid over the window.
struct GridPoint {
    PointOnCard onCard; ///< true mm
    PointInPhoto inPhoto;
};

/// What the card in the photo told.
struct CardFacts {
    std::string layout;
    std::string serial; ///< "" when not given
    PrintScale printScale;
    int markersUsed = 0;
    Pixels residual; ///< rms reprojection residual of the corners used
    Degrees tilt;
    PixelsPerMillimetre scale;  ///< true mm, mean over the window
    double scaleUPercent = 0.0; ///< standard uncertainty of the fit alone, percent
    std::vector<GridPoint> grid;
    PlaneMapping mapping; ///< nominal mm of the surface measured -> photo px
};

/// A photo of the same place, cleaned, and what it was good for.
struct CleanReferenceUse {
    std::string file;   ///< name without its folders
    std::string sha256; ///< of its bytes; empty when it could not be read
    bool used = false;
    std::string whyNot;        ///< not used: what was seen and what to do; else empty
    bool byTexture = false;    ///< laid over the photo by the surface's marks; else by the card
    double likeness = 0.0;     ///< correlation of both photos where the clean reference shows marks
    PointOnCard shift;         ///< true mm by which the card lay elsewhere on the surface
    Degrees turn{};            ///< and by how much it was turned
    double coveredShare = 0.0; ///< of the window measured that the clean reference shows
};

/// A photo of the same scene under a lamp that was moved, and what it was good for.
struct SecondLightUse {
    std::string file;   ///< name without its folders
    std::string sha256; ///< of its bytes; empty when it could not be read
    bool used = false;
    std::string whyNot;    ///< not used: what was seen and what to do; else empty
    double likeness = 0.0; ///< correlation of what both photos show of pieces, 0 to 1
    PointOnCard shift;     ///< true mm by which the scene lies elsewhere on the second one's card
    int piecesInBoth = 0;  ///< pieces whose place the second photo shows
    double change = 0.0;   ///< median over those of the change of their light / card white
};

/// A photo of the same place after a magnet was drawn over it, and what that showed.
struct AfterMagnet {
    std::string file;                 ///< name without its folders
    std::string sha256;               ///< of its bytes; empty when it could not be read
    std::string whyNot;               ///< not used: what was seen and what to do; else empty
    std::optional<MagnetSweep> sweep; ///< where it was used
};

/// Everything read from one photo: the measurement document's content.
/// `refusal` set: nothing else beyond `photo` and `place` is claimed.
struct Measurement {
    PhotoFacts photo;
    Place place = Place::pad;
    SampleBasis basis; ///< typed: side and area of a filter, volume of fluid
    std::optional<Refusal> refusal;
    std::optional<CardFacts> card;
    Pixels edgeWidth; ///< 10-90 % width of the card's edges
    Millimetres edgeWidthOnCard;
    std::vector<EdgeWidths> edgesOverWindow; ///< true mm: the window's corners, clockwise from the
                                             ///< upper left, and its middle, where they differ
    std::optional<DebrisFinding> debris;
    std::optional<MagnetFinding> magnet; ///< place magnet only
    std::vector<std::string> cautions;   ///< what to mind in this photo, with advice; of the photo
    std::optional<CleanReferenceUse>
        cleanReference;                          ///< where a photo of the cleaned place was given
    std::optional<AfterMagnet> afterMagnet;      ///< where a photo after a magnet was given
    std::optional<SecondLightUse> secondLight{}; ///< where a photo in a second light was given
    std::string magnetNote; ///< place magnet: why none was measured and what to do; else empty
};

} // namespace swarfbook
