// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/candidate.h"

#include "debris/level_contour.h"
#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

namespace swarfbook {
namespace {

constexpr float lowSigmas = 3.2F, lowCodes = 6.0F;
constexpr float highSigmas = 7.0F, highCodes = 14.0F;
constexpr int smallestPx = 4;
constexpr float thinnestOfPeak = 0.18F; // of the peak: fainter tips are not told from shadows
constexpr float thinSigmas = 6.0F;      // of the surface's noise: texture has thin parts too
constexpr float steepness = 0.0F;       // of the peak: a slope this shallow is no edge
constexpr float brightestOf = 0.5F; // a facet's flash counts no more than half the surface's light

struct Blob {
    int label = 0;
    cv::Rect box;
    float noise = 1.0F;
};

cv::Mat ellipse(int radius) {
    return cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * radius + 1, 2 * radius + 1});
}

cv::Mat standsOut(const ContrastField& field) {
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

/// One pixel against its background in linear light. The lens blurs light, not codes: only in
/// linear light does the half level lie on the true edge.
struct PixelLight {
    float distance = 0.0F; ///< from the background
    float k = 1.0F;        ///< how much light of the background's own colour: under 1 darker
    float surface = 1.0F;  ///< the background's own light
    float colour = 0.0F;   ///< what is left, relative to the background: another colour
};

inline PixelLight compare(const cv::Vec3b& p, const cv::Vec3b& b) {
    const auto& linear = linearFromSrgb();
    const float p0 = linear[p[0]], p1 = linear[p[1]], p2 = linear[p[2]];
    const float b0 = linear[b[0]], b1 = linear[b[1]], b2 = linear[b[2]];
    const float bb = std::max(0.25F * b0 * b0 + 0.5F * b1 * b1 + 0.25F * b2 * b2, 1e-6F);
    PixelLight out;
    out.surface = std::sqrt(bb);
    out.k = (0.25F * p0 * b0 + 0.5F * p1 * b1 + 0.25F * p2 * b2) / bb;
    const float d0 = p0 - b0, d1 = p1 - b1, d2 = p2 - b2;
    out.distance = std::sqrt(0.25F * d0 * d0 + 0.5F * d1 * d1 + 0.25F * d2 * d2);
    const float r0 = p0 - out.k * b0, r1 = p1 - out.k * b1, r2 = p2 - out.k * b2;
    out.colour = std::sqrt((0.25F * r0 * r0 + 0.5F * r1 * r1 + 0.25F * r2 * r2) / bb);
    return out;
}

constexpr float shadowDepth = 0.3F; // of the background's light left in the deepest own shadow:
                                    // the sky of a workshop's walls lights it still
constexpr float ownColour = 0.12F;  // relative colour difference that no shadow makes

/// What a blob mostly is: it decides how its own shadow is told from it.
struct BlobLight {
    cv::Mat contrast; ///< CV_32F, linear
    float leastOfPeak = 0.35F;
    float noisePerCode = 0.008F; ///< linear light of one code at the surface's brightness
};

/// Linear-light contrast of one blob alone; other pixels that stand out are set to zero. A shadow
/// keeps its surface's colour and some of its light: against a coloured piece it has no colour,
/// against a black one less than half the contrast.
BlobLight ownContrast(const ContrastField& field, const cv::Mat& labels, const Blob& blob) {
    BlobLight out{cv::Mat(blob.box.size(), CV_32F, cv::Scalar(0))};
    cv::Mat coloured(blob.box.size(), CV_32F, cv::Scalar(0));
    std::vector<PixelLight> members;
    float peak = 0.0F;
    for (int y = 0; y < blob.box.height; ++y) {
        const auto* l = labels.ptr<int>(blob.box.y + y) + blob.box.x;
        const auto* a = field.smooth.ptr<cv::Vec3b>(blob.box.y + y) + blob.box.x;
        const auto* b = field.background.ptr<cv::Vec3b>(blob.box.y + y) + blob.box.x;
        const auto* d = field.contrast.ptr<float>(blob.box.y + y) + blob.box.x;
        for (int x = 0; x < blob.box.width; ++x) {
            if (!(d[x] > 0.0F && (l[x] == 0 || l[x] == blob.label)))
                continue;
            PixelLight light = compare(a[x], b[x]);
            if (light.k > 1.0F)
                light.distance = std::min(light.distance, brightestOf * light.surface);
            out.contrast.at<float>(y, x) = light.distance;
            const float darker = std::max(0.0F, shadowDepth - light.k);
            const float brighter = std::min(0.5F * std::max(0.0F, light.k - 1.0F), 0.3F);
            coloured.at<float>(y, x) =
                std::sqrt(light.colour * light.colour + brighter * brighter + darker * darker);
            if (l[x] == blob.label) {
                members.push_back(light);
                peak = std::max(peak, light.distance);
            }
        }
    }
    const int green = field.background.at<cv::Vec3b>((blob.box.tl() + blob.box.br()) / 2)[1];
    const auto& linear = linearFromSrgb();
    out.noisePerCode = linear[static_cast<std::size_t>(std::max(green, 1))] -
                       linear[static_cast<std::size_t>(std::max(green, 1) - 1)];
    int all = 0, dark = 0, colour = 0;
    for (const PixelLight& m : members)
        if (m.distance > 0.35F * peak) {
            ++all;
            dark += m.k < shadowDepth ? 1 : 0;
            colour += m.colour > ownColour ? 1 : 0;
        }
    if (colour * 10 > all * 3) {
        out.contrast = coloured;
        out.leastOfPeak = 0.45F;
    } else if (dark * 2 > all) {
        out.leastOfPeak = 0.5F;
    }
    return out;
}

/// Half way between the inner and the outer light beside every pixel (mid-range threshold; Bernsen
/// 1986), and at least a share of the peak.
cv::Mat levelField(const cv::Mat& own, float peak, float least, int radius) {
    cv::Mat inner, outer;
    const cv::Mat square = cv::Mat::ones(2 * radius + 1, 2 * radius + 1, CV_8U);
    cv::dilate(own, inner, square);
    cv::erode(own, outer, square);
    cv::Mat level = 0.5F * (inner + outer);
    cv::max(level, least * peak, level);
    cv::blur(level, level, {3, 3});
    return level;
}

/// Thin tips and threads: what an opening takes away, above half of its own height. The blur of
/// the lens dims them far below half of the piece they belong to, but a shadow is never thin.
cv::Mat thinParts(const cv::Mat& own, float least, int radius) {
    cv::Mat opened, level;
    cv::morphologyEx(own, opened, cv::MORPH_OPEN, ellipse(radius));
    cv::Mat thin = own - opened;
    cv::dilate(thin, level, cv::Mat::ones(2 * radius + 1, 2 * radius + 1, CV_8U));
    cv::max(0.5F * level, least, level);
    return thin - level;
}

void clearRim(cv::Mat& field) {
    field.row(0).setTo(-1.0F);
    field.row(field.rows - 1).setTo(-1.0F);
    field.col(0).setTo(-1.0F);
    field.col(field.cols - 1).setTo(-1.0F);
}

/// One connected part of a blob, cut down to its own box.
struct Part {
    cv::Rect box;  ///< in the crop
    cv::Mat mask;  ///< CV_8U, this part alone
    cv::Mat codes; ///< contrast in codes
    cv::Mat above; ///< linear contrast less the half level
    float noise = 1.0F;
};

Candidate candidateOf(const Part& part) {
    Candidate c;
    c.box = part.box;
    c.mask = part.mask;
    c.noise = part.noise;
    c.areaPx = cv::countNonZero(part.mask);
    cv::minMaxLoc(part.codes, nullptr, &c.peak, nullptr, nullptr, part.mask);
    cv::Mat field = part.above.clone();
    int open = 0;
    for (int y = 0; y < field.rows; ++y)
        for (int x = 0; x < field.cols; ++x) {
            float& f = field.at<float>(y, x);
            if (part.mask.at<uchar>(y, x) != 0) {
                open += f <= 0.0F ? 1 : 0;
                f = std::max(f, 0.02F);
            } else {
                f = std::min(f, -0.002F);
            }
        }
    c.openShare = c.areaPx > 0 ? open / c.areaPx : 0.0;
    clearRim(field);
    c.outline = longestZeroContour(field);
    for (auto& p : c.outline)
        p += cv::Point2d(part.box.x, part.box.y);
    return c;
}

bool touchesBorder(const Candidate& c, const cv::Mat& inside) {
    cv::Mat grown;
    cv::dilate(c.mask, grown, cv::Mat::ones(5, 5, CV_8U));
    const cv::Mat in = inside(c.box);
    for (int y = 0; y < grown.rows; ++y)
        for (int x = 0; x < grown.cols; ++x)
            if (grown.at<uchar>(y, x) != 0 && in.at<uchar>(y, x) == 0)
                return true;
    return false;
}

std::vector<Candidate> candidatesOf(const WindowCrop& crop, const ContrastField& field,
                                    const cv::Mat& labels, std::pair<Blob, int> blobAndRadius) {
    const auto& [blob, radius] = blobAndRadius;
    const BlobLight light = ownContrast(field, labels, blob);
    const cv::Mat& own = light.contrast;
    double peak = 0.0;
    cv::minMaxLoc(own, nullptr, &peak);
    cv::Mat above = own - levelField(own, static_cast<float>(peak), light.leastOfPeak, radius);
    const float leastThin = std::max(thinnestOfPeak * static_cast<float>(peak),
                                     thinSigmas * light.noisePerCode * blob.noise);
    cv::max(above, thinParts(own, leastThin, radius), above);
    cv::Mat mask = above > 0;
    mask.setTo(0, labels(blob.box) != blob.label);
    cv::morphologyEx(mask, mask, cv::MORPH_CLOSE, ellipse(2)); // a dark facet beside a bright one
    fillHoles(mask);
    cv::Mat parts, stats, centroids;
    const int count = cv::connectedComponentsWithStats(mask, parts, stats, centroids);
    std::vector<Candidate> out;
    constexpr int rim = 3;
    const cv::Rect whole(0, 0, mask.cols, mask.rows);
    for (int i = 1; i < count; ++i) {
        const auto* s = stats.ptr<int>(i);
        if (s[cv::CC_STAT_AREA] < smallestPx)
            continue;
        const cv::Rect box =
            cv::Rect(s[cv::CC_STAT_LEFT] - rim, s[cv::CC_STAT_TOP] - rim,
                     s[cv::CC_STAT_WIDTH] + 2 * rim, s[cv::CC_STAT_HEIGHT] + 2 * rim) &
            whole;
        const cv::Rect inCrop = box + blob.box.tl();
        Candidate c =
            candidateOf({inCrop, parts(box) == i, field.contrast(inCrop), above(box), blob.noise});
        if (c.peak < std::max(highCodes, highSigmas * blob.noise) || c.outline.size() < 6)
            continue;
        c.atEdge = touchesBorder(c, crop.inside);
        out.push_back(std::move(c));
    }
    return out;
}

struct Extent {
    int left = std::numeric_limits<int>::max(), top = 0, right = -1, bottom = -1;
    int area = 0;
    float peak = 0.0F;
};

/// Labels whose peak stands out far enough, with their boxes grown by a rim.
std::vector<Blob> blobsWorthALook(const ContrastField& field, const cv::Mat& labels,
                                  std::pair<int, int> countAndRim) {
    std::vector<Extent> extents(static_cast<std::size_t>(countAndRim.first));
    for (int y = 0; y < labels.rows; ++y) {
        const auto* l = labels.ptr<int>(y);
        const auto* d = field.contrast.ptr<float>(y);
        for (int x = 0; x < labels.cols; ++x) {
            if (l[x] == 0)
                continue;
            Extent& e = extents[static_cast<std::size_t>(l[x])];
            e.top = e.area == 0 ? y : e.top;
            ++e.area;
            e.left = std::min(e.left, x);
            e.right = std::max(e.right, x);
            e.bottom = y;
            e.peak = std::max(e.peak, d[x]);
        }
    }
    const cv::Rect whole(0, 0, labels.cols, labels.rows);
    const int rim = countAndRim.second;
    std::vector<Blob> blobs;
    for (std::size_t i = 1; i < extents.size(); ++i) {
        const Extent& e = extents[i];
        if (e.area < smallestPx)
            continue;
        const float noise = field.noiseAt((e.left + e.right + 1) / 2, (e.top + e.bottom + 1) / 2);
        const cv::Rect box(cv::Point(e.left - rim, e.top - rim),
                           cv::Point(e.right + 1 + rim, e.bottom + 1 + rim));
        if (e.peak >= std::max(highCodes, highSigmas * noise))
            blobs.push_back({static_cast<int>(i), box & whole, noise});
    }
    return blobs;
}

} // namespace

void fillHoles(cv::Mat& mask) {
    cv::Mat outside(mask.rows + 2, mask.cols + 2, CV_8U, cv::Scalar(0));
    cv::Mat padded;
    cv::copyMakeBorder(mask, padded, 1, 1, 1, 1, cv::BORDER_CONSTANT, cv::Scalar(0));
    cv::Mat flood(padded.rows + 2, padded.cols + 2, CV_8U, cv::Scalar(0));
    cv::floodFill(padded, flood, {0, 0}, cv::Scalar(128), nullptr, 0, 0, 4);
    const cv::Mat inner = padded(cv::Rect(1, 1, mask.cols, mask.rows));
    mask.setTo(255, inner != 128);
}

std::vector<Candidate> findCandidates(const WindowCrop& crop, const ContrastField& field,
                                      Pixels edgeWidth) {
    cv::Mat labels;
    const int count = cv::connectedComponents(standsOut(field), labels);
    const int radius = std::max(2, static_cast<int>(std::lround(1.3 * edgeWidth.value())));
    const auto blobs = blobsWorthALook(field, labels, {count, radius + 3});
    std::vector<std::vector<Candidate>> ofBlob(blobs.size());
    cv::parallel_for_(cv::Range(0, static_cast<int>(blobs.size())), [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i)
            ofBlob[static_cast<std::size_t>(i)] =
                candidatesOf(crop, field, labels, {blobs[static_cast<std::size_t>(i)], radius});
    });
    std::vector<Candidate> all;
    for (auto& some : ofBlob)
        std::move(some.begin(), some.end(), std::back_inserter(all));
    return all;
}

} // namespace swarfbook
