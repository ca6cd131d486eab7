// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/clean_reference_surface.h"

#include "card/smooth_map.h"
#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double lightMm = 6.0;    // light and its reflections change slowly
constexpr float halfAgain = 1.5F;  // a mark may be stronger by this factor in the other light
constexpr float markSigmas = 3.2F; // half of a candidate's contrast: a mark that a less sharp ...
constexpr float markCodes = 6.0F;  // ... clean reference shows fainter is still a mark
constexpr float remains = 0.35F;   // explained: less than this of the contrast is left
constexpr double perOctave = 32.0; // steps of a ratio of light in 8 bits: 2 % each

/// Window of a photo as a crop that holds another picture.
WindowCrop asCrop(const WindowCrop& like, const CleanReferencePicture& picture) {
    WindowCrop crop = like;
    crop.bgr = picture.bgr;
    cv::Mat inside; // a new one: that of `like` is shared
    cv::bitwise_and(picture.covered, like.inside, inside);
    crop.inside = inside;
    cv::resize(crop.bgr, crop.reduced, like.reduced.size(), 0, 0, cv::INTER_AREA);
    return crop;
}

/// Ratio of light a / b per channel as octaves, 128 for equal; CV_8UC3.
cv::Mat octavesOf(const cv::Mat& a, const cv::Mat& b) {
    std::array<double, 256> octave{};
    for (std::size_t code = 0; code < octave.size(); ++code)
        octave[code] = std::log2(std::max(double(linearFromSrgb()[code]), 0.002));
    cv::Mat out(a.size(), CV_8UC3);
    for (int y = 0; y < a.rows; ++y)
        for (int x = 0; x < a.cols; ++x)
            for (int c = 0; c < 3; ++c)
                out.at<cv::Vec3b>(y, x)[c] = cv::saturate_cast<uchar>(
                    128.0 + perOctave * (octave[a.at<cv::Vec3b>(y, x)[c]] -
                                         octave[b.at<cv::Vec3b>(y, x)[c]]));
    return out;
}

/// sRGB code of linear light.
uchar encoded(float linear) {
    constexpr int steps = 4096;
    static const std::vector<uchar> table = [] {
        std::vector<uchar> codes(steps + 1);
        const auto& light = linearFromSrgb();
        std::size_t code = 0;
        for (int i = 0; i <= steps; ++i) {
            const float l = static_cast<float>(i) / steps;
            while (code < 255 && std::abs(light[code + 1] - l) <= std::abs(light[code] - l))
                ++code;
            codes[static_cast<std::size_t>(i)] = static_cast<uchar>(code);
        }
        return codes;
    }();
    const float at = std::clamp(linear, 0.0F, 1.0F) * steps;
    return table[static_cast<std::size_t>(std::lround(at))];
}

/// The clean reference in the light of the photo.
cv::Mat inPhotosLight(const ContrastField& seen, const ContrastField& cleanReference,
                      double pxPerMm) {
    const double shrink = std::min(1.0, 2.0 / pxPerMm);
    cv::Mat a, b;
    cv::resize(seen.background, a, {}, shrink, shrink, cv::INTER_AREA);
    cv::resize(cleanReference.background, b, {}, shrink, shrink, cv::INTER_AREA);
    cv::Mat octaves = octavesOf(a, b);
    const int window = 2 * static_cast<int>(lightMm * pxPerMm * shrink / 2.0) + 1;
    cv::medianBlur(octaves, octaves, std::max(3, window));
    cv::Mat ratio;
    octaves.convertTo(ratio, CV_32FC3, std::log(2.0) / perOctave,
                      -128.0 * std::log(2.0) / perOctave);
    cv::exp(ratio, ratio);
    cv::GaussianBlur(ratio, ratio, {}, 1.0);
    cv::resize(ratio, ratio, cleanReference.smooth.size(), 0, 0, cv::INTER_LINEAR);
    const auto& linear = linearFromSrgb();
    cv::Mat out(cleanReference.smooth.size(), CV_8UC3);
    cv::parallel_for_(cv::Range(0, out.rows), [&](const cv::Range& rows) {
        for (int y = rows.start; y < rows.end; ++y)
            for (int x = 0; x < out.cols; ++x)
                for (int c = 0; c < 3; ++c)
                    out.at<cv::Vec3b>(y, x)[c] =
                        encoded(linear[cleanReference.smooth.at<cv::Vec3b>(y, x)[c]] *
                                ratio.at<cv::Vec3f>(y, x)[c]);
    });
    return out;
}

float leastAt(const ContrastField& field, int x, int y) {
    return std::max(markCodes, markSigmas * field.noiseAt(x, y));
}

/// Places where marks stand out on the clean reference, with 1.5 pixels around.
cv::Mat marksOf(const ContrastField& cleanReference, const cv::Mat& covered) {
    cv::Mat marks(covered.size(), CV_8U, cv::Scalar(0));
    for (int y = 0; y < marks.rows; ++y)
        for (int x = 0; x < marks.cols; ++x)
            if (covered.at<uchar>(y, x) != 0 &&
                cleanReference.contrast.at<float>(y, x) > leastAt(cleanReference, x, y))
                marks.at<uchar>(y, x) = 255;
    cv::dilate(marks, marks, cv::Mat::ones(3, 3, CV_8U));
    return marks;
}

/// The value nearest to the pixel that a mix of surface and mark can have.
uchar explainedBy(uchar pixel, uchar surface, std::pair<uchar, uchar> least_most) {
    const float s = surface;
    const float low = std::min(s, s + halfAgain * (static_cast<float>(least_most.first) - s));
    const float high = std::max(s, s + halfAgain * (static_cast<float>(least_most.second) - s));
    return cv::saturate_cast<uchar>(std::clamp(static_cast<float>(pixel), low, high));
}

} // namespace

CleanReferencePicture cleanReferenceUnder(const SurfacePhoto& measured,
                                          const SurfacePhoto& cleanReference,
                                          const CleanReferenceFit& fit) {
    const WindowCrop& crop = measured.window.crop;
    const WindowCrop& from = cleanReference.window.crop;
    const cv::Mat places = smoothMap<cv::Vec2f>(crop.bgr.size(), [&](cv::Point2d px) {
        const PointInPhoto p = cleanReference.photo.photoFromTrue(
            fit.onCleanReference(measured.photo.trueFromPhoto(crop.inPhoto(px))));
        return cv::Vec2f(static_cast<float>(p.u - from.origin.x),
                         static_cast<float>(p.v - from.origin.y));
    });
    cv::Mat source = from.bgr;
    const double finer = from.pxPerMm / crop.pxPerMm;
    if (finer > 1.2)
        cv::GaussianBlur(from.bgr, source, {}, 0.4 * std::sqrt(finer * finer - 1.0));
    CleanReferencePicture picture;
    cv::remap(source, picture.bgr, places, {}, cv::INTER_LINEAR, cv::BORDER_REPLICATE);
    cv::remap(from.inside, picture.covered, places, {}, cv::INTER_NEAREST, cv::BORDER_CONSTANT,
              cv::Scalar(0));
    return picture;
}

CleanReferenceSurface surfaceByCleanReference(const WindowCrop& crop, const ContrastField& field,
                                              const CleanReferencePicture& cleanReference) {
    const ContrastField clean = contrastField(asCrop(crop, cleanReference));
    const cv::Mat marks = marksOf(clean, cleanReference.covered & crop.inside);
    const cv::Mat surface = inPhotosLight(field, clean, crop.pxPerMm);
    cv::Mat least, most;
    cv::erode(surface, least, cv::Mat::ones(3, 3, CV_8U));
    cv::dilate(surface, most, cv::Mat::ones(3, 3, CV_8U));
    CleanReferenceSurface out;
    out.field = field;
    out.field.background = field.background.clone();
    for (int y = 0; y < marks.rows; ++y)
        for (int x = 0; x < marks.cols; ++x)
            if (marks.at<uchar>(y, x) != 0)
                for (int c = 0; c < 3; ++c)
                    out.field.background.at<cv::Vec3b>(y, x)[c] =
                        explainedBy(field.smooth.at<cv::Vec3b>(y, x)[c],
                                    field.background.at<cv::Vec3b>(y, x)[c],
                                    {least.at<cv::Vec3b>(y, x)[c], most.at<cv::Vec3b>(y, x)[c]});
    out.field.contrast = colourDistances(field.smooth, out.field.background, crop.inside);
    out.explained.create(marks.size(), CV_8U);
    for (int y = 0; y < marks.rows; ++y)
        for (int x = 0; x < marks.cols; ++x) {
            const float before = field.contrast.at<float>(y, x);
            const float after = out.field.contrast.at<float>(y, x);
            const float limit = leastAt(field, x, y);
            out.explained.at<uchar>(y, x) =
                before > limit && after < std::max(limit, remains * before) ? 255 : 0;
        }
    // Per-channel limits can bend a colour; that must not increase the distance itself.
    cv::min(out.field.contrast, field.contrast, out.field.contrast);
    return out;
}

double shareExplained(const Candidate& candidate, const ContrastField& seen,
                      const CleanReferenceSurface& surface) {
    int stood = 0, explained = 0;
    for (int y = 0; y < candidate.box.height; ++y)
        for (int x = 0; x < candidate.box.width; ++x) {
            const int u = candidate.box.x + x, v = candidate.box.y + y;
            if (candidate.mask.at<uchar>(y, x) == 0 ||
                seen.contrast.at<float>(v, u) <= leastAt(seen, u, v))
                continue;
            ++stood;
            explained += surface.explained.at<uchar>(v, u) != 0 ? 1 : 0;
        }
    return stood > 0 ? static_cast<double>(explained) / stood : 0.0;
}

} // namespace swarfbook
