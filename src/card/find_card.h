// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/result.h"
#include "card/card_bend.h"
#include "card/layout.h"
#include "card/plane_mapping.h"
#include "photo/photo.h"

#include <vector>

namespace swarfbook {

/// A card found in a photo and the mapping fitted to it.
struct CardSighting {
    CardLayout layout;
    PlaneMapping mapping;       ///< nominal card mm -> photo px
    int markersUsed = 0;        ///< whose edges joined the final fit
    Pixels residual;            ///< rms distance of the edge points used from the fitted edges
    Degrees tilt;               ///< between the camera's axis and the card's normal
    PixelsPerMillimetre scale;  ///< nominal mm, mean over the window
    double scaleUPercent = 0.0; ///< standard uncertainty of a length from the fit alone, percent
    double inkGrowth = 0.0; ///< mm by which every black edge is printed (or imaged) too far outward
    double unevenness = 0.0; ///< rms of the edges' mean offsets, mm
    CardBend bend;
};

/// Whether the photo's EXIF gives a focal length that a phone can have. Otherwise the mapping is
/// normalised by the focal length of a phone's usual main camera.
bool tellsFocalLength(const PhotoFacts& facts);

/// Finds the reference card in a photo and the mapping from card to photo.
///
/// @param photo    upright, sRGB.
/// @param layouts  nominal geometry; marker ids say which one is seen.
/// @return the sighting. Refuses no_card (fewer than 4 markers, or not on 3 sides), card_cut_off
///         (the window reaches out of the photo), mixed_cards, too_tilted (over 50 degrees).
///         Throws std::logic_error if the photo is empty; thread-safe.
///
/// One fit of homography, two radial terms and the ink's growth over the edge points of all marker
/// outlines and slanted squares, Huber-weighted; markers whose edges disagree are dropped.
/// Source: Hartley & Zisserman, Multiple View Geometry, 2nd ed., sections 4.1, 7.4 and A6.8.
/// Checked: tests/card/find_card_test.cpp (rendered cards of known pose; photos with truth).
Result<CardSighting> findCard(const Photo& photo, const std::vector<CardLayout>& layouts);

} // namespace swarfbook
