// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/grow_cores.h"

#include <algorithm>
#include <array>
#include <vector>

namespace swarfbook {
namespace {

/// Pixels whose neighbours are still to be looked at, by height.
class Flood {
  public:
    Flood(cv::Mat& labels, const cv::Mat& height, uchar least)
        : labels_(labels), height_(height), least_(least) {}

    void run() {
        startFromCores();
        for (int level = 255; level >= 0; --level)
            for (std::size_t i = 0; i < waiting(level).size(); ++i)
                look(waiting(level)[i], level);
    }

  private:
    [[nodiscard]] std::vector<cv::Point>& waiting(int level) {
        return waiting_[static_cast<std::size_t>(level)];
    }

    [[nodiscard]] bool isFree(cv::Point p) const {
        return p.x >= 0 && p.y >= 0 && p.x < labels_.cols && p.y < labels_.rows &&
               height_.at<uchar>(p) >= least_ && labels_.at<int>(p) == 0;
    }

    void startFromCores() {
        for (int y = 0; y < labels_.rows; ++y) {
            const int* row = labels_.ptr<int>(y);
            for (int x = 0; x < labels_.cols; ++x) {
                const cv::Point p(x, y);
                if (row[x] != 0 &&
                    std::any_of(beside_.begin(), beside_.end(),
                                [&](const cv::Point& step) { return isFree(p + step); }))
                    waiting(height_.at<uchar>(p)).push_back(p);
            }
        }
    }

    void look(cv::Point from, int level) {
        for (const cv::Point& step : beside_) {
            const cv::Point to = from + step;
            if (!isFree(to))
                continue;
            labels_.at<int>(to) = labels_.at<int>(from);
            waiting(std::min<int>(level, height_.at<uchar>(to))).push_back(to);
        }
    }

    const std::array<cv::Point, 4> beside_{cv::Point(0, -1), cv::Point(-1, 0), cv::Point(1, 0),
                                           cv::Point(0, 1)};
    cv::Mat& labels_;
    const cv::Mat& height_;
    uchar least_;
    std::array<std::vector<cv::Point>, 256> waiting_;
};

} // namespace

void growCores(cv::Mat& labels, const cv::Mat& height, uchar least) {
    Flood(labels, height, least).run();
}

} // namespace swarfbook
