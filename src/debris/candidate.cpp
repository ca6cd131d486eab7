// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/candidate.h"

#include "debris/fill_holes.h"
#include "debris/grow_cores.h"
#include "debris/level_contour.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>

namespace swarfbook {
namespace {

// Levels of the maps, which count to 255. The outline is at one half: the network answers with the
// share of a pixel that a piece covers.
constexpr int halfLevel = 128;
constexpr int leastLevel = 102; // 0.4: a pixel may still belong to a piece
constexpr int faintSeam = 77;   // 0.3: two pieces may meet, if ContactTrust takes them for two
constexpr int plainSeam = 110;  // 0.43: if such a seam separates nothing, the piece may be several
constexpr int lowerLevel = 77,
              higherLevel = 179; // 0.3 and 0.7: how the size changes with the level
constexpr int rimPx = 4;         // px round a piece
constexpr int smallestPx = 4;
constexpr int fewestPoints = 6; // of an outline
constexpr int besideSeam = 3;   // px: a seam this near to another piece separates the two
constexpr int fewestOfSeam = 3; // px of a seam that is farther from any other piece

/// The label that replaces each label.
class Groups {
  public:
    explicit Groups(int labels) : of_(static_cast<std::size_t>(labels)) {
        std::iota(of_.begin(), of_.end(), 0);
    }
    [[nodiscard]] int of(int label) const {
        while (at(label) != label)
            label = at(label);
        return label;
    }
    void join(int a, int b) {
        const auto [low, high] = std::minmax({of(a), of(b)});
        of_[static_cast<std::size_t>(high)] = low;
    }

  private:
    [[nodiscard]] int at(int label) const { return of_[static_cast<std::size_t>(label)]; }
    std::vector<int> of_;
};

/// Gives all parts of one piece the same label.
void joinParts(cv::Mat& labels, const PieceMaps& maps, double pxPerMm,
               const ContactTrust& contacts) {
    const std::vector<PartContact> touching = contactsOf(labels, maps, pxPerMm);
    if (touching.empty())
        return;
    double greatest = 0.0;
    cv::minMaxIdx(labels, nullptr, &greatest);
    Groups groups(static_cast<int>(greatest) + 1);
    for (const PartContact& one : touching)
        if (contacts.twoPieces(one.features) < contacts.threshold())
            groups.join(one.first, one.second);
    for (int y = 0; y < labels.rows; ++y) {
        int* row = labels.ptr<int>(y);
        std::transform(row, row + labels.cols, row, [&](int label) { return groups.of(label); });
    }
}

/// One label's pixels.
struct Part {
    int label = 0;
    cv::Rect box;
};

/// In reading order of their first pixels.
std::vector<Part> partsOf(const cv::Mat& labels) {
    std::vector<Part> parts;
    std::vector<std::size_t> at; // of a label, plus one
    for (int y = 0; y < labels.rows; ++y) {
        const int* row = labels.ptr<int>(y);
        for (int x = 0; x < labels.cols; ++x) {
            if (row[x] == 0)
                continue;
            const auto label = static_cast<std::size_t>(row[x]);
            if (label >= at.size())
                at.resize(label + 1, 0);
            if (at[label] == 0) {
                parts.push_back({row[x], {x, y, 1, 1}});
                at[label] = parts.size();
            }
            cv::Rect& box = parts[at[label] - 1].box;
            const int left = std::min(box.x, x), right = std::max(box.br().x, x + 1);
            box = {left, box.y, right - left, y + 1 - box.y};
        }
    }
    return parts;
}

double longestSide(const cv::Mat& mask) {
    std::vector<cv::Point> ends, hull; // the first and the last pixel of each row
    for (int y = 0; y < mask.rows; ++y) {
        const auto* row = mask.ptr<uchar>(y);
        int first = 0, last = mask.cols - 1;
        while (first <= last && row[first] == 0)
            ++first;
        while (last > first && row[last] == 0)
            --last;
        if (first <= last)
            ends.insert(ends.end(), {{first, y}, {last, y}});
    }
    if (ends.empty())
        return 0.0;
    cv::convexHull(ends, hull);
    double longest = 0.0;
    for (const cv::Point& a : hull)
        for (const cv::Point& b : hull)
            longest = std::max(longest, static_cast<double>((a - b).dot(a - b)));
    return std::sqrt(longest) + 1.0; // from pixel's far side to pixel's far side
}

cv::Mat grown(const cv::Mat& mask, int reach) {
    cv::Mat out;
    cv::dilate(mask, out, cv::Mat::ones(2 * reach + 1, 2 * reach + 1, CV_8U), {-1, -1}, 1,
               cv::BORDER_CONSTANT, cv::Scalar(0));
    return out;
}

bool touchesBorder(const Candidate& c, const cv::Mat& inside) {
    const cv::Mat in = inside(c.box);
    if (cv::countNonZero(in) == c.box.area())
        return false;
    return cv::countNonZero(grown(c.mask, 2) & (in == 0)) > 0;
}

/// The level line of one piece in its own part of the map, without other pieces.
std::vector<cv::Point2d> outlineOf(const cv::Mat& piece, const cv::Mat& own, const cv::Mat& others,
                                   cv::Point corner) {
    cv::Mat field;
    piece.convertTo(field, CV_32F, 1.0 / 255.0, -0.5);
    field.setTo(-0.5F, others | (grown(own, 1) == 0));
    cv::copyMakeBorder(field, field, 1, 1, 1, 1, cv::BORDER_CONSTANT, cv::Scalar(-0.5));
    auto outline = longestZeroContour(field);
    for (auto& p : outline)
        p += cv::Point2d(corner.x - 1, corner.y - 1);
    return outline;
}

Candidate outlined(const Part& part, const cv::Mat& labels, const PieceMaps& maps,
                   const WindowCrop& crop) {
    Candidate c;
    c.box = cv::Rect(part.box.tl() - cv::Point(rimPx, rimPx),
                     part.box.size() + cv::Size(2 * rimPx, 2 * rimPx)) &
            cv::Rect({0, 0}, labels.size());
    const cv::Mat here = labels(c.box), piece = maps.piece(c.box);
    const cv::Mat own = here == part.label;
    const cv::Mat others = ((here != 0) & ~own) | (crop.inside(c.box) == 0);
    c.mask = own & (piece >= halfLevel);
    c.outline = outlineOf(piece, own, others, c.box.tl());
    const cv::Mat near = grown(own, rimPx) & ~others;
    const double longest = std::max(1.0, longestSide(c.mask));
    c.growth = longestSide(near & (piece >= lowerLevel)) / longest;
    c.shrink = longestSide(near & (piece >= higherLevel)) / longest;
    const cv::Mat seam = (maps.seam(c.box) >= plainSeam) & c.mask & ~grown(others, besideSeam);
    c.mayBeSeveral = cv::countNonZero(seam) >= fewestOfSeam;
    fillHoles(c.mask);
    c.areaPx = cv::countNonZero(c.mask);
    c.atEdge = touchesBorder(c, crop.inside);
    return c;
}

} // namespace

cv::Mat labelledParts(const PieceMaps& maps, const WindowCrop& crop) {
    cv::Mat ground, labels;
    cv::bitwise_and(maps.piece, crop.inside, ground);
    const cv::Mat cores = (ground >= halfLevel) & (maps.seam < faintSeam);
    cv::connectedComponents(cores, labels, 4, CV_32S);
    growCores(labels, ground, leastLevel);
    return labels;
}

std::vector<Candidate> findPieces(const PieceMaps& maps, const WindowCrop& crop,
                                  const ContactTrust& contacts) {
    cv::Mat labels = labelledParts(maps, crop);
    joinParts(labels, maps, crop.pxPerMm, contacts);
    const std::vector<Part> parts = partsOf(labels);
    std::vector<Candidate> all(parts.size());
    cv::parallel_for_(cv::Range(0, static_cast<int>(parts.size())), [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i)
            all[static_cast<std::size_t>(i)] =
                outlined(parts[static_cast<std::size_t>(i)], labels, maps, crop);
    });
    std::erase_if(all, [](const Candidate& c) {
        return c.areaPx < smallestPx || c.outline.size() < fewestPoints;
    });
    return all;
}

} // namespace swarfbook
