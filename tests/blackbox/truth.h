// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <opencv2/core.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace swarfbook::test {

/// One true piece, or a cluster of touching ones; true millimetres.
struct TruePiece {
    PointOnCard at;
    double maxFeret = 0.0;
    bool usable = true;  ///< in sight, off the window's edge, not on the magnet
    bool thread = false; ///< a fibre
    int id = 0;
    std::vector<int> members; ///< of a cluster
};

/// The truth of one photo.
struct Truth {
    std::string name, layout, place;
    double printScale = 1.0;
    std::vector<std::string> defects; ///< "blur", "dark", ...: must be refused
    bool hasMagnet = false;
    std::vector<TruePiece> pieces, clusters;
    std::vector<TruePiece> crumbs; ///< foreign matter: may be reported or not
    struct Blind {
        PointInPhoto at;
        double radius = 0.0;
    };
    std::vector<Blind> mirrored; ///< area that a mirrored lamp hides, px
    double windowX = 0.0, windowY = 0.0, windowWidth = 0.0, windowHeight = 0.0;
    double pxPerMm = 1.0;

    /// Where the true camera sees a place of the card's plane.
    [[nodiscard]] PointInPhoto photoFromCard(PointOnCard p) const;
    [[nodiscard]] bool isMirrored(PointOnCard p) const;

    cv::Matx33d worldFromCamera;
    cv::Vec3d camera;
    cv::Point2d offset, centre;
    double planeZ = 0.0, focal = 1.0, k1 = 0.0, k2 = 0.0;
};

Truth readTruth(const std::filesystem::path& file);

} // namespace swarfbook::test
