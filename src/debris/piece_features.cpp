// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/piece_features.h"

#include "debris/shared_elongation.h"
#include "particles/shape.h"
#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <span>

namespace swarfbook {
namespace {

constexpr std::array<std::string_view, featureCount> namesInModels{
    "meanAnswer",    "greatestAnswer", "logMaxFeret",       "logPixels",
    "aspect",        "solidity",       "straightness",      "growth",
    "shrink",        "unsureWithin",   "unsureAround",      "unsurePhoto",
    "seamWithin",    "brightMetal",    "yellowMetal",       "lining",
    "polymer",       "fibre",          "whiteHigh",         "whiteLow",
    "castStrength",  "castAlong",      "photoUnsureAround", "photoGrowth",
    "photoShrink",   "photoTypeDoubt", "doubtedBright",     "doubtedYellow",
    "doubtedLining", "doubtedPolymer", "doubtedFibre",      "logSurfaceNoise"};

constexpr std::size_t typeCount = 5;

constexpr int ringPx = 4;                      // px around a piece
constexpr double openFrom = 0.2, openTo = 0.8; // of the map: undecided between these
constexpr double sureOf = 0.5;                 // of the map
constexpr double leastShare = 1.0 / 510;       // half a step of the type maps
constexpr float leastUnsure = 0.005F;
constexpr double leastNoise = 0.001;
constexpr double surePiece = 0.8;    // mean answer from which its outline counts for the lamp
constexpr double plainlyPiece = 0.6; // mean answer from which its types count
constexpr double usualDoubt = 0.3;   // of the types, nats: assumed value if there are few pieces
constexpr double usualCounts = 5.0;  // as so many pieces
constexpr double fewPixels = 100.0;  // of pieces: a bare window has none

void set(Features& features, Feature which, double value) {
    features[static_cast<std::size_t>(which)] = static_cast<float>(value);
}

float percentile(std::vector<float>& values, double share) {
    if (values.empty())
        return 0.0F;
    const auto at = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1));
    const auto place = values.begin() + static_cast<std::ptrdiff_t>(at);
    std::nth_element(values.begin(), place, values.end());
    return *place;
}

/// Mean of p (1 - p) over the pixels of a mask.
double unsure(const cv::Mat& piece, const cv::Mat& mask) {
    double sum = 0.0;
    int count = 0;
    for (int y = 0; y < mask.rows; ++y)
        for (int x = 0; x < mask.cols; ++x) {
            if (mask.at<uchar>(y, x) == 0)
                continue;
            const double p = piece.at<uchar>(y, x) / 255.0;
            sum += p * (1.0 - p);
            ++count;
        }
    return sum / std::max(1, count);
}

/// Undecided pixels of the map in the window against sure ones.
double openShare(const cv::Mat& piece, const cv::Mat& inside) {
    std::array<int, 256> pixels{};
    for (int y = 0; y < piece.rows; ++y) {
        const auto *p = piece.ptr<uchar>(y), *in = inside.ptr<uchar>(y);
        for (int x = 0; x < piece.cols; ++x)
            pixels[p[x]] += in[x] != 0 ? 1 : 0;
    }
    double open = 0.0, pieces = 0.0;
    for (std::size_t code = 0; code < pixels.size(); ++code) {
        const double p = static_cast<double>(code) / 255.0;
        open += p > openFrom && p < openTo ? pixels[code] : 0;
        pieces += p > sureOf ? pixels[code] : 0;
    }
    return std::log((open + fewPixels) / (pieces + fewPixels));
}

void describeShape(Features& out, const Candidate& c, double edge) {
    const Shape s = measureShape(std::span<const cv::Point2d>(c.outline));
    set(out, Feature::logMaxFeret, std::log(std::max(s.maxFeret, 0.5) / edge));
    set(out, Feature::logPixels, std::log(std::max(s.maxFeret, 0.5)));
    set(out, Feature::aspect, s.aspectRatio());
    set(out, Feature::solidity, s.solidity());
    set(out, Feature::straightness, s.straightness());
    set(out, Feature::growth, std::log(std::max(c.growth, 0.1)));
    set(out, Feature::shrink, std::log(std::max(c.shrink, 0.1)));
}

void describeAnswers(Features& out, const Candidate& c, const PieceMaps& maps) {
    const cv::Mat piece = maps.piece(c.box);
    double greatest = 0.0;
    cv::minMaxLoc(piece, nullptr, &greatest, nullptr, nullptr, c.mask);
    cv::Mat around;
    cv::dilate(c.mask, around, cv::Mat::ones(2 * ringPx + 1, 2 * ringPx + 1, CV_8U));
    around.setTo(0, c.mask);
    set(out, Feature::meanAnswer, cv::mean(piece, c.mask)[0] / 255.0);
    set(out, Feature::greatestAnswer, greatest / 255.0);
    set(out, Feature::unsureWithin, unsure(piece, c.mask));
    set(out, Feature::unsureAround, unsure(piece, around));
    set(out, Feature::seamWithin, cv::mean(maps.seam(c.box), c.mask)[0] / 255.0);
}

void describeTypes(Features& out, const Candidate& c, const PieceMaps& maps) {
    std::array<double, typeCount> sums{};
    double count = 0.0;
    for (int y = 0; y < c.box.height; ++y)
        for (int x = 0; x < c.box.width; ++x) {
            if (c.mask.at<uchar>(y, x) == 0)
                continue;
            const int v = std::min((y + c.box.y) / 2, maps.types[0].rows - 1);
            const int u = std::min((x + c.box.x) / 2, maps.types[0].cols - 1);
            for (std::size_t t = 0; t < sums.size(); ++t)
                sums[t] += maps.types[t].at<uchar>(v, u) / 255.0;
            count += 1.0;
        }
    constexpr auto first = static_cast<std::size_t>(Feature::brightMetal);
    for (std::size_t t = 0; t < sums.size(); ++t)
        out[first + t] =
            static_cast<float>(std::log(std::max(sums[t] / std::max(count, 1.0), leastShare)));
}

/// Linear light of the pixels within over the card's white there, blue, green, red.
std::vector<cv::Vec3f> lightWithin(const CalibratedPhoto& photo, const WindowCrop& crop,
                                   const Candidate& c) {
    const auto& linear = linearFromSrgb();
    const cv::Point middle = (c.box.tl() + c.box.br()) / 2;
    const cv::Vec3d white =
        photo.light.whiteAt(photo.card.mapping.cardFromPhoto(crop.inPhoto(middle)));
    cv::Mat smooth;
    cv::GaussianBlur(crop.bgr(c.box), smooth, {3, 3}, 0.7);
    std::vector<cv::Vec3f> light;
    for (int y = 0; y < c.box.height; ++y)
        for (int x = 0; x < c.box.width; ++x) {
            if (c.mask.at<uchar>(y, x) == 0)
                continue;
            const auto& p = smooth.at<cv::Vec3b>(y, x);
            const cv::Vec3d seen(linear[p[0]], linear[p[1]], linear[p[2]]);
            light.emplace_back(seen[0] / white[0], seen[1] / white[1], seen[2] / white[2]);
        }
    return light;
}

void describeLight(Features& out, const std::vector<cv::Vec3f>& light) {
    std::vector<float> luma;
    for (const cv::Vec3f& p : light)
        luma.push_back((p[0] + 2.0F * p[1] + p[2]) / 4.0F);
    set(out, Feature::whiteHigh, percentile(luma, 0.95));
    set(out, Feature::whiteLow, percentile(luma, 0.05));
}

float of(const Features& features, Feature which) {
    return features[static_cast<std::size_t>(which)];
}

/// The lamp's effect on the outlines: the same for all pieces except for how far each is elongated
/// in that direction.
void describeCastShadows(std::vector<Features>& features, const std::vector<Candidate>& pieces) {
    std::vector<cv::Point2d> elongations, ofSure;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        elongations.push_back(elongationOf(pieces[i].outline));
        if (of(features[i], Feature::meanAnswer) >= surePiece)
            ofSure.push_back(elongations.back());
    }
    const cv::Point2d shared = sharedElongation(ofSure);
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        set(features[i], Feature::castStrength, std::hypot(shared.x, shared.y));
        set(features[i], Feature::castAlong, elongations[i].dot(shared));
    }
}

/// Means over all pieces of a photo show how far its outlines can be trusted.
void describePhoto(std::vector<Features>& features, double open) {
    double around = 0.0, growth = 0.0, shrink = 0.0;
    const double count = std::max<double>(1.0, static_cast<double>(features.size()));
    for (const Features& one : features) {
        around += std::log(of(one, Feature::unsureAround) + leastUnsure) / count;
        growth += of(one, Feature::growth) / count;
        shrink += of(one, Feature::shrink) / count;
    }
    for (Features& one : features) {
        set(one, Feature::unsurePhoto, open);
        set(one, Feature::photoUnsureAround, around);
        set(one, Feature::photoGrowth, growth);
        set(one, Feature::photoShrink, shrink);
    }
}

/// Entropy of the type shares, nats.
double typeDoubt(const Features& features) {
    constexpr auto first = static_cast<std::size_t>(Feature::brightMetal);
    double doubt = 0.0;
    for (std::size_t t = 0; t < typeCount; ++t)
        doubt -= std::exp(features[first + t]) * features[first + t];
    return doubt;
}

/// In light in which the network doubts the types of most pieces, it is often wrong even where it
/// seems sure.
void describeTypeDoubt(std::vector<Features>& features) {
    double sum = usualCounts * usualDoubt, count = usualCounts;
    for (const Features& one : features)
        if (of(one, Feature::meanAnswer) >= plainlyPiece) {
            sum += typeDoubt(one);
            count += 1.0;
        }
    const double doubt = sum / count;
    constexpr auto from = static_cast<std::size_t>(Feature::brightMetal),
                   to = static_cast<std::size_t>(Feature::doubtedBright);
    for (Features& one : features) {
        set(one, Feature::photoTypeDoubt, doubt);
        for (std::size_t t = 0; t < typeCount; ++t)
            one[to + t] = one[from + t] * static_cast<float>(doubt);
    }
}

} // namespace

const std::array<std::string_view, featureCount>& featureNames() {
    return namesInModels;
}

double blueShare(const CalibratedPhoto& photo, const WindowCrop& crop, const Candidate& piece) {
    // None of 3000 true pieces in photos with known truth has a mean of 0.05 or more; crumbs of
    // sealant have 0.17.
    constexpr float leastBlue = 0.08F;
    const auto light = lightWithin(photo, crop, piece);
    const auto blue = std::count_if(light.begin(), light.end(), [](const cv::Vec3f& p) {
        return p[0] - p[2] > leastBlue * (p[0] + p[1] + p[2]);
    });
    return static_cast<double>(blue) / std::max<double>(1.0, static_cast<double>(light.size()));
}

std::vector<Features> featuresOf(const JudgedWindow& window, const std::vector<Candidate>& pieces) {
    const double edge = window.photo.sharpness.edgeWidth.value();
    const double open = openShare(window.maps.piece, window.crop.inside);
    std::vector<Features> features(pieces.size());
    cv::parallel_for_(cv::Range(0, static_cast<int>(pieces.size())), [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            const auto at = static_cast<std::size_t>(i);
            const Candidate& c = pieces[at];
            describeShape(features[at], c, edge);
            describeAnswers(features[at], c, window.maps);
            describeTypes(features[at], c, window.maps);
            describeLight(features[at], lightWithin(window.photo, window.crop, c));
        }
    });
    describeCastShadows(features, pieces);
    describePhoto(features, open);
    describeTypeDoubt(features);
    for (Features& one : features)
        set(one, Feature::logSurfaceNoise, std::log(window.surfaceNoise + leastNoise));
    return features;
}

} // namespace swarfbook
