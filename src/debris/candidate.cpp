// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/candidate.h"

#include "debris/connected_parts.h"
#include "debris/enter_large_pieces.h"
#include "debris/fill_holes.h"
#include "debris/level_contour.h"
#include "debris/outline_field.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace swarfbook {
namespace {

constexpr float lowSigmas = 3.2F, lowCodes = 6.0F;
constexpr float highSigmas = 6.0F, highCodes = 12.0F;
constexpr int smallestPx = 4;
constexpr int surroundingsPx = 8; // around a place: the model's sight reaches as far

// The model answers with the covered share of a pixel. Where it is unsure of a rim it answers in
// between, which rounds corners off: at this level the longest side comes out neither long nor
// short in the median (photos with known truth, held out).
constexpr float outlineLevel = 0.35F;
constexpr float lowerLevel = 0.57F,
                higherLevel = 1.7F; // of that level, for how the size changes with it
constexpr float sure = 0.5F;        // somewhere within a piece the model is surer than not ...
constexpr float hunch = 0.2F;       // ... or has a hunch at least: the look model judges further
constexpr float faintest = 0.1F;
constexpr float seamLevel = 0.5F;
constexpr int rim = 4;

/// A level of the piece map, which counts to 255.
double inMap(float level) {
    return 255.0 * static_cast<double>(level);
}

cv::Mat pixelsStandingOut(const ContrastField& field) {
    cv::Mat low(field.contrast.size(), CV_8U);
    cv::parallel_for_(cv::Range(0, low.rows), [&](const cv::Range& rows) {
        for (int y = rows.start; y < rows.end; ++y) {
            const auto* d = field.contrast.ptr<float>(y);
            auto* out = low.ptr<uchar>(y);
            for (int tileStart = 0; tileStart < low.cols; tileStart += field.tile) {
                const float least = std::max(lowCodes, lowSigmas * field.noiseAt(tileStart, y));
                const int end = std::min(low.cols, tileStart + field.tile);
                for (int x = tileStart; x < end; ++x)
                    out[x] = d[x] > least ? 255 : 0;
            }
        }
    });
    return low;
}

float peakOf(const ConnectedPart& part, const cv::Mat& contrast) {
    float peak = 0.0F;
    for (const PixelRun& run : part.runs) {
        const auto* d = contrast.ptr<float>(run.row);
        peak = std::max(peak, *std::max_element(d + run.from, d + run.to));
    }
    return peak;
}

/// One part of the piece map in its own box.
struct Part {
    cv::Rect box; ///< in the crop
    cv::Mat mask; ///< CV_8U, this part alone
    float level = outlineLevel;
    bool hasSeam = false;
};

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

/// Each pixel of `mask` goes to the nearest of the cores. @return CV_32S of labels.
cv::Mat nearestCore(const cv::Mat& mask, const cv::Mat& cores) {
    cv::Mat distance, places;
    cv::distanceTransform(cores == 0, distance, places, cv::DIST_L2, 5, cv::DIST_LABEL_PIXEL);
    std::map<int, int> coreAt;
    for (int y = 0; y < cores.rows; ++y)
        for (int x = 0; x < cores.cols; ++x)
            if (cores.at<int>(y, x) != 0)
                coreAt[places.at<int>(y, x)] = cores.at<int>(y, x);
    cv::Mat parts(mask.size(), CV_32S, cv::Scalar(0));
    for (int y = 0; y < mask.rows; ++y)
        for (int x = 0; x < mask.cols; ++x)
            if (mask.at<uchar>(y, x) != 0)
                parts.at<int>(y, x) = coreAt[places.at<int>(y, x)];
    return parts;
}

/// Parts a connected piece along its seams where both sides are pieces of their own.
std::vector<Part> partAlongSeams(const Part& whole, const cv::Mat& seam) {
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
        const int own = stats.at<int>(i, cv::CC_STAT_AREA);
        if (own >= std::max(3 * smallestPx, area / 25))
            ++sides;
        else
            labels.setTo(0, labels == i);
    }
    if (sides < 2)
        return {{whole.box, whole.mask, whole.level, cv::countNonZero(core) + smallestPx < area}};
    const cv::Mat parts = nearestCore(whole.mask, labels);
    std::vector<Part> out;
    for (int i = 1; i < count; ++i) {
        const cv::Mat own = parts == i;
        if (cv::countNonZero(own) >= smallestPx)
            out.push_back({whole.box, own, whole.level, false});
    }
    return out;
}

/// The mask and what lies within a few pixels of it, none of another part.
cv::Mat nearMask(const cv::Mat& mask, int reach, const cv::Mat& others) {
    cv::Mat near;
    cv::dilate(mask, near, cv::Mat::ones(2 * reach + 1, 2 * reach + 1, CV_8U));
    near.setTo(0, others);
    return near;
}

bool touchesBorder(const Candidate& c, const cv::Mat& inside) {
    if (cv::countNonZero(inside(c.box)) == c.box.area())
        return false;
    cv::Mat grown;
    cv::dilate(c.mask, grown, cv::Mat::ones(5, 5, CV_8U));
    const cv::Mat in = inside(c.box);
    for (int y = 0; y < grown.rows; ++y)
        for (int x = 0; x < grown.cols; ++x)
            if (grown.at<uchar>(y, x) != 0 && in.at<uchar>(y, x) == 0)
                return true;
    return false;
}

/// The outline by light and map together; what it takes in or leaves belongs to the mask.
void outlineIt(Candidate& c, cv::Mat field, const cv::Mat& others) {
    const ConnectedParts parts(nearMask(c.mask, rim - 1, others) & (field > 0.0F), 1);
    const auto largest = std::max_element(
        parts.begin(), parts.end(), [](const auto& a, const auto& b) { return a.area < b.area; });
    if (largest == parts.end())
        return;
    constexpr double mostlyLost = 0.6; // light that breaks a thread in pieces: the map joins it
    if (largest->area > mostlyLost * cv::countNonZero(c.mask))
        c.mask = largest->maskIn({{0, 0}, c.mask.size()});
    fillHoles(c.mask);
    for (int y = 0; y < field.rows; ++y)
        for (int x = 0; x < field.cols; ++x) {
            float& f = field.at<float>(y, x);
            f = c.mask.at<uchar>(y, x) != 0 ? std::max(f, 0.02F) : std::min(f, -0.002F);
        }
    field.row(0).setTo(-1.0F);
    field.row(field.rows - 1).setTo(-1.0F);
    field.col(0).setTo(-1.0F);
    field.col(field.cols - 1).setTo(-1.0F);
    c.outline = longestZeroContour(field);
    for (auto& p : c.outline)
        p += cv::Point2d(c.box.x, c.box.y);
}

Candidate describe(const Part& part, const WindowCrop& crop, const ContrastField& field,
                   std::pair<const PieceMap&, int> mapAndReach) {
    const auto& [map, reach] = mapAndReach;
    Candidate c;
    c.box = part.box;
    c.mask = part.mask.clone();
    c.mayBeSeveral = part.hasSeam;
    cv::Mat piece;
    map.piece(c.box).convertTo(piece, CV_32F, 1.0 / 255.0);
    const cv::Mat contrast = field.contrast(c.box);
    const cv::Point middle = (c.box.tl() + c.box.br()) / 2;
    c.noise = field.noiseAt(middle.x, middle.y);
    c.certainty = cv::mean(piece, c.mask)[0];
    const cv::Mat others = (piece > part.level) & (c.mask == 0);
    const cv::Mat near = nearMask(c.mask, rim, others);
    const auto longestAt = [&](float level) { return longestSide(near & (piece > level)); };
    const double longest = std::max(1.0, longestSide(c.mask));
    c.growth = longestAt(lowerLevel * part.level) / longest;
    c.shrink = longestAt(higherLevel * part.level) / longest;
    outlineIt(c, outlineField(field, {c.box, piece, part.level, reach}), others);
    c.areaPx = cv::countNonZero(c.mask);
    cv::minMaxLoc(contrast, nullptr, &c.peak, nullptr, nullptr, c.mask);
    const float least = std::max(lowCodes, lowSigmas * static_cast<float>(c.noise));
    c.likeSurface = cv::countNonZero((contrast < least) & c.mask) / std::max(1.0, c.areaPx);
    c.atEdge = touchesBorder(c, crop.inside);
    return c;
}

/// A part's box with a rim, within a picture of this size.
cv::Rect withRim(const cv::Rect& box, cv::Size picture) {
    return cv::Rect(box.x - rim, box.y - rim, box.width + 2 * rim, box.height + 2 * rim) &
           cv::Rect({0, 0}, picture);
}

/// Connected parts of a mask, in a box of the crop, in which the map rises to `least` at least.
std::vector<Part> partsRisingTo(float least, const cv::Mat& mask, const cv::Mat& piece,
                                const cv::Rect& box) {
    std::vector<Part> parts;
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
std::vector<Part> suspectedParts(const cv::Mat& mask, const cv::Mat& piece, const cv::Rect& box) {
    std::vector<Part> parts;
    for (Part& part : partsRisingTo(hunch, mask, piece, box)) {
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
std::vector<Part> sureAndSuspected(cv::Mat faint, const cv::Mat& piece, const cv::Rect& box) {
    cv::Mat sureMask = piece > inMap(outlineLevel);
    sureMask &= faint;
    std::vector<Part> parts = partsRisingTo(sure, sureMask, piece, box);
    for (const Part& part : parts) {
        cv::Mat near;
        cv::dilate(part.mask, near, cv::Mat::ones(5, 5, CV_8U));
        faint(part.box - box.tl()).setTo(0, near);
    }
    for (Part& part : suspectedParts(faint, piece, box))
        parts.push_back(std::move(part));
    return parts;
}

std::vector<Part> wholeParts(const WindowCrop& crop, const PieceMap& map) {
    cv::Mat faint = map.piece > inMap(faintest);
    faint &= crop.inside;
    std::vector<Part> parts;
    for (const ConnectedPart& whole : ConnectedParts(faint, smallestPx)) {
        const cv::Rect box = withRim(whole.box, faint.size());
        for (Part& part : sureAndSuspected(whole.maskIn(box), map.piece(box), box))
            parts.push_back(std::move(part));
    }
    return parts;
}

} // namespace

std::vector<cv::Rect> placesWorthALook(const ContrastField& field) {
    const cv::Rect window({0, 0}, field.contrast.size());
    const cv::Size around(2 * surroundingsPx, 2 * surroundingsPx);
    std::vector<cv::Rect> places;
    for (const ConnectedPart& part : ConnectedParts(pixelsStandingOut(field), smallestPx)) {
        const cv::Point middle = (part.box.tl() + part.box.br()) / 2;
        const float noise = field.noiseAt(middle.x, middle.y);
        if (peakOf(part, field.contrast) < std::max(highCodes, highSigmas * noise))
            continue;
        const cv::Point corner = part.box.tl() - cv::Point(surroundingsPx, surroundingsPx);
        places.push_back(cv::Rect(corner, part.box.size() + around) & window);
    }
    return places;
}

std::vector<Candidate> candidatesOf(const WindowCrop& crop, const ContrastField& field,
                                    const PieceMap& map, Pixels edgeWidth) {
    const int reach = std::max(2, static_cast<int>(std::lround(1.3 * edgeWidth.value())));
    std::vector<Part> parts;
    for (const Part& whole : wholeParts(crop, map))
        for (Part& part : partAlongSeams(whole, map.seam))
            parts.push_back(std::move(part));
    std::vector<Candidate> all(parts.size());
    cv::parallel_for_(cv::Range(0, static_cast<int>(parts.size())), [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i)
            all[static_cast<std::size_t>(i)] =
                describe(parts[static_cast<std::size_t>(i)], crop, field, {map, reach});
    });
    std::erase_if(all, [](const Candidate& c) { return c.outline.size() < 6; });
    return all;
}

std::vector<Candidate> findCandidates(const WindowCrop& crop, const ContrastField& field,
                                      const PieceModel& model, Pixels edgeWidth) {
    PieceMap map = model.judge(crop, field, placesWorthALook(field), edgeWidth);
    enterLargePieces(map, crop, field);
    return candidatesOf(crop, field, map, edgeWidth);
}

} // namespace swarfbook
