// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/level_contour.h"

#include <array>
#include <utility>
#include <vector>

namespace swarfbook {
namespace {

/// A crossing lies on the grid line from a pixel to its right (side 0) or lower (side 1) neighbour.
using CrossingId = int;

struct Links {
    std::array<CrossingId, 2> to{-1, -1};
    void add(CrossingId id) { (to[0] < 0 ? to[0] : to[1]) = id; }
};

using SidePair = std::pair<int, int>;
constexpr SidePair noSides{-1, -1};

/// Which sides of a cell (0 upper, then clockwise) the contour joins, by the corners inside: 1
/// upper left, 2 upper right, 4 lower right, 8 lower left. Two opposite corners inside are kept
/// apart.
constexpr std::array<std::array<SidePair, 2>, 16> joinedSides{{
    {noSides, noSides},
    {SidePair{0, 3}, noSides},
    {SidePair{0, 1}, noSides},
    {SidePair{3, 1}, noSides},
    {SidePair{1, 2}, noSides},
    {SidePair{0, 3}, SidePair{1, 2}},
    {SidePair{0, 2}, noSides},
    {SidePair{2, 3}, noSides},
    {SidePair{2, 3}, noSides},
    {SidePair{0, 2}, noSides},
    {SidePair{0, 1}, SidePair{2, 3}},
    {SidePair{1, 2}, noSides},
    {SidePair{3, 1}, noSides},
    {SidePair{0, 1}, noSides},
    {SidePair{0, 3}, noSides},
    {noSides, noSides},
}};

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
        const std::array<CrossingId, 4> sides{idOf(x, y, 0), idOf(x + 1, y, 1), idOf(x, y + 1, 0),
                                              idOf(x, y, 1)};
        const int code = (a ? 1 : 0) | (b ? 2 : 0) | (c ? 4 : 0) | (d ? 8 : 0);
        for (const auto& [from, to] : joinedSides[static_cast<std::size_t>(code)])
            if (from >= 0)
                link(sides[static_cast<std::size_t>(from)], sides[static_cast<std::size_t>(to)]);
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
