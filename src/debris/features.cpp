// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/features.h"

#include "debris/cast_shadows.h"
#include "debris/feature_writer.h"
#include "particles/shape.h"
#include "photo/linear_light.h"

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

constexpr std::array<std::string_view, featureCount> namesInModels{
    "logArea",      "logMaxFeret", "logMinFeret", "aspect",  "solidity",  "straightness",
    "formFactor",   "likeSurface", "logPeak",     "logMean", "meanCodes", "kMean",
    "kLow",         "kHigh",       "kSpread",     "colour",  "red",       "green",
    "blue",         "whiteHigh",   "whiteLow",    "yellow",  "reddish",   "acutance",
    "acutanceLow",  "darkerRim",   "halo",        "noise",   "surface",   "surfaceColour",
    "neighbours",   "aligned",     "certainty",   "growth",  "shrink",    "sharpAround",
    "castStrength", "castAlong",   "castSide",    "castRing"};

float percentile(std::vector<float>& values, double share) {
    if (values.empty())
        return 0.0F;
    const auto at = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1));
    const auto place = values.begin() + static_cast<std::ptrdiff_t>(at);
    std::nth_element(values.begin(), place, values.end());
    return *place;
}

using One = FeatureWriter<Feature, featureCount>;

struct Scene {
    const CalibratedPhoto& photo;
    const WindowCrop& crop;
    const ContrastField& field;
    double edge = 1.0; ///< px
};

void describeShape(One out, const Candidate& c, const Shape& s, double edge) {
    out.set(Feature::logArea, std::log(std::max(s.area, 0.5) / (edge * edge)));
    out.set(Feature::logMaxFeret, std::log(std::max(s.maxFeret, 0.5) / edge));
    out.set(Feature::logMinFeret, std::log(std::max(s.minFeret, 0.3) / edge));
    out.set(Feature::aspect, s.aspectRatio());
    out.set(Feature::solidity, s.solidity());
    out.set(Feature::straightness, s.straightness());
    out.set(Feature::formFactor, s.formFactor());
    out.set(Feature::likeSurface, c.likeSurface);
    out.set(Feature::certainty, c.certainty);
    out.set(Feature::growth, std::log(std::max(c.growth, 0.1)));
    out.set(Feature::shrink, std::log(std::max(c.shrink, 0.1)));
}

bool withinLarge(const Scene& scene, cv::Point at) {
    const cv::Mat& large = scene.field.large;
    const cv::Point cell(at.x / scene.crop.reducedBy, at.y / scene.crop.reducedBy);
    return cell.y < large.rows && cell.x < large.cols && large.at<uchar>(cell) != 0;
}

/// Light of the pixels within a candidate.
struct LightWithin {
    std::vector<float> k;    ///< relative to the surface, of each pixel
    std::vector<float> luma; ///< relative to the card's white, of each pixel
    cv::Vec3d sum;           ///< linear blue, green, red, relative to the card's white
    cv::Vec3d surface;       ///< the same of the surface below
    double colour = 0.0;     ///< what differs from the surface's own colour
    double codes = 0.0;      ///< contrast, codes
    double large = 0.0;      ///< pixels within large pieces
};

/// Sums over the pixels within; `white` is the card's white there.
LightWithin lightWithin(const Scene& scene, const Candidate& c, const cv::Vec3d& white) {
    const auto& linear = linearFromSrgb();
    LightWithin light;
    for (int y = 0; y < c.box.height; ++y)
        for (int x = 0; x < c.box.width; ++x) {
            if (c.mask.at<uchar>(y, x) == 0)
                continue;
            const cv::Point at(c.box.x + x, c.box.y + y);
            const auto& p = scene.field.smooth.at<cv::Vec3b>(at);
            const auto& b = scene.field.background.at<cv::Vec3b>(at);
            const cv::Vec3d lp(linear[p[0]], linear[p[1]], linear[p[2]]);
            const cv::Vec3d lb(linear[b[0]], linear[b[1]], linear[b[2]]);
            const double bb = std::max(lb.dot(lb), 1e-6);
            const double ratio = lp.dot(lb) / bb;
            light.k.push_back(static_cast<float>(ratio));
            light.colour += cv::norm(lp - ratio * lb) / std::sqrt(bb);
            light.luma.push_back(static_cast<float>(
                (lp[0] / white[0] + 2 * lp[1] / white[1] + lp[2] / white[2]) / 4));
            light.sum += cv::Vec3d(lp[0] / white[0], lp[1] / white[1], lp[2] / white[2]);
            light.surface += cv::Vec3d(lb[0] / white[0], lb[1] / white[1], lb[2] / white[2]);
            light.codes += scene.field.contrast.at<float>(at);
            light.large += withinLarge(scene, at) ? 1.0 : 0.0;
        }
    return light;
}

/// Light of the pixels within, relative to the surface and to the card's white.
void describeLight(One out, const Scene& scene, const Candidate& c, cv::Point2d centre) {
    const cv::Vec3d white = scene.photo.light.whiteAt(
        scene.photo.card.mapping.cardFromPhoto(scene.crop.inPhoto(centre)));
    LightWithin light = lightWithin(scene, c, white);
    const double n = std::max<double>(1.0, static_cast<double>(light.k.size()));
    const cv::Vec3d sum = light.sum * (1.0 / n);
    const cv::Vec3d surface = light.surface * (1.0 / n);
    double mean = 0.0, square = 0.0;
    for (const float v : light.k) {
        mean += v / n;
        square += v * v / n;
    }
    const double total = std::max(sum[0] + sum[1] + sum[2], 1e-4);
    out.set(Feature::kMean, std::min(mean, 4.0));
    out.set(Feature::kSpread, std::sqrt(std::max(0.0, square - mean * mean)));
    out.set(Feature::kLow, percentile(light.k, 0.1));
    out.set(Feature::kHigh, std::min(percentile(light.k, 0.9), 4.0F));
    out.set(Feature::colour, light.colour / n);
    out.set(Feature::blue, sum[0]);
    out.set(Feature::green, sum[1]);
    out.set(Feature::red, sum[2]);
    out.set(Feature::whiteHigh, percentile(light.luma, 0.95));
    out.set(Feature::whiteLow, percentile(light.luma, 0.05));
    out.set(Feature::yellow, (sum[2] + sum[1] - 2 * sum[0]) / total);
    out.set(Feature::reddish, (sum[2] - sum[1]) / total);
    out.set(Feature::sharpAround, light.large / n);
    out.set(Feature::meanCodes, light.codes / n / 255.0);
    out.set(Feature::logMean, std::log(std::max(light.codes / n, 0.1) / c.noise));
    out.set(Feature::logPeak, std::log(std::max(c.peak, 0.1) / c.noise));
    out.set(Feature::noise, c.noise / 255.0);
    out.set(Feature::surface, (surface[0] + 2 * surface[1] + surface[2]) / 4);
    const double most = std::max({surface[0], surface[1], surface[2], 1e-4});
    out.set(Feature::surfaceColour, 1.0 - std::min({surface[0], surface[1], surface[2]}) / most);
}

float contrastAt(const cv::Mat& contrast, cv::Point2d p) {
    const int x = static_cast<int>(std::floor(p.x));
    const int y = static_cast<int>(std::floor(p.y));
    if (x < 0 || y < 0 || x + 1 >= contrast.cols || y + 1 >= contrast.rows)
        return 0.0F;
    const float fx = static_cast<float>(p.x - x);
    const float fy = static_cast<float>(p.y - y);
    const auto* a = contrast.ptr<float>(y) + x;
    const auto* b = contrast.ptr<float>(y + 1) + x;
    return (1 - fy) * ((1 - fx) * a[0] + fx * a[1]) + fy * ((1 - fx) * b[0] + fx * b[1]);
}

float greenAt(const cv::Mat& bgr, cv::Point2d p) {
    const int x = std::clamp(static_cast<int>(std::lround(p.x)), 0, bgr.cols - 1);
    const int y = std::clamp(static_cast<int>(std::lround(p.y)), 0, bgr.rows - 1);
    return bgr.at<cv::Vec3b>(y, x)[1];
}

/// How the contrast falls across the outline: a piece has an edge, a stain or a shadow has none.
void describeRim(One out, const Scene& scene, const Candidate& c, double meanContrast) {
    std::vector<float> fall;
    double darker = 0.0, halo = 0.0;
    const std::size_t n = c.outline.size();
    const std::size_t step = std::max<std::size_t>(1, n / 48);
    double orientation = 0.0; // sign of the outline's sense of rotation
    for (std::size_t i = 0; i < n; ++i)
        orientation += c.outline[i].cross(c.outline[(i + 1) % n]);
    const double sign = orientation > 0 ? 1.0 : -1.0;
    for (std::size_t i = 0; i < n; i += step) {
        const cv::Point2d before = c.outline[(i + n - std::min<std::size_t>(2, n - 1)) % n];
        const cv::Point2d after = c.outline[(i + 2) % n];
        const cv::Point2d along = after - before;
        const double length = std::hypot(along.x, along.y);
        if (length < 1e-6)
            continue;
        const cv::Point2d outward(sign * along.y / length, -sign * along.x / length);
        const cv::Point2d at = c.outline[i];
        const double half = 0.5 * scene.edge;
        fall.push_back(contrastAt(scene.field.contrast, at - half * outward) -
                       contrastAt(scene.field.contrast, at + half * outward));
        halo += contrastAt(scene.field.contrast, at + 1.5 * scene.edge * outward);
        darker += greenAt(scene.field.smooth, at - half * outward) <
                          greenAt(scene.field.smooth, at + scene.edge * outward)
                      ? 1.0
                      : 0.0;
    }
    const double count = std::max<double>(1.0, static_cast<double>(fall.size()));
    const double scale = std::max(meanContrast, 1.0);
    out.set(Feature::acutance, percentile(fall, 0.5) / scale);
    out.set(Feature::acutanceLow, percentile(fall, 0.25) / scale);
    out.set(Feature::darkerRim, darker / count);
    out.set(Feature::halo, halo / count / scale);
}

/// Direction of an outline's long axis, doubled angle as a unit vector (so that 0 and 180 agree).
cv::Point2d doubledAxis(const std::vector<cv::Point2d>& outline, cv::Point2d centre) {
    const cv::Point2d elongation = elongationOf(outline, centre);
    const double norm = std::hypot(elongation.x, elongation.y);
    return norm > 1e-9 ? elongation / norm : cv::Point2d();
}

/// A texture repeats itself: many like pieces near by, often lying the same way.
void describeNeighbours(std::vector<Features>& features, const Scene& scene,
                        const std::vector<Candidate>& candidates,
                        const std::vector<Shape>& shapes) {
    std::vector<cv::Point2d> axes;
    for (std::size_t i = 0; i < shapes.size(); ++i)
        axes.push_back(doubledAxis(candidates[i].outline, shapes[i].centroid));
    const double reach = 4.0 * scene.crop.pxPerMm;
    std::vector<std::size_t> byRow(shapes.size());
    for (std::size_t i = 0; i < byRow.size(); ++i)
        byRow[i] = i;
    std::sort(byRow.begin(), byRow.end(), [&](std::size_t a, std::size_t b) {
        return shapes[a].centroid.y < shapes[b].centroid.y;
    });
    std::vector<double> likeNeighbours(shapes.size(), 0.0);
    std::vector<cv::Point2d> axisSum(shapes.size());
    for (std::size_t i = 0; i < byRow.size(); ++i)
        for (std::size_t j = i + 1; j < byRow.size(); ++j) {
            const std::size_t a = byRow[i], b = byRow[j];
            const cv::Point2d d = shapes[b].centroid - shapes[a].centroid;
            if (d.y > reach)
                break;
            const double ratio = shapes[a].area / std::max(shapes[b].area, 1e-6);
            if (d.dot(d) > reach * reach || ratio < 0.25 || ratio > 4.0)
                continue;
            likeNeighbours[a] += 1.0;
            likeNeighbours[b] += 1.0;
            axisSum[a] += axes[b];
            axisSum[b] += axes[a];
        }
    for (std::size_t i = 0; i < shapes.size(); ++i) {
        One out(features[i]);
        out.set(Feature::neighbours, std::log1p(likeNeighbours[i]));
        const double n = std::max(likeNeighbours[i], 1.0);
        out.set(Feature::aligned, std::max(0.0, axes[i].dot(axisSum[i]) / n));
    }
}

/// The lamp's part in the outlines: the same for all, but for how far one is drawn out its way.
void describeCastShadows(std::vector<Features>& features, const Scene& scene,
                         const std::vector<Candidate>& candidates) {
    const CastShadows cast = castShadowsOf(scene.field, candidates, scene.edge);
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        One out(features[i]);
        out.set(Feature::castStrength, std::hypot(cast.axis.x, cast.axis.y));
        out.set(Feature::castAlong, elongationOf(candidates[i].outline).dot(cast.axis));
        out.set(Feature::castSide, cast.side);
        out.set(Feature::castRing, cast.ring);
    }
}

} // namespace

const std::array<std::string_view, featureCount>& featureNames() {
    return namesInModels;
}

double blueShare(const CalibratedPhoto& photo, const WindowCrop& crop, const ContrastField& field,
                 const Candidate& candidate) {
    // Of 3000 true pieces in photos with known truth none reaches 0.05 in the mean; crumbs of
    // sealant lie at 0.17.
    constexpr double leastBlue = 0.08;
    const auto& linear = linearFromSrgb();
    const cv::Point middle = (candidate.box.tl() + candidate.box.br()) / 2;
    const cv::Vec3d white =
        photo.light.whiteAt(photo.card.mapping.cardFromPhoto(crop.inPhoto(middle)));
    double blue = 0.0;
    for (int y = 0; y < candidate.box.height; ++y)
        for (int x = 0; x < candidate.box.width; ++x) {
            if (candidate.mask.at<uchar>(y, x) == 0)
                continue;
            const auto& p = field.smooth.at<cv::Vec3b>(candidate.box.tl() + cv::Point(x, y));
            const double b = linear[p[0]] / white[0], g = linear[p[1]] / white[1],
                         r = linear[p[2]] / white[2];
            blue += b - r > leastBlue * (b + g + r) ? 1.0 : 0.0;
        }
    return blue / std::max(candidate.areaPx, 1.0);
}

std::vector<Features> featuresOf(const CalibratedPhoto& photo, const WindowCrop& crop,
                                 const ContrastField& field,
                                 const std::vector<Candidate>& candidates) {
    const Scene scene{photo, crop, field, photo.sharpness.edgeWidth.value()};
    std::vector<Features> features(candidates.size());
    std::vector<Shape> shapes(candidates.size());
    cv::parallel_for_(cv::Range(0, static_cast<int>(candidates.size())), [&](const cv::Range& r) {
        for (int i = r.start; i < r.end; ++i) {
            const auto at = static_cast<std::size_t>(i);
            const Candidate& c = candidates[at];
            shapes[at] = measureShape(std::span<const cv::Point2d>(c.outline));
            One out(features[at]);
            describeShape(out, c, shapes[at], scene.edge);
            describeLight(out, scene, c, shapes[at].centroid);
            const double mean = 255.0 * features[at][static_cast<std::size_t>(Feature::meanCodes)];
            describeRim(out, scene, c, mean);
        }
    });
    describeNeighbours(features, scene, candidates, shapes);
    describeCastShadows(features, scene, candidates);
    return features;
}

} // namespace swarfbook
