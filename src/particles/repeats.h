// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace swarfbook {

/// A figure read from each of several photos of one sample.
struct RepeatedFigure {
    double mean = 0.0;
    double between = 0.0;         ///< standard deviation between the photos: repeatability
    double low = 0.0, high = 0.0; ///< 95 % interval of a count; see combineRepeats
};

struct RepeatedClass {
    std::string sizeClass;
    Micrometres from, to; ///< `to` is +infinity for the open class
    RepeatedFigure count; ///< as per100Cm2 of ClassCount
};

/// Several photos of one sample as one finding.
struct RepeatedFinding {
    int photos = 0;
    bool onWhiteCard = false;
    Millimetres detectionLimit; ///< common to all: the largest of theirs
    RepeatedFigure count;       ///< pieces at and above it, per sample or per 100 cm2
    std::vector<RepeatedClass>
        classes;            ///< that lie wholly above the floor, to the last with a piece
    RepeatedFigure covered; ///< share of the measured area under pieces; no interval
    /// Share of the pieces of one photo that the next photo shows too, from the size limit up,
    /// without doubtful pieces and threads. Not given if the pieces lie differently in the photos.
    std::optional<double> foundAgain;
};

/// Combines the findings of photos that show one and the same sample. The same pieces are seen
/// again and again, so counts are averaged, never added up. The interval of the mean combines the
/// chance of one sample (exact Poisson limits at its mean count) with the scatter of the mean
/// between the photos (Student's t), added in quadrature. Throws std::logic_error for no findings
/// or for white cards and frames together. Source: ISO/IEC Guide 98-3, 4.2 (mean of repeats) and
/// 5.1 (independent parts add in quadrature). Checked: tests/particles/repeats_test.cpp.
RepeatedFinding combineRepeats(std::span<const DebrisFinding> repeats);

} // namespace swarfbook
