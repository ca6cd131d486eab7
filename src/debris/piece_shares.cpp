// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/piece_shares.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace swarfbook {
namespace {

constexpr int subpixels = 4;
constexpr int types = 5;
constexpr float sureEnough = 6.3F; // a logit beyond it rounds to 0 or 255
constexpr float aTenth = -2.197F;  // the logit of 0.1
constexpr int leastOfPiece = 26;   // a tenth of 255

/// The value of a logit, 0 to 255: looked up, off by one code at most.
uchar shareOf(float logit) {
    constexpr int steps = 4096;
    static const auto table = [] {
        std::array<uchar, steps> shares{};
        for (int i = 0; i < steps; ++i) {
            const double at = sureEnough * ((i + 0.5) / steps * 2.0 - 1.0);
            shares[static_cast<std::size_t>(i)] =
                static_cast<uchar>(std::lround(255.0 / (1.0 + std::exp(-at))));
        }
        return shares;
    }();
    if (!(logit > -sureEnough))
        return 0;
    if (logit >= sureEnough)
        return 255;
    const auto step = static_cast<std::size_t>((logit + sureEnough) * (0.5F * steps / sureEnough));
    return table[std::min<std::size_t>(step, steps - 1)]; // just below the greatest it rounds up
}

/// The shares of all types, 1 in all.
std::array<uchar, types> typesAt(const Answers& answers, int place) {
    std::array<float, types> powers{};
    for (int i = 0; i < types; ++i)
        powers[static_cast<std::size_t>(i)] = answers.at(2 * subpixels + i, place);
    const float largest = *std::max_element(powers.begin(), powers.end());
    float sum = 0.0F;
    for (float& power : powers)
        sum += power = std::exp(power - largest);
    std::array<uchar, types> shares{};
    for (std::size_t i = 0; i < types; ++i)
        shares[i] = static_cast<uchar>(std::lround(255.0F * powers[i] / sum));
    return shares;
}

void writeTypes(const std::array<uchar, types>& shares, PieceMaps& maps, cv::Point at) {
    for (std::size_t i = 0; i < types; ++i)
        maps.types[i].at<uchar>(at) = shares[i];
}

uchar meanOf(int one, int other) {
    return static_cast<uchar>((one + other + 1) / 2);
}

/// The mean of the map's values for 2 x 2 pixels and the mirrored sheet's answer.
/// @return the greatest of the four
int addMirroredSubpixels(const float* logits, cv::Point at, cv::Mat& map) {
    int greatest = 0;
    for (int i = 0; i < subpixels; ++i) {
        const cv::Point pixel = at + cv::Point(i % 2, i / 2);
        if (pixel.x >= map.cols || pixel.y >= map.rows)
            continue;
        uchar& share = map.at<uchar>(pixel);
        share = meanOf(share, shareOf(logits[i ^ 1])); // left and right are exchanged
        greatest = std::max(greatest, int{share});
    }
    return greatest;
}

/// The mean with the types in the maps; if only one of both exists, that one.
void addTypes(std::array<uchar, types> shares, PieceMaps& maps, cv::Point at) {
    int there = 0;
    for (const cv::Mat& type : maps.types)
        there += type.at<uchar>(at);
    for (std::size_t i = 0; there > 0 && i < types; ++i)
        shares[i] = meanOf(maps.types[i].at<uchar>(at), shares[i]);
    writeTypes(shares, maps, at);
}

/// Whether any of 2 x 2 pixels is more than 0.
bool holdsAny(const cv::Mat& map, cv::Point at) {
    for (int i = 0; i < subpixels; ++i) {
        const cv::Point pixel = at + cv::Point(i % 2, i / 2);
        if (pixel.x < map.cols && pixel.y < map.rows && map.at<uchar>(pixel) > 0)
            return true;
    }
    return false;
}

/// Seam and types are 0 where there is no piece.
void clearPlace(PieceMaps& maps, cv::Point at) {
    const cv::Rect four = cv::Rect(at, cv::Size(2, 2)) & cv::Rect({0, 0}, maps.seam.size());
    maps.seam(four).setTo(0);
    writeTypes({}, maps, at / 2);
}

/// Four answers for 2 x 2 pixels, those beyond the map's border left out.
void writeSubpixels(const float* logits, cv::Point at, cv::Mat& map) {
    for (int i = 0; i < subpixels; ++i) {
        const cv::Point pixel = at + cv::Point(i % 2, i / 2);
        if (pixel.x < map.cols && pixel.y < map.rows)
            map.at<uchar>(pixel) = shareOf(logits[i]);
    }
}

} // namespace

void writeShares(const Answers& answers, const AnsweredSheet& sheet, const cv::Rect& part,
                 PieceMaps& maps) {
    for (int y = 0; y < part.height; y += 2)
        for (int x = 0; x < part.width; x += 2) {
            const int place = (sheet.rim + y) / 2 * (sheet.width / 2) + (sheet.rim + x) / 2;
            // The first eight lie side by side on any processor.
            const float* logits = answers.numbers + std::ptrdiff_t{place} * answers.lanes;
            const float largest = *std::max_element(logits, logits + subpixels);
            if (largest < -sureEnough)
                continue; // 0, as the maps are
            const cv::Point at = part.tl() + cv::Point(x, y);
            writeSubpixels(logits, at, maps.piece);
            if (largest < aTenth)
                continue;
            writeSubpixels(logits + subpixels, at, maps.seam);
            writeTypes(typesAt(answers, place), maps, at / 2);
        }
}

void addMirroredShares(const Answers& answers, const AnsweredSheet& sheet, const cv::Rect& part,
                       PieceMaps& maps) {
    const int across = sheet.width / 2;
    for (int y = 0; y < part.height; y += 2)
        for (int x = 0; x < part.width; x += 2) {
            const int place = (sheet.rim + y) / 2 * across + across - 1 - (sheet.rim + x) / 2;
            const float* logits = answers.numbers + std::ptrdiff_t{place} * answers.lanes;
            const float largest = *std::max_element(logits, logits + subpixels);
            const cv::Point at = part.tl() + cv::Point(x, y);
            if (largest < -sureEnough && !holdsAny(maps.piece, at))
                continue; // both answer 0, as the maps are
            const int piece = addMirroredSubpixels(logits, at, maps.piece);
            if (piece < leastOfPiece) {
                clearPlace(maps, at);
                continue;
            }
            static constexpr std::array<float, subpixels> none{-99.0F, -99.0F, -99.0F, -99.0F};
            const bool shown = largest >= aTenth;
            addMirroredSubpixels(shown ? logits + subpixels : none.data(), at, maps.seam);
            if (shown)
                addTypes(typesAt(answers, place), maps, at / 2);
        }
}

} // namespace swarfbook
