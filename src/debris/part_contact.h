// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/piece_network.h"

#include <opencv2/core.hpp>

#include <array>
#include <string_view>
#include <vector>

namespace swarfbook {

/// What the network's maps show of two parts that touch, the smaller and the larger one by pixels,
/// and of the line where they touch. Answers are those of the maps, 0 to 1.
enum class ContactFeature {
    logLength,        ///< log of the pixel sides along which they touch
    meanSeam,         ///< mean along the line of the seam map, of the two pixels the greater value
    greatestSeam,     ///< the greatest value along the line
    meanAnswer,       ///< mean along the line of the piece map, of the two pixels the smaller value
    logSmaller,       ///< log of the smaller part's pixels
    logLarger,        ///< log of the larger part's pixels
    neck,             ///< log of the line's length / root of the smaller part's pixels
    acrossSmaller,    ///< log of the line's length / least width of the smaller part
    soliditySmaller,  ///< pixels / pixels of its convex hull
    solidityLarger,   ///< the same of the larger part
    solidityTogether, ///< the same of both as one
    typeDifference,   ///< sum over the types of how far their mean shares differ
    logScale,         ///< log of pixels per millimetre
    answerSmaller,    ///< mean of the piece map in the smaller part
    answerLarger,     ///< the same in the larger part
    count
};
inline constexpr int contactFeatureCount = static_cast<int>(ContactFeature::count);
using ContactFeatures = std::array<float, contactFeatureCount>;

/// The names as models/contact-trust.json writes them, in order.
const std::array<std::string_view, contactFeatureCount>& contactFeatureNames();

/// Two parts that touch by pixels' sides.
struct PartContact {
    int first = 0, second = 0; ///< labels, the lower one first
    ContactFeatures features{};
};

/// All pairs of labelled parts that touch.
/// @param labels   CV_32S, the parts from 1 on, 0 elsewhere, of the maps' size
/// @param pxPerMm  of the photo at the window
/// @return in the order of their labels
/// Checked: tests/debris/part_contact_test.cpp (drawn maps; closed forms of squares).
std::vector<PartContact> contactsOf(const cv::Mat& labels, const PieceMaps& maps, double pxPerMm);

} // namespace swarfbook
