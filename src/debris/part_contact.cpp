// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/part_contact.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>

namespace swarfbook {
namespace {

constexpr std::array<std::string_view, contactFeatureCount> contactNames{
    "logLength",        "meanSeam",       "greatestSeam",  "meanAnswer",      "logSmaller",
    "logLarger",        "neck",           "acrossSmaller", "soliditySmaller", "solidityLarger",
    "solidityTogether", "typeDifference", "logScale",      "answerSmaller",   "answerLarger"};

/// What the maps show along the line between two parts, for each pair of pixels that touch.
struct Line {
    int length = 0;
    double seam = 0.0, answer = 0.0; ///< sums
    double greatestSeam = 0.0;

    void add(const PieceMaps& maps, cv::Point a, cv::Point b) {
        const double here = std::max(maps.seam.at<uchar>(a), maps.seam.at<uchar>(b)) / 255.0;
        ++length;
        seam += here;
        greatestSeam = std::max(greatestSeam, here);
        answer += std::min(maps.piece.at<uchar>(a), maps.piece.at<uchar>(b)) / 255.0;
    }
};
using Lines = std::map<std::pair<int, int>, Line>;

Lines linesBetween(const cv::Mat& labels, const PieceMaps& maps) {
    Lines lines;
    const auto look = [&](cv::Point a, cv::Point b) {
        const int one = labels.at<int>(a), other = labels.at<int>(b);
        if (one != other && one != 0 && other != 0)
            lines[std::minmax({one, other})].add(maps, a, b);
    };
    for (int y = 0; y < labels.rows; ++y)
        for (int x = 0; x < labels.cols; ++x) {
            if (x + 1 < labels.cols)
                look({x, y}, {x + 1, y});
            if (y + 1 < labels.rows)
                look({x, y}, {x, y + 1});
        }
    return lines;
}

/// Features of one part alone.
struct PartShape {
    int pixels = 0;
    double answer = 0.0;            ///< sum of the piece map
    std::array<double, 5> types{};  ///< sums of the shares
    std::vector<cv::Point> rowEnds; ///< the first and the last pixel of each of its rows
    [[nodiscard]] double meanAnswer() const { return answer / pixels; }
};

/// Takes a run of pixels of one row into the part they belong to.
void addRow(PartShape& part, const PieceMaps& maps, cv::Point first, int last) {
    if (part.rowEnds.empty() || part.rowEnds.back().y != first.y)
        part.rowEnds.insert(part.rowEnds.end(), {first, first});
    part.rowEnds.back().x = last;
    part.pixels += last + 1 - first.x;
    for (int x = first.x; x <= last; ++x) {
        part.answer += maps.piece.at<uchar>(first.y, x) / 255.0;
        const int v = std::min(first.y / 2, maps.types[0].rows - 1);
        const int u = std::min(x / 2, maps.types[0].cols - 1);
        for (std::size_t t = 0; t < part.types.size(); ++t)
            part.types[t] += maps.types[t].at<uchar>(v, u);
    }
}

/// The parts that touch another one, by label.
std::map<int, PartShape> touchingParts(const cv::Mat& labels, const PieceMaps& maps,
                                       const Lines& lines) {
    std::map<int, PartShape> parts;
    for (const auto& [pair, line] : lines) {
        parts[pair.first];
        parts[pair.second];
    }
    if (parts.empty())
        return parts;
    for (int y = 0; y < labels.rows; ++y) {
        const int* row = labels.ptr<int>(y);
        for (int x = 0; x < labels.cols;) {
            int end = x + 1;
            while (end < labels.cols && row[end] == row[x])
                ++end;
            if (const auto part = row[x] == 0 ? parts.end() : parts.find(row[x]);
                part != parts.end())
                addRow(part->second, maps, {x, y}, end - 1);
            x = end;
        }
    }
    return parts;
}

/// Pixels / pixels of the convex hull, whose corners are pixels' centres.
double solidity(int pixels, const std::vector<cv::Point>& rowEnds) {
    std::vector<cv::Point> hull;
    cv::convexHull(rowEnds, hull);
    const double area = hull.size() > 2 ? cv::contourArea(hull) : 0.0;
    return pixels / (area + 0.5 * cv::arcLength(hull, true) + 1.0);
}

double leastWidth(const std::vector<cv::Point>& rowEnds) {
    const cv::Size2f box = cv::minAreaRect(rowEnds).size;
    return std::min(box.width, box.height) + 1.0; // from pixel's far side to pixel's far side
}

double typeDifference(const PartShape& a, const PartShape& b) {
    const double sumA = std::accumulate(a.types.begin(), a.types.end(), 0.0);
    const double sumB = std::accumulate(b.types.begin(), b.types.end(), 0.0);
    if (sumA <= 0.0 || sumB <= 0.0)
        return 0.0; // the maps hold nothing for one of them
    double difference = 0.0;
    for (std::size_t t = 0; t < a.types.size(); ++t)
        difference += std::abs(a.types[t] / sumA - b.types[t] / sumB);
    return difference;
}

ContactFeatures describe(const Line& line, const PartShape& a, const PartShape& b, double pxPerMm) {
    const PartShape& small = b.pixels < a.pixels ? b : a;
    const PartShape& large = b.pixels < a.pixels ? a : b;
    std::vector<cv::Point> together = small.rowEnds;
    together.insert(together.end(), large.rowEnds.begin(), large.rowEnds.end());
    ContactFeatures out{};
    const auto set = [&out](ContactFeature which, double value) {
        out[static_cast<std::size_t>(which)] = static_cast<float>(value);
    };
    set(ContactFeature::logLength, std::log(line.length));
    set(ContactFeature::meanSeam, line.seam / line.length);
    set(ContactFeature::greatestSeam, line.greatestSeam);
    set(ContactFeature::meanAnswer, line.answer / line.length);
    set(ContactFeature::logSmaller, std::log(small.pixels));
    set(ContactFeature::logLarger, std::log(large.pixels));
    set(ContactFeature::neck, std::log(line.length / std::sqrt(small.pixels)));
    set(ContactFeature::acrossSmaller, std::log(line.length / leastWidth(small.rowEnds)));
    set(ContactFeature::soliditySmaller, solidity(small.pixels, small.rowEnds));
    set(ContactFeature::solidityLarger, solidity(large.pixels, large.rowEnds));
    set(ContactFeature::solidityTogether, solidity(small.pixels + large.pixels, together));
    set(ContactFeature::typeDifference, typeDifference(small, large));
    set(ContactFeature::logScale, std::log(pxPerMm));
    set(ContactFeature::answerSmaller, small.meanAnswer());
    set(ContactFeature::answerLarger, large.meanAnswer());
    return out;
}

} // namespace

const std::array<std::string_view, contactFeatureCount>& contactFeatureNames() {
    return contactNames;
}

std::vector<PartContact> contactsOf(const cv::Mat& labels, const PieceMaps& maps, double pxPerMm) {
    const Lines lines = linesBetween(labels, maps);
    const std::map<int, PartShape> parts = touchingParts(labels, maps, lines);
    std::vector<PartContact> contacts;
    for (const auto& [pair, line] : lines)
        contacts.push_back({pair.first, pair.second,
                            describe(line, parts.at(pair.first), parts.at(pair.second), pxPerMm)});
    return contacts;
}

} // namespace swarfbook
