// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/mark_letters.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace swarfbook {

namespace {

constexpr int cellsPerEm = 8;
constexpr int leastWidth = 7, letterHeight = 9; // cells, with a little air
constexpr int directions = 16;

} // namespace

LetterRoom::LetterRoom(Extent picture, double em)
    : em_(em), cell_(em / cellsPerEm),
      taken_(std::max(1, static_cast<int>(picture.height / cell_)),
             std::max(1, static_cast<int>(picture.width / cell_)), CV_8UC1, cv::Scalar(0)),
      letters_(taken_.size(), CV_8UC1, cv::Scalar(0)) {}

cv::Point LetterRoom::cellOf(Spot spot) const {
    return {static_cast<int>(std::floor(spot.x / cell_)),
            static_cast<int>(std::floor(spot.y / cell_))};
}

void LetterRoom::keepOff(const std::vector<Spot>& polygon) {
    if (polygon.empty())
        return;
    std::vector<cv::Point> cells;
    for (const Spot& spot : polygon)
        cells.push_back(cellOf(spot));
    cv::fillPoly(taken_, std::vector<std::vector<cv::Point>>{cells}, cv::Scalar(255));
    cv::polylines(taken_, cells, true, cv::Scalar(255), 3);
}

void LetterRoom::keepOff(Spot topLeft, Extent box) {
    const cv::Rect cells(cellOf(topLeft),
                         cellOf({topLeft.x + box.width, topLeft.y + box.height}) + cv::Point(1, 1));
    taken_(cells & cv::Rect({0, 0}, taken_.size())).setTo(255);
}

void LetterRoom::keepOffLine(const std::vector<Spot>& line) {
    for (std::size_t i = 1; i < line.size(); ++i)
        cv::line(taken_, cellOf(line[i - 1]), cellOf(line[i]), cv::Scalar(255), 3);
}

bool LetterRoom::isClear(Spot from, Spot to) const {
    cv::LineIterator cell(taken_, cellOf(from), cellOf(to));
    for (int i = 0; i < cell.count; ++i, ++cell)
        if (**cell != 0)
            return false;
    return true;
}

bool LetterRoom::crossesLetter(cv::Point from, cv::Point to) const {
    cv::LineIterator cell(letters_, from, to);
    for (int i = 0; i < cell.count; ++i, ++cell)
        if (**cell != 0)
            return true;
    return false;
}

void LetterRoom::take(const cv::Rect& box, cv::Point lineFrom) {
    taken_(box).setTo(255);
    letters_(box).setTo(255);
    cv::line(taken_, lineFrom, 0.5 * (box.tl() + box.br()), cv::Scalar(255), 3);
}

bool LetterRoom::isFree(const cv::Rect& cells) const {
    const cv::Rect all({0, 0}, taken_.size());
    return (cells & all) == cells && cv::countNonZero(taken_(cells)) == 0;
}

std::optional<Spot> LetterRoom::place(const std::vector<Spot>& polygon, double width) {
    if (polygon.empty())
        return std::nullopt;
    const int letterWidth = std::max(leastWidth, static_cast<int>(std::ceil(width / cell_)) + 1);
    cv::Point low = cellOf(polygon.front()), high = low;
    const auto nearestTo = [&](cv::Point middle) {
        cv::Point nearest = cellOf(polygon.front());
        for (const Spot& spot : polygon)
            if (cv::norm(cellOf(spot) - middle) < cv::norm(nearest - middle))
                nearest = cellOf(spot);
        return nearest;
    };
    for (const Spot& spot : polygon) {
        const cv::Point cell = cellOf(spot);
        low = {std::min(low.x, cell.x), std::min(low.y, cell.y)};
        high = {std::max(high.x, cell.x), std::max(high.y, cell.y)};
    }
    const cv::Point2d centre(0.5 * (low.x + high.x), 0.5 * (low.y + high.y));
    for (int away = 2; away <= 3 * cellsPerEm; away += 4) {
        const double across = 0.5 * (high.x - low.x + letterWidth) + away;
        const double along = 0.5 * (high.y - low.y + letterHeight) + away;
        for (int i = 0; i < directions; ++i) {
            // From the upper right, turning clockwise.
            const double angle = (2.0 * i / directions - 0.25) * std::numbers::pi;
            const cv::Rect box(static_cast<int>(std::lround(centre.x + across * std::cos(angle) -
                                                            0.5 * letterWidth)),
                               static_cast<int>(std::lround(centre.y + along * std::sin(angle) -
                                                            0.5 * letterHeight)),
                               letterWidth, letterHeight);
            const cv::Point from = nearestTo(0.5 * (box.tl() + box.br()));
            if (!isFree(box) || crossesLetter(from, 0.5 * (box.tl() + box.br())))
                continue;
            take(box, from);
            return Spot{(box.x + 0.5 * letterWidth) * cell_, (box.y + 0.5 * letterHeight) * cell_};
        }
    }
    return std::nullopt;
}

} // namespace swarfbook
