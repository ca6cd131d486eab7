// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/clean_reference_fit.h"

#include <fmt/format.h>
#include <opencv2/imgproc.hpp>
#include <opencv2/video/tracking.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace swarfbook {
namespace {

constexpr float isMark = 3.0F;       // robust sigmas
constexpr double reachMm = 10.0;     // how far the card may be displaced
constexpr double reachDegrees = 8.0; // and how much turned
constexpr double padReachMm = 0.5; // ten times the difference between two calibrations of one card
constexpr double coarse = 4.0;     // px/mm
constexpr double finest = 12.0;    // px/mm
constexpr double finePixels = 5e5; // of the view that is refined: more pixels bring nothing more
constexpr double clearly = 7.0;    // sigmas of the correlations at all other shifts; the largest
                                   // of 10^5 by chance is 4.4
constexpr double leastLikeness = 0.35; // two photos of one surface reach 0.6 to 0.95, of two
                                       // surfaces 0.0 to 0.1 (rendered pairs, our own experiment)
constexpr double otherLightness = 3.0;

/// Where a pixel of the measured photo's view is in the clean reference's: a turn and a shift, px.
using Warp = cv::Matx23f;

Warp turnAbout(cv::Size size, double degrees, cv::Point2d shift) {
    const double c = std::cos(degrees * CV_PI / 180.0), s = std::sin(degrees * CV_PI / 180.0);
    const cv::Point2d m((size.width - 1) / 2.0, (size.height - 1) / 2.0);
    return {static_cast<float>(c),
            static_cast<float>(-s),
            static_cast<float>(m.x - c * m.x + s * m.y + shift.x),
            static_cast<float>(s),
            static_cast<float>(c),
            static_cast<float>(m.y - s * m.x - c * m.y + shift.y)};
}

cv::Mat seenThrough(const cv::Mat& cleanReference, const Warp& warp) {
    cv::Mat out;
    cv::warpAffine(cleanReference, out, warp, cleanReference.size(),
                   cv::INTER_LINEAR | cv::WARP_INVERSE_MAP);
    return out;
}

struct Correlated {
    double degrees = 0.0;
    cv::Point2d shift;   ///< px
    double height = 0.0; ///< of the correlation
    double sigmas = 0.0; ///< above the correlations at other shifts
};

/// Spectrum of a picture, padded so that shifts up to `reach` do not wrap round.
cv::Mat spectrumOf(const cv::Mat& picture, int reach) {
    const cv::Size room(cv::getOptimalDFTSize(picture.cols + 2 * reach),
                        cv::getOptimalDFTSize(picture.rows + 2 * reach));
    cv::Mat padded(room, CV_32F, cv::Scalar(0)), spectrum;
    picture.copyTo(padded(cv::Rect({}, picture.size())));
    cv::dft(padded, spectrum, 0, picture.rows);
    return spectrum;
}

/// Correlations at all shifts up to `reach`, the middle being no shift.
cv::Mat correlations(const cv::Mat& measured, const cv::Mat& cleanReference, int reach) {
    cv::Mat product, all;
    cv::mulSpectrums(spectrumOf(cleanReference, reach), measured, product, 0, true);
    cv::dft(product, all, cv::DFT_INVERSE | cv::DFT_SCALE | cv::DFT_REAL_OUTPUT);
    cv::Mat out(2 * reach + 1, 2 * reach + 1, CV_32F);
    for (int y = -reach; y <= reach; ++y)
        for (int x = -reach; x <= reach; ++x)
            out.at<float>(y + reach, x + reach) =
                all.at<float>((y + all.rows) % all.rows, (x + all.cols) % all.cols);
    return out;
}

Correlated bestOf(const cv::Mat& all, int reach, double aroundPx) {
    Correlated found;
    cv::Point at;
    cv::minMaxLoc(all, nullptr, &found.height, nullptr, &at);
    cv::Mat elsewhere(all.size(), CV_8U, cv::Scalar(255));
    cv::circle(elsewhere, at, static_cast<int>(aroundPx), cv::Scalar(0), cv::FILLED);
    cv::Scalar mean, spread;
    cv::meanStdDev(all, mean, spread, elsewhere);
    found.shift = cv::Point2d(at) - cv::Point2d(reach, reach);
    found.sigmas = (found.height - mean[0]) / std::max(spread[0], 1e-9);
    return found;
}

/// Tries every turn and shift in reach.
Correlated search(const SurfaceTexture& measured, const SurfaceTexture& cleanReference) {
    const cv::Size size = measured.value.size();
    const int reach = static_cast<int>(reachMm * measured.pxPerMm);
    const double corner = std::hypot(size.width, size.height) / 2.0;
    const double step = 1.2 / corner * 180.0 / CV_PI; // 1.2 px at the corners
    const int turns = static_cast<int>(std::ceil(reachDegrees / step));
    const cv::Mat spectrum = spectrumOf(measured.value, reach);
    Correlated best;
    for (int i = -turns; i <= turns; ++i) {
        const double degrees = i * step;
        const cv::Mat turned = seenThrough(cleanReference.value, turnAbout(size, degrees, {}));
        Correlated found = bestOf(correlations(spectrum, turned, reach), reach, measured.pxPerMm);
        if (found.height <= best.height)
            continue;
        // The turned one is read at x + shift: first shifted, then turned.
        const double c = std::cos(degrees * CV_PI / 180.0), s = std::sin(degrees * CV_PI / 180.0);
        found.degrees = degrees;
        found.shift = {c * found.shift.x - s * found.shift.y,
                       s * found.shift.x + c * found.shift.y};
        best = found;
    }
    return best;
}

/// Refines by the enhanced correlation coefficient; leaves the warp where that does not converge.
void refine(Warp& warp, const SurfaceTexture& measured, const SurfaceTexture& cleanReference) {
    try {
        cv::Mat refined(warp);
        cv::findTransformECC(measured.value, cleanReference.value, refined, cv::MOTION_EUCLIDEAN,
                             {cv::TermCriteria::COUNT + cv::TermCriteria::EPS, 40, 1e-5},
                             cleanReference.mask, 5);
        warp = Warp(refined);
    } catch (const cv::Exception&) {
        return; // no slope to climb: the correlation shows whether the start was good enough
    }
}

/// Correlation where the clean reference shows marks.
double likenessOf(const Warp& warp, const SurfaceTexture& measured,
                  const SurfaceTexture& cleanReference) {
    const cv::Mat value = seenThrough(cleanReference.value, warp);
    double both = 0.0, one = 0.0, other = 0.0;
    for (int y = 0; y < value.rows; ++y)
        for (int x = 0; x < value.cols; ++x) {
            const float b = value.at<float>(y, x), m = measured.value.at<float>(y, x);
            if (std::abs(b) < isMark || measured.mask.at<uchar>(y, x) == 0)
                continue;
            both += static_cast<double>(b * m);
            one += static_cast<double>(b * b);
            other += static_cast<double>(m * m);
        }
    return one > 0.0 && other > 0.0 ? both / std::sqrt(one * other) : 0.0;
}

CleanReferenceFit fitFrom(const Warp& warp, const SurfaceTexture& t, const cv::Rect2d& area) {
    CleanReferenceFit fit;
    fit.middle = {area.x + area.width / 2.0, area.y + area.height / 2.0};
    const double cx = (t.value.cols - 1) / 2.0, cy = (t.value.rows - 1) / 2.0;
    const auto at = [&](int row) {
        return static_cast<double>(warp(row, 0)) * cx + static_cast<double>(warp(row, 1)) * cy +
               static_cast<double>(warp(row, 2));
    };
    fit.shift = {(at(0) - cx) / t.pxPerMm, (at(1) - cy) / t.pxPerMm};
    fit.turn =
        Degrees(std::atan2(static_cast<double>(warp(1, 0)), static_cast<double>(warp(0, 0))) *
                180.0 / CV_PI);
    return fit;
}

Warp scaled(Warp warp, double by) {
    // Pixel centres: (x + 1/2) scales.
    for (int row = 0; row < 2; ++row) {
        const double half = 0.5 * (static_cast<double>(warp(row, 0) + warp(row, 1)) - 1.0);
        warp(row, 2) = static_cast<float>((static_cast<double>(warp(row, 2)) - half) * by + half);
    }
    return warp;
}

std::optional<CleanReferenceMisfit> otherSurface(const SurfaceTexture& measured,
                                                 const SurfaceTexture& cleanReference) {
    const double ratio = measured.lightness / std::max(cleanReference.lightness, 1e-3);
    if (ratio < otherLightness && ratio > 1.0 / otherLightness)
        return std::nullopt;
    return CleanReferenceMisfit{
        fmt::format("The cleaned place is {:.1f} times {} than the surface in this photo, measured "
                    "against the card's white.",
                    ratio < 1.0 ? 1.0 / ratio : ratio, ratio < 1.0 ? "lighter" : "darker"),
        "Photograph the cleaned place again: the same place, in the same light."};
}

CleanReferenceMisfit notTheSame(double likeness) {
    return {fmt::format("The marks on the cleaned place do not fit those in this photo within "
                        "{:.0f} mm and {:.0f} degrees (likeness {:.2f} of 1).",
                        reachMm, reachDegrees, likeness),
            "Lay the card on the same spot both times, keep lamp and phone where they were, and "
            "photograph the cleaned place again."};
}

} // namespace

PointOnCard CleanReferenceFit::onCleanReference(PointOnCard p) const {
    const double c = std::cos(turn.value() * CV_PI / 180.0);
    const double s = std::sin(turn.value() * CV_PI / 180.0);
    const double x = p.x - middle.x, y = p.y - middle.y;
    return {middle.x + shift.x + c * x - s * y, middle.y + shift.y + s * x + c * y};
}

std::variant<CleanReferenceFit, CleanReferenceMisfit>
fitCleanReference(const SurfacePhoto& measured, const SurfacePhoto& cleanReference,
                  bool onWhiteCard) {
    const cv::Rect2d area = viewedArea(measured.photo);
    const double fine =
        std::min({finest, std::sqrt(finePixels / area.area()), measured.photo.trueScale().value(),
                  cleanReference.photo.trueScale().value()});
    const SurfaceTexture seen = textureOf(measured, area, fine),
                         clean = textureOf(cleanReference, area, fine);
    Warp warp = turnAbout(seen.value.size(), 0.0, {});
    CleanReferenceFit fit = fitFrom(warp, seen, area);
    if (isPlain(clean)) {
        if (const auto other = otherSurface(seen, clean))
            return *other;
        return fit;
    }
    if (onWhiteCard) {
        refine(warp, seen, clean);
        const CleanReferenceFit refined = fitFrom(warp, seen, area);
        if (std::hypot(refined.shift.x, refined.shift.y) > padReachMm)
            warp = turnAbout(seen.value.size(), 0.0, {});
    } else {
        const SurfaceTexture seenCoarse = textureOf(measured, area, coarse);
        const SurfaceTexture cleanCoarse = textureOf(cleanReference, area, coarse);
        const Correlated found = search(seenCoarse, cleanCoarse);
        warp = turnAbout(seenCoarse.value.size(), found.degrees, found.shift);
        refine(warp, seenCoarse, cleanCoarse);
        if (found.sigmas < clearly)
            return notTheSame(likenessOf(warp, seenCoarse, cleanCoarse));
        warp = scaled(warp, fine / coarse);
        refine(warp, seen, clean);
    }
    fit = fitFrom(warp, seen, area);
    fit.likeness = likenessOf(warp, seen, clean);
    fit.byTexture = !onWhiteCard;
    if (fit.likeness < leastLikeness)
        return notTheSame(fit.likeness);
    return fit;
}

} // namespace swarfbook
