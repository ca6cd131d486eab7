// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "magnet/drawn_magnet.h"

#include <opencv2/core.hpp>

#include <vector>

/// Parts of drawn magnets: rims, strands of fuzz, and masks of them from above.
namespace drawn {

inline const cv::Rect2d window(20.0, 18.0, 64.0, 44.0); // mm
inline constexpr double topScale = 40.0; // px/mm of the view from above that gives the truth

struct Strand {
    cv::Point3d from, to; ///< mm, z up from the card
};

/// Fills a polygon with fractions of pixels kept.
void fill(cv::Mat& image, const std::vector<cv::Point2d>& polygon, const cv::Scalar& colour);
/// The outer rim, half a millimetre and less between points, mm.
std::vector<cv::Point2d> outline(const Magnet& m);
std::vector<cv::Point2d> holeRim(const Magnet& m);

/// Masks from above over the window and 6 mm round it.
struct Above {
    static constexpr double rim = 6.0;
    static cv::Point2d at(cv::Point2d mm) {
        return {(mm.x - window.x + rim) * topScale - 0.5, (mm.y - window.y + rim) * topScale - 0.5};
    }
    static cv::Point2d mm(cv::Point px) {
        return {(px.x + 0.5) / topScale + window.x - rim, (px.y + 0.5) / topScale + window.y - rim};
    }
    static cv::Mat empty() {
        return cv::Mat::zeros(cvRound((window.height + 2 * rim) * topScale),
                              cvRound((window.width + 2 * rim) * topScale), CV_8U);
    }
    static cv::Mat filled(const std::vector<cv::Point2d>& outline) {
        cv::Mat mask = empty();
        std::vector<cv::Point2d> points;
        for (const cv::Point2d& p : outline)
            points.push_back(at(p));
        fill(mask, points, cv::Scalar::all(255));
        return mask >= 128;
    }
};

struct Fuzz {
    std::vector<Strand> strands; ///< in the order they are to be drawn
    cv::Mat body;                ///< CV_8U, the magnet's face from above
};
Fuzz grow(const Magnet& magnet, unsigned seed);

} // namespace drawn
