// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/level_contour.h"

#include <array>
#include <vector>

namespace swarfbook {
namespace {

/// A crossing lies on the grid line from a pixel to its right (side 0) or lower (side 1) neighbour.
using CrossingId = int;

struct Links {
    std::array<CrossingId, 2> to{-1, -1};
    void add(CrossingId id) { (to[0] < 0 ? to[0] : to[1]) = id; }
};

class Tracer {
  public:
    explicit Tracer(const cv::Mat& field)
        : field_(field), links_(2 * field.total()), seen_(2 * field.total(), false) {
        for (int y = 0; y + 1 < field.rows; ++y)
            for (int x = 0; x + 1 < field.cols; ++x)
                addCell(x, y);
    }

    [[nodiscard]] std::vector<cv::Point2d> longest() {
        std::vector<cv::Point2d> best;
        for (std::size_t start = 0; start < links_.size(); ++start) {
            if (links_[start].to[0] < 0 || seen_[start])
                continue;
            auto contour = trace(static_cast<CrossingId>(start));
            if (contour.size() > best.size())
                best = std::move(contour);
        }
        return best;
    }

  private:
    [[nodiscard]] CrossingId idOf(int x, int y, int side) const {
        return (y * field_.cols + x) * 2 + side;
    }

    void link(CrossingId a, CrossingId b) {
        links_[static_cast<std::size_t>(a)].add(b);
        links_[static_cast<std::size_t>(b)].add(a);
    }

    void addCell(int x, int y) {
        const bool a = field_.at<float>(y, x) > 0;
        const bool b = field_.at<float>(y, x + 1) > 0;
        const bool c = field_.at<float>(y + 1, x + 1) > 0;
        const bool d = field_.at<float>(y + 1, x) > 0;
        const CrossingId top = idOf(x, y, 0);
        const CrossingId right = idOf(x + 1, y, 1);
        const CrossingId bottom = idOf(x, y + 1, 0);
        const CrossingId left = idOf(x, y, 1);
        const int code = (a ? 1 : 0) | (b ? 2 : 0) | (c ? 4 : 0) | (d ? 8 : 0);
        switch (code) {
        case 1:
        case 14:
            link(top, left);
            break;
        case 2:
        case 13:
            link(top, right);
            break;
        case 4:
        case 11:
            link(right, bottom);
            break;
        case 8:
        case 7:
            link(bottom, left);
            break;
        case 3:
        case 12:
            link(left, right);
            break;
        case 6:
        case 9:
            link(top, bottom);
            break;
        case 5:
            link(top, left);
            link(right, bottom);
            break;
        case 10:
            link(top, right);
            link(bottom, left);
            break;
        default:
            break;
        }
    }

    [[nodiscard]] cv::Point2d place(CrossingId id) const {
        const int x = (id / 2) % field_.cols;
        const int y = (id / 2) / field_.cols;
        const bool lower = id % 2 == 1;
        const double here = field_.at<float>(y, x);
        const double there = lower ? field_.at<float>(y + 1, x) : field_.at<float>(y, x + 1);
        const double t = here / (here - there);
        return lower ? cv::Point2d(x, y + t) : cv::Point2d(x + t, y);
    }

    std::vector<cv::Point2d> trace(CrossingId start) {
        std::vector<cv::Point2d> contour;
        CrossingId before = -1;
        CrossingId now = start;
        while (now >= 0 && !seen_[static_cast<std::size_t>(now)]) {
            seen_[static_cast<std::size_t>(now)] = true;
            contour.push_back(place(now));
            const auto& to = links_[static_cast<std::size_t>(now)].to;
            const CrossingId next = to[0] != before ? to[0] : to[1];
            before = now;
            now = next;
        }
        return contour;
    }

    const cv::Mat& field_;
    std::vector<Links> links_; ///< by CrossingId; empty where the level is not crossed
    std::vector<bool> seen_;
};

} // namespace

std::vector<cv::Point2d> longestZeroContour(const cv::Mat& field) {
    return Tracer(field).longest();
}

} // namespace swarfbook
