// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/connected_parts.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <numeric>
#include <utility>

namespace swarfbook {
namespace {

/// First pixel from `x` on that is set, eight at a time where none of them is.
int nextSet(const uchar* row, int x, int cols) {
    for (std::uint64_t eight = 0; x + 8 <= cols; x += 8) {
        std::memcpy(&eight, row + x, sizeof eight);
        if (eight != 0)
            break;
    }
    while (x < cols && row[x] == 0)
        ++x;
    return x;
}

std::vector<PixelRun> runsOf(const cv::Mat& mask) {
    std::vector<PixelRun> runs;
    for (int y = 0; y < mask.rows; ++y) {
        const auto* row = mask.ptr<uchar>(y);
        for (int x = nextSet(row, 0, mask.cols); x < mask.cols; x = nextSet(row, x, mask.cols)) {
            const int from = x;
            while (x < mask.cols && row[x] != 0)
                ++x;
            runs.push_back({y, from, x});
        }
    }
    return runs;
}

/// Of each run, the first run of the part it belongs to.
class Belonging {
  public:
    explicit Belonging(const std::vector<PixelRun>& runs) : first_(runs.size()) {
        std::iota(first_.begin(), first_.end(), std::size_t{0});
        std::size_t above = 0;
        for (std::size_t i = 0; i < runs.size(); ++i) {
            const PixelRun& run = runs[i];
            while (above < i && (runs[above].row < run.row - 1 ||
                                 (runs[above].row == run.row - 1 && runs[above].to < run.from)))
                ++above;
            for (std::size_t k = above; k < i && runs[k].row < run.row && runs[k].from <= run.to;
                 ++k)
                join(i, k);
        }
    }
    [[nodiscard]] std::size_t firstOf(std::size_t i) {
        while (first_[i] != i)
            i = first_[i] = first_[first_[i]];
        return i;
    }

  private:
    void join(std::size_t a, std::size_t b) {
        const auto [early, late] = std::minmax({firstOf(a), firstOf(b)});
        first_[late] = early;
    }
    std::vector<std::size_t> first_;
};

/// Row and column of the first 2 x 2 pixels that hold some of the part.
std::pair<int, int> firstBlockOf(const ConnectedPart& part) {
    const int row = part.box.y / 2;
    int column = part.runs.front().from / 2;
    for (const PixelRun& run : part.runs) {
        if (run.row / 2 > row)
            break;
        column = std::min(column, run.from / 2);
    }
    return {row, column};
}

} // namespace

cv::Mat ConnectedPart::maskIn(const cv::Rect& around) const {
    cv::Mat mask(around.size(), CV_8U, cv::Scalar(0));
    for (const PixelRun& run : runs)
        std::fill_n(mask.ptr<uchar>(run.row - around.y) + (run.from - around.x), run.length(),
                    uchar{255});
    return mask;
}

ConnectedParts::ConnectedParts(const cv::Mat& mask, int leastArea) {
    const std::vector<PixelRun> runs = runsOf(mask);
    Belonging belonging(runs);
    std::vector<std::size_t> partOf(runs.size());
    std::vector<std::size_t> ends; // so far how many runs a part has, then where its next one goes
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const std::size_t first = belonging.firstOf(i);
        partOf[i] = first == i ? parts_.size() : partOf[first];
        const PixelRun& run = runs[i];
        const cv::Rect box(run.from, run.row, run.length(), 1);
        if (first == i) {
            parts_.push_back({box, 0, {}});
            ends.push_back(0);
        }
        ConnectedPart& part = parts_[partOf[i]];
        part.box |= box;
        part.area += run.length();
        ++ends[partOf[i]];
    }
    std::exclusive_scan(ends.begin(), ends.end(), ends.begin(), std::size_t{0});
    runs_.resize(runs.size());
    for (std::size_t i = 0; i < runs.size(); ++i)
        runs_[ends[partOf[i]]++] = runs[i];
    for (std::size_t p = 0, from = 0; p < parts_.size(); from = ends[p++])
        parts_[p].runs = std::span(runs_).subspan(from, ends[p] - from);
    std::erase_if(parts_, [&](const ConnectedPart& part) { return part.area < leastArea; });
    std::sort(parts_.begin(), parts_.end(), [](const ConnectedPart& a, const ConnectedPart& b) {
        return firstBlockOf(a) < firstBlockOf(b);
    });
}

} // namespace swarfbook
