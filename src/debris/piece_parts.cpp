// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/piece_parts.h"

#include "debris/connected_parts.h"
#include "debris/outline_field.h"
#include "debris/threads.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <utility>
#include <vector>

namespace swarfbook {
namespace {

constexpr int smallestPx = 4;

// The model answers with the covered share of a pixel. Where it is unsure of a rim it answers in
// between, which rounds corners off: at this level the longest side comes out neither long nor
// short in the median (photos with known truth, held out).
constexpr float outlineLevel = 0.35F;
constexpr float sure = 0.5F;  // somewhere within a piece the model is surer than not ...
constexpr float hunch = 0.2F; // ... or has a hunch at least: the look model judges further
constexpr float faintest = 0.1F;
constexpr float seamLevel = 0.5F;
constexpr double bitOfThread = 1.2;      // edge widths from rim to rim, half
constexpr int leastOwn = 3 * smallestPx; // px of a piece of its own beside another

/// A level of the piece map, which counts to 255.
double inMap(float level) {
    return 255.0 * static_cast<double>(level);
}

/// Each pixel of `mask` goes to the nearest of the cores. @return CV_32S of labels.
cv::Mat nearestCore(const cv::Mat& mask, const cv::Mat& cores) {
    cv::Mat distance, places;
    cv::distanceTransform(cores == 0, distance, places, cv::DIST_L2, 5, cv::DIST_LABEL_PIXEL);
    std::vector<int> coreAt(1 + static_cast<std::size_t>(cv::countNonZero(cores)), 0);
    for (int y = 0; y < cores.rows; ++y)
        for (int x = 0; x < cores.cols; ++x)
            if (const int core = cores.at<int>(y, x); core != 0)
                coreAt[static_cast<std::size_t>(places.at<int>(y, x))] = core;
    cv::Mat parts(mask.size(), CV_32S, cv::Scalar(0));
    for (int y = 0; y < mask.rows; ++y)
        for (int x = 0; x < mask.cols; ++x)
            if (mask.at<uchar>(y, x) != 0)
                parts.at<int>(y, x) = coreAt[static_cast<std::size_t>(places.at<int>(y, x))];
    return parts;
}

/// Each label's pixels as a part of its own, in a box of its own: a heap has many.
std::vector<PiecePart> partsLabelled(const PiecePart& whole, const cv::Mat& labels, int count) {
    std::vector<cv::Rect> boxes(static_cast<std::size_t>(count) + 1);
    std::vector<int> areas(boxes.size(), 0);
    for (int y = 0; y < labels.rows; ++y)
        for (int x = 0; x < labels.cols; ++x)
            if (const int label = labels.at<int>(y, x); label > 0) {
                boxes[static_cast<std::size_t>(label)] |= cv::Rect(x, y, 1, 1);
                ++areas[static_cast<std::size_t>(label)];
            }
    std::vector<PiecePart> parts;
    for (int label = 1; label <= count; ++label) {
        const auto at = static_cast<std::size_t>(label);
        if (areas[at] < smallestPx)
            continue;
        const cv::Rect box = withRim(boxes[at], labels.size());
        parts.push_back({box + whole.box.tl(), labels(box) == label, whole.level, false});
    }
    return parts;
}

/// Parts a connected piece along its seams where both sides are pieces of their own.
std::vector<PiecePart> partAlongSeams(const PiecePart& whole, const cv::Mat& seam) {
    const cv::Mat seams = (seam(whole.box) > inMap(seamLevel)) & whole.mask;
    if (cv::countNonZero(seams) == 0)
        return {whole};
    cv::Mat core = whole.mask.clone();
    core.setTo(0, seams);
    cv::Mat labels, stats, centroids;
    const int count = cv::connectedComponentsWithStats(core, labels, stats, centroids, 4);
    const int area = cv::countNonZero(whole.mask);
    int sides = 0;
    for (int i = 1; i < count; ++i) {
        if (stats.at<int>(i, cv::CC_STAT_AREA) >= std::max(leastOwn, area / 25)) {
            ++sides;
            continue;
        }
        cv::Mat part =
            labels({stats.at<int>(i, cv::CC_STAT_LEFT), stats.at<int>(i, cv::CC_STAT_TOP),
                    stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT)});
        part.setTo(0, part == i);
    }
    if (sides < 2)
        return {{whole.box, whole.mask, whole.level, cv::countNonZero(core) + smallestPx < area}};
    return partsLabelled(whole, nearestCore(whole.mask, labels), count - 1);
}

/// Cores so thin that they may be bits of one thread count as one where what belongs to them is
/// one.
void joinBitsOfThread(cv::Mat& cores, int count, const cv::Mat& mask, double edge) {
    cv::Mat depth; // no two cores touch
    cv::distanceTransform(cores != 0, depth, cv::DIST_L2, 3);
    std::vector<float> deepest(static_cast<std::size_t>(count) + 1, 0.0F);
    for (int y = 0; y < cores.rows; ++y)
        for (int x = 0; x < cores.cols; ++x) {
            float& most = deepest[static_cast<std::size_t>(cores.at<int>(y, x))];
            most = std::max(most, depth.at<float>(y, x));
        }
    const auto isThin = [&](int core) {
        return static_cast<double>(deepest[static_cast<std::size_t>(core)]) <= bitOfThread * edge;
    };
    int thin = 1;
    while (thin <= count && !isThin(thin))
        ++thin;
    if (thin > count)
        return;
    cv::Mat joined = cores.clone();
    for (int y = 0; y < joined.rows; ++y)
        for (int x = 0; x < joined.cols; ++x)
            if (int& core = joined.at<int>(y, x); core != 0 && isThin(core))
                core = thin;
    if (isThread(nearestCore(mask, joined) == thin, edge))
        cores = joined;
}

/// Parts that the map joins and the light does not: surface shows between them, and in each the
/// model is sure. Threads are left whole: they come and go.
std::vector<PiecePart> partByLight(const PiecePart& whole, const ContrastField& field,
                                   const cv::Mat& map, const OutlineScale& scale) {
    if (cv::countNonZero(whole.mask) < 2 * leastOwn)
        return {whole};
    cv::Mat piece;
    map(whole.box).convertTo(piece, CV_32F, 1.0 / 255.0);
    const cv::Mat others = othersBeside(whole, piece);
    const cv::Mat light = outlineField(field, {whole.box, piece, whole.level, scale.reach});
    const ConnectedParts shown(nearMask(whole.mask, partRim - 1, others) & (light > 0.0F),
                               leastOwn);
    cv::Mat cores(whole.mask.size(), CV_32S, cv::Scalar(0));
    int count = 0;
    for (const ConnectedPart& part : shown) {
        const cv::Mat own = part.maskIn(part.box) & whole.mask(part.box);
        double most = 0.0;
        cv::minMaxLoc(piece(part.box), nullptr, &most, nullptr, nullptr, own);
        if (most >= static_cast<double>(sure) && cv::countNonZero(own) >= leastOwn)
            cores(part.box).setTo(++count, own);
    }
    if (count < 2 || isThread(whole.mask, scale.edge)) {
        PiecePart same = whole;
        same.light = light;
        return {same};
    }
    joinBitsOfThread(cores, count, whole.mask, scale.edge);
    return partsLabelled(whole, nearestCore(whole.mask, cores), count);
}

/// Connected parts of a mask, in a box of the crop, in which the map rises to `least` at least.
std::vector<PiecePart> partsRisingTo(float least, const cv::Mat& mask, const cv::Mat& piece,
                                     const cv::Rect& box) {
    std::vector<PiecePart> parts;
    for (const ConnectedPart& part : ConnectedParts(mask, smallestPx)) {
        const cv::Rect within = withRim(part.box, box.size());
        const cv::Mat own = part.maskIn(within);
        double most = 0.0;
        cv::minMaxLoc(piece(within), nullptr, &most, nullptr, nullptr, own);
        if (most >= inMap(least))
            parts.push_back({within + box.tl(), own, outlineLevel, false});
    }
    return parts;
}

/// What the model only suspects, outlined at half of its greatest suspicion.
std::vector<PiecePart> suspectedParts(const cv::Mat& mask, const cv::Mat& piece,
                                      const cv::Rect& box) {
    std::vector<PiecePart> parts;
    for (PiecePart& part : partsRisingTo(hunch, mask, piece, box)) {
        const cv::Mat here = piece(part.box - box.tl());
        double most = 0.0;
        cv::minMaxLoc(here, nullptr, &most, nullptr, nullptr, part.mask);
        part.level = std::min(outlineLevel, 0.5F * static_cast<float>(most / 255.0));
        part.mask.setTo(0, here <= inMap(part.level));
        if (cv::countNonZero(part.mask) >= smallestPx)
            parts.push_back(std::move(part));
    }
    return parts;
}

/// Sure pieces of one connected part of the map; what is only suspected beside them, apart.
std::vector<PiecePart> sureAndSuspected(cv::Mat faint, const cv::Mat& piece, const cv::Rect& box) {
    cv::Mat sureMask = piece > inMap(outlineLevel);
    sureMask &= faint;
    std::vector<PiecePart> parts = partsRisingTo(sure, sureMask, piece, box);
    for (const PiecePart& part : parts) {
        cv::Mat around;
        cv::dilate(part.mask, around, cv::Mat::ones(5, 5, CV_8U));
        faint(part.box - box.tl()).setTo(0, around);
    }
    for (PiecePart& part : suspectedParts(faint, piece, box))
        parts.push_back(std::move(part));
    return parts;
}

std::vector<PiecePart> wholeParts(const WindowCrop& crop, const PieceMap& map) {
    cv::Mat faint = map.piece > inMap(faintest);
    faint &= crop.inside;
    std::vector<PiecePart> parts;
    for (const ConnectedPart& whole : ConnectedParts(faint, smallestPx)) {
        const cv::Rect box = withRim(whole.box, faint.size());
        for (PiecePart& part : sureAndSuspected(whole.maskIn(box), map.piece(box), box))
            parts.push_back(std::move(part));
    }
    return parts;
}

} // namespace

cv::Rect withRim(const cv::Rect& box, cv::Size picture) {
    return cv::Rect(box.x - partRim, box.y - partRim, box.width + 2 * partRim,
                    box.height + 2 * partRim) &
           cv::Rect({0, 0}, picture);
}

cv::Mat nearMask(const cv::Mat& mask, int reach, const cv::Mat& others) {
    cv::Mat grown;
    cv::dilate(mask, grown, cv::Mat::ones(2 * reach + 1, 2 * reach + 1, CV_8U));
    grown.setTo(0, others);
    return grown;
}

cv::Mat othersBeside(const PiecePart& part, const cv::Mat& piece) {
    cv::Mat others = (piece > part.level) & (part.mask == 0);
    if (!part.beside.empty())
        others |= part.beside;
    return others;
}

std::vector<PiecePart> piecePartsOf(const WindowCrop& crop, const ContrastField& field,
                                    const PieceMap& map, const OutlineScale& scale) {
    const std::vector<PiecePart> whole = wholeParts(crop, map);
    std::vector<std::vector<PiecePart>> parted(whole.size());
    cv::parallel_for_(cv::Range(0, static_cast<int>(whole.size())), [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            const auto at = static_cast<std::size_t>(i);
            for (const PiecePart& side : partAlongSeams(whole[at], map.seam))
                for (PiecePart& part : partByLight(side, field, map.piece, scale))
                    parted[at].push_back(std::move(part));
        }
    });
    std::vector<PiecePart> parts;
    for (auto& own : parted)
        std::move(own.begin(), own.end(), std::back_inserter(parts));
    return parts;
}

} // namespace swarfbook
