// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/contrast.h"

#include <opencv2/core/hal/intrin.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace swarfbook {
namespace {

constexpr double wideMm = 6.0;     // larger than most pieces, smaller than a lamp's falloff
constexpr double narrowMm = 2.5;   // follows stains and soft shadows
constexpr float chromaGain = 1.5F; // colour differences are less noisy than luma after JPEG

inline float distance(const cv::Vec3b& a, const cv::Vec3b& b) {
    const float db = static_cast<float>(a[0]) - static_cast<float>(b[0]);
    const float dg = static_cast<float>(a[1]) - static_cast<float>(b[1]);
    const float dr = static_cast<float>(a[2]) - static_cast<float>(b[2]);
    const float luma = 0.25F * db + 0.5F * dg + 0.25F * dr;
    const float c1 = 0.5F * (dr - db);
    const float c2 = 0.5F * dg - 0.25F * (dr + db);
    return std::sqrt(luma * luma + chromaGain * chromaGain * (c1 * c1 + c2 * c2));
}

#if CV_SIMD128
/// Four distances at once from 16-bit differences; the same formula as \ref distance.
inline cv::v_float32x4 distances(const cv::v_int32x4& db, const cv::v_int32x4& dg,
                                 const cv::v_int32x4& dr) {
    const auto b = cv::v_cvt_f32(db);
    const auto g = cv::v_cvt_f32(dg);
    const auto r = cv::v_cvt_f32(dr);
    const auto quarter = cv::v_setall_f32(0.25F);
    const auto half = cv::v_setall_f32(0.5F);
    const auto sum = quarter * (r + b);
    const auto luma = sum + half * g;
    const auto c1 = half * (r - b);
    const auto c2 = half * g - sum;
    const auto gain = cv::v_setall_f32(chromaGain * chromaGain);
    return cv::v_sqrt(luma * luma + gain * (c1 * c1 + c2 * c2));
}

/// Distances of the first pixels of a row, 16 at a time. @return how many were done.
int distanceRow(const cv::Vec3b* a, const cv::Vec3b* b, float* out, int count) {
    int x = 0;
    for (; x + 16 <= count; x += 16) {
        cv::v_uint8x16 a0, a1, a2, b0, b1, b2;
        cv::v_load_deinterleave(a[x].val, a0, a1, a2);
        cv::v_load_deinterleave(b[x].val, b0, b1, b2);
        const auto difference = [](const cv::v_uint8x16& p, const cv::v_uint8x16& q,
                                   cv::v_int32x4* parts) {
            cv::v_uint16x8 p0, p1, q0, q1;
            cv::v_expand(p, p0, p1);
            cv::v_expand(q, q0, q1);
            cv::v_expand(cv::v_reinterpret_as_s16(p0) - cv::v_reinterpret_as_s16(q0), parts[0],
                         parts[1]);
            cv::v_expand(cv::v_reinterpret_as_s16(p1) - cv::v_reinterpret_as_s16(q1), parts[2],
                         parts[3]);
        };
        cv::v_int32x4 db[4], dg[4], dr[4];
        difference(a0, b0, db);
        difference(a1, b1, dg);
        difference(a2, b2, dr);
        for (int i = 0; i < 4; ++i)
            cv::v_store(out + x + 4 * i, distances(db[i], dg[i], dr[i]));
    }
    return x;
}
#else
int distanceRow(const cv::Vec3b*, const cv::Vec3b*, float*, int) {
    return 0;
}
#endif

/// Replaces pixels outside a mask by the nearest inside one.
void fillFromNearest(cv::Mat& picture, const cv::Mat& inside) {
    cv::Mat distanceTo, labels;
    cv::distanceTransform(255 - inside, distanceTo, labels, cv::DIST_L2, 3, cv::DIST_LABEL_PIXEL);
    std::vector<cv::Vec3b> colour(static_cast<std::size_t>(picture.total()) + 1);
    for (int y = 0; y < picture.rows; ++y)
        for (int x = 0; x < picture.cols; ++x)
            if (inside.at<uchar>(y, x) != 0)
                colour[static_cast<std::size_t>(labels.at<int>(y, x))] =
                    picture.at<cv::Vec3b>(y, x);
    for (int y = 0; y < picture.rows; ++y)
        for (int x = 0; x < picture.cols; ++x)
            if (inside.at<uchar>(y, x) == 0)
                picture.at<cv::Vec3b>(y, x) =
                    colour[static_cast<std::size_t>(labels.at<int>(y, x))];
}

int oddWindow(double mm, double pxPerMm) {
    return std::max(3, 2 * static_cast<int>(std::lround(mm * pxPerMm / 2.0)) + 1);
}

/// cv::medianBlur with a wide window, which works on one core, by bands of rows on all cores.
cv::Mat medianOver(const cv::Mat& picture, int window) {
    const int half = window / 2;
    cv::Mat bordered, medians(picture.size(), picture.type());
    cv::copyMakeBorder(picture, bordered, half, half, 0, 0, cv::BORDER_REPLICATE);
    const auto blurBand = [&](const cv::Range& band) {
        cv::Mat blurred;
        cv::medianBlur(bordered.rowRange(band.start, band.end + 2 * half), blurred, window);
        blurred.rowRange(half, half + band.size()).copyTo(medians.rowRange(band));
    };
    cv::parallel_for_(cv::Range(0, picture.rows), blurBand, cv::getNumThreads());
    return medians;
}

/// The surface of the reduced window.
cv::Mat reducedBackground(const WindowCrop& crop) {
    cv::Mat reduced = crop.reduced.clone();
    cv::Mat inside;
    cv::resize(crop.inside, inside, reduced.size(), 0, 0, cv::INTER_NEAREST);
    cv::erode(inside, inside, cv::Mat::ones(3, 3, CV_8U), {-1, -1}, 1, cv::BORDER_CONSTANT,
              cv::Scalar(0));
    if (cv::countNonZero(inside) == 0)
        return reduced;
    const double px = crop.pxPerMm / crop.reducedBy;
    fillFromNearest(reduced, inside);
    const cv::Mat wide = medianOver(reduced, oddWindow(wideMm, px));
    cv::Mat standsOut(reduced.size(), CV_8U, cv::Scalar(0));
    for (int y = 0; y < reduced.rows; ++y)
        for (int x = 0; x < reduced.cols; ++x)
            if (distance(reduced.at<cv::Vec3b>(y, x), wide.at<cv::Vec3b>(y, x)) > 25.0F)
                standsOut.at<uchar>(y, x) = 255;
    cv::dilate(standsOut, standsOut, cv::Mat::ones(3, 3, CV_8U));
    wide.copyTo(reduced, standsOut);
    cv::Mat narrow = medianOver(reduced, oddWindow(narrowMm, px));
    cv::GaussianBlur(narrow, narrow, {}, 1.0);
    return narrow;
}

/// Two pictures, and where they are compared.
struct Compared {
    const cv::Mat &picture, &from, &inside;
};

void distancesOfRows(const cv::Range& rows, const Compared& what, cv::Mat& distances) {
    const int cols = distances.cols;
    for (int y = rows.start; y < rows.end; ++y) {
        const auto* a = what.picture.ptr<cv::Vec3b>(y);
        const auto* b = what.from.ptr<cv::Vec3b>(y);
        const auto* in = what.inside.ptr<uchar>(y);
        auto* out = distances.ptr<float>(y);
        for (int x = distanceRow(a, b, out, cols); x < cols; ++x)
            out[x] = distance(a[x], b[x]);
        for (int x = 0; x < cols; ++x)
            out[x] = in[x] != 0 ? out[x] : 0.0F;
    }
}

/// Fills in the smooth picture and its contrast with the background, by bands of rows that stay in
/// the processor's cache. A band is blurred as part of the whole, with the rows beside it.
void smoothAndCompare(ContrastField& field, const WindowCrop& crop) {
    constexpr int bandRows = 64;
    field.smooth.create(crop.bgr.size(), CV_8UC3);
    field.contrast.create(crop.bgr.size(), CV_32F);
    const int bands = (crop.bgr.rows + bandRows - 1) / bandRows;
    cv::parallel_for_(cv::Range(0, bands), [&](const cv::Range& some) {
        for (int band = some.start; band < some.end; ++band) {
            const cv::Range rows(band * bandRows, std::min(crop.bgr.rows, (band + 1) * bandRows));
            cv::Mat smooth = field.smooth.rowRange(rows);
            cv::GaussianBlur(crop.bgr.rowRange(rows), smooth, {3, 3}, 0.7);
            distancesOfRows(rows, {field.smooth, field.background, crop.inside}, field.contrast);
        }
    });
}

/// Robust sigma of a tile's contrast: the median of a Rayleigh-like distance is 1.18 sigma. Below 0
/// where too little of the tile is inside.
float noiseWithin(const cv::Rect& tile, const cv::Mat& contrast, const cv::Mat& inside) {
    constexpr std::size_t fewest = 30;
    std::vector<float> values;
    for (int y = tile.y; y < tile.y + tile.height; y += 4)
        for (int x = tile.x; x < tile.x + tile.width; x += 4)
            if (inside.at<uchar>(y, x) != 0)
                values.push_back(contrast.at<float>(y, x));
    if (values.size() < fewest)
        return -1.0F;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return std::max(0.5F, *middle / 1.18F);
}

/// The noise of all tiles; tiles of which too little is inside get the typical noise.
cv::Mat noiseTiles(const cv::Mat& contrast, const cv::Mat& inside, int tile) {
    const cv::Rect window({}, contrast.size());
    cv::Mat noise((contrast.rows + tile - 1) / tile, (contrast.cols + tile - 1) / tile, CV_32F);
    cv::parallel_for_(cv::Range(0, noise.rows), [&](const cv::Range& rows) {
        for (int j = rows.start; j < rows.end; ++j)
            for (int i = 0; i < noise.cols; ++i)
                noise.at<float>(j, i) = noiseWithin(
                    cv::Rect(i * tile, j * tile, tile, tile) & window, contrast, inside);
    });
    std::vector<float> all;
    std::copy_if(noise.begin<float>(), noise.end<float>(), std::back_inserter(all),
                 [](float sigma) { return sigma >= 0.0F; });
    float typical = 1.0F;
    if (!all.empty()) {
        const auto middle = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
        std::nth_element(all.begin(), middle, all.end());
        typical = *middle;
    }
    noise.setTo(typical, noise < 0);
    cv::medianBlur(noise, noise, 3);
    cv::GaussianBlur(noise, noise, {}, 0.8);
    return noise;
}

} // namespace

cv::Mat colourDistances(const cv::Mat& picture, const cv::Mat& from, const cv::Mat& inside) {
    cv::Mat distances(picture.size(), CV_32F);
    cv::parallel_for_(cv::Range(0, picture.rows), [&](const cv::Range& rows) {
        distancesOfRows(rows, {picture, from, inside}, distances);
    });
    return distances;
}

ContrastField contrastField(const WindowCrop& crop) {
    ContrastField field;
    cv::resize(reducedBackground(crop), field.background, crop.bgr.size(), 0, 0, cv::INTER_LINEAR);
    smoothAndCompare(field, crop);
    field.tile = std::max(24, static_cast<int>(std::lround(2.0 * crop.pxPerMm)));
    field.noise = noiseTiles(field.contrast, crop.inside, field.tile);
    return field;
}

} // namespace swarfbook
