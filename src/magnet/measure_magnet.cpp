// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/measure_magnet.h"

#include "card/top_view.h"
#include "magnet/coat.h"
#include "magnet/face_height.h"
#include "magnet/find_magnet.h"
#include "magnet/height_from_size.h"
#include "magnet/mask_tools.h"
#include "magnet/no_magnet.h"
#include "magnet/outline_shape.h"
#include "magnet/rim.h"
#include "magnet/silhouette.h"
#include "magnet/slivers.h"
#include "magnet/within_sight.h"

#include <fmt/format.h>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr double coarsePxPerMm = 5.0, finestPxPerMm = 16.0;
constexpr double thickCoat = 3.0; // mm; a common scale in the trade, no source
// The strands' ends droop: by a fifth of the face's height in photos with truth.
constexpr double droop = 0.2;
constexpr double lyingOnCoat = 0.5; // of the mean overhang: how high slivers lie above the face

/// Everything worked out about one magnet, step by step.
struct Work {
    TopView view;
    Ground ground;
    Silhouette silhouette;
    Coat coat;
    CameraPlace camera;
    OutlineShape seen; ///< the coat's rim, as it appears on the card's plane
    RimDepth rim;
    std::optional<InnerRim> inner;
    FaceHeight height;
    HeightFrom heightFrom = HeightFrom::usual;

    [[nodiscard]] double tipHeight() const {
        return height.value * (1.0 - droop * (1.0 - rim.bareShare));
    }
    /// The coat's rim, moved to where it appears at the face's height.
    [[nodiscard]] OutlineShape seenAtFace() const {
        OutlineShape s = seen;
        s.centre = camera.seen(camera.settled(seen.centre, tipHeight()), height.value);
        return s;
    }
    /// The magnet's outline as it appears.
    [[nodiscard]] OutlineShape outlineSeen() const { return inset(seenAtFace(), rim.depth); }
};

void findRims(Work& w) {
    const CombingScene combing = combingSceneOf(w.view, w.silhouette, w.coat);
    w.rim = outerRimDepth(w.view, {w.silhouette, w.coat, combing}, w.seenAtFace());
    if (!w.seen.round() || cv::countNonZero(w.silhouette.hole) == 0)
        return;
    w.inner = innerRim(w.view, {w.silhouette, w.coat, combing}, w.outlineSeen());
    w.height = faceHeightOf(w.view, w.silhouette, w.camera, {w.outlineSeen(), *w.inner});
    w.heightFrom = HeightFrom::hole;
}

/// Sets height and rim by the typed size. If the photo contradicts that size, it changes nothing.
/// @return the caution; "" if the size was used.
std::string useSize(Work& w, Millimetres size) {
    constexpr double fitError = 0.1; // mm, of a diameter fitted to hundreds of points
    const OutlineShape seen = w.outlineSeen();
    const double longer = std::max(seen.width, seen.height);
    const auto known = heightFromSize(
        w.camera, {longer, std::hypot(fitError, 2.0 * w.rim.uncertainty)}, size.value(), w.height);
    if (!known)
        return fmt::format(
            "The magnet's size was said to be {:g} mm, and in the photo it is {:.0f} mm: the size "
            "was not used. Measure the magnet with callipers and correct what was typed, or check "
            "that the photo shows that magnet.",
            size.value(), longer / w.camera.stretch(w.height.value));
    w.rim.depth = std::max(0.0, w.rim.depth + (longer - known->rim.size) / 2.0);
    w.rim.uncertainty = std::min(w.rim.uncertainty, known->rim.uncertainty / 2.0);
    w.height = known->height;
    w.heightFrom = HeightFrom::size;
    return "";
}

std::vector<std::string> useWhatWasSaid(Work& w, const KnownMagnet& known, MagnetShape seen) {
    std::vector<std::string> cautions;
    if (known.shape && (*known.shape == MagnetShape::block) != (seen == MagnetShape::block))
        cautions.push_back(
            fmt::format("The magnet was said to be a {}, and the photo shows a {}: it is measured "
                        "as the photo shows it, and its size was not used. Correct what was typed, "
                        "or check that the photo shows that magnet.",
                        magnetShapeName(*known.shape), magnetShapeName(seen)));
    else if (known.size)
        cautions.push_back(useSize(w, *known.size));
    std::erase(cautions, "");
    return cautions;
}

MagnetShape shapeOf(const Work& w) {
    if (!w.outlineSeen().round())
        return MagnetShape::block;
    return w.inner ? MagnetShape::ring : MagnetShape::disc;
}

/// The magnet's face as it appears.
cv::Mat faceMask(const Work& w) {
    const auto filled = [&](cv::Mat& mask, const std::vector<cv::Point2d>& polygon, int value) {
        std::vector<cv::Point> points;
        for (const cv::Point2d& p : polygon)
            points.emplace_back(cvRound(w.view.inView(p).x), cvRound(w.view.inView(p).y));
        cv::fillPoly(mask, points, cv::Scalar::all(value));
    };
    cv::Mat face = cv::Mat::zeros(w.view.light.size(), CV_8U);
    const OutlineShape outline = w.outlineSeen();
    filled(face, polygonOf(outline, 0.1), 255);
    if (w.inner)
        filled(face, polygonOf(inset(outline, outline.width / 2.0 - w.inner->radius), 0.1), 0);
    return face;
}

std::vector<PointOnCard> asPolygon(const OutlineShape& shape) {
    std::vector<PointOnCard> polygon;
    for (const cv::Point2d& p : polygonOf(shape, 0.5))
        polygon.push_back({p.x, p.y});
    return polygon;
}

void describeShape(const Work& w, MagnetFinding& finding) {
    const OutlineShape outline = w.outlineSeen();
    const double stretch = w.camera.stretch(w.height.value);
    finding.outlines.push_back(asPolygon(outline));
    finding.shape = shapeOf(w);
    finding.height = MagnetHeight{{Millimetres(w.height.value), Millimetres(w.height.uncertainty)},
                                  w.heightFrom};
    if (finding.shape == MagnetShape::block) {
        finding.size = {Millimetres(std::max(outline.width, outline.height) / stretch),
                        Millimetres(std::min(outline.width, outline.height) / stretch)};
        return;
    }
    finding.size = {Millimetres(outline.width / stretch)};
    if (w.inner) {
        finding.size.emplace_back(2.0 * w.inner->radius / stretch);
        finding.outlines.push_back(
            asPolygon(inset(outline, outline.width / 2.0 - w.inner->radius)));
    }
}

Overhang overhangAt(const Work& w, double tipHeight) {
    OverhangScene scene;
    scene.camera = w.camera;
    scene.faceHeight = w.height.value;
    scene.tipHeight = tipHeight;
    scene.outline =
        enlarged(w.outlineSeen(), w.camera.foot, 1.0 / w.camera.stretch(w.height.value));
    return overhangOf(w.view, w.silhouette, w.ground, scene);
}

/// Standard uncertainty of the overhang, mm: how much its mean changes if the rim lies deeper, the
/// face higher, or the strands' ends as high as the face, each by as much as is likely.
double overhangUncertainty(const Work& w, double mean) {
    constexpr double outlineError = 0.05; // mm, of the coat's own outline in a sharp photo; ours
    Work deeper = w, higher = w;
    deeper.rim.depth += w.rim.uncertainty;
    higher.height.value += w.height.uncertainty;
    const double rim = overhangAt(deeper, deeper.tipHeight()).mean - mean;
    const double face = overhangAt(higher, higher.tipHeight()).mean - mean;
    const double ends = overhangAt(w, w.height.value).mean - mean;
    return std::sqrt(rim * rim + face * face + ends * ends + outlineError * outlineError);
}

void measureCoat(const Work& w, MagnetFinding& finding) {
    const CoveredShare covered = coveredShareOf(w.view, w.coat, w.silhouette, faceMask(w));
    finding.coveredShare = {Share(covered.value), Share(covered.uncertainty)};
    const Overhang overhang = overhangAt(w, w.tipHeight());
    finding.overhangUncertainty = Millimetres(overhangUncertainty(w, overhang.mean));
    finding.overhangMean = Millimetres(overhang.mean);
    finding.overhangP95 = Millimetres(overhang.p95);
    finding.overhangMax = Millimetres(overhang.most);
    finding.outlineLost = !w.rim.known || overhang.mean > thickCoat;
}

/// Magnet with hole, fuzz and deep shadow in the crop's pixels.
cv::Mat regionOf(const Work& w, const CalibratedPhoto& photo, const WindowCrop& crop) {
    constexpr double rim = 1.0, deepShadow = 0.5;
    const cv::Mat body = masks::grown(w.silhouette.tips, w.view.px(rim));
    const cv::Mat shadow = masks::closed(w.view.light < deepShadow, w.view.px(0.3));
    const cv::Mat region = masks::piecesWith(body | shadow, body) & w.ground.allowed;
    std::vector<std::vector<cv::Point>> edges;
    cv::findContours(region, edges, cv::RETR_CCOMP, cv::CHAIN_APPROX_SIMPLE);
    for (auto& edge : edges)
        for (cv::Point& p : edge) {
            const cv::Point2d mm = w.view.onCard(p);
            const PointInPhoto at = photo.photoFromTrue({mm.x, mm.y});
            p = {cvRound(at.u) - crop.origin.x, cvRound(at.v) - crop.origin.y};
        }
    cv::Mat mask = cv::Mat::zeros(crop.bgr.size(), CV_8U);
    if (!edges.empty())
        cv::fillPoly(mask, edges, cv::Scalar::all(255));
    return mask;
}

/// Window of the card and a rim of 3.5 mm, true mm.
cv::Rect2d windowOf(const CalibratedPhoto& photo, double rim) {
    const CardRect& r = photo.card.layout.window;
    const double s = photo.printScale.value;
    return {r.x * s - rim, r.y * s - rim, r.width * s + 2.0 * rim, r.height * s + 2.0 * rim};
}

std::optional<bool> saidRound(const KnownMagnet& known) {
    return known.shape ? std::optional(*known.shape != MagnetShape::block) : std::nullopt;
}

/// Fits the outline to the coat's rim. The arc within the window shows a round one that overlaps
/// the window's edge; what shows of it beyond the line may end there. False where too little shows.
bool fitRim(Work& w, std::optional<bool> round) {
    constexpr std::size_t fewest = 12;
    const auto all =
        rimPoints(w.view, w.silhouette, masks::shrunk(w.ground.allowed, w.view.px(0.4)));
    if (all.size() < fewest)
        return false;
    w.seen = fitOutline(all, round).shape;
    const auto within = rimPoints(w.view, w.silhouette, w.ground.inWindow);
    if (within.size() == all.size() || within.size() < fewest)
        return true;
    if (const OutlineShape arc = fitOutline(within, round).shape; arc.round())
        w.seen = arc;
    return true;
}

} // namespace

MagnetSearch measureMagnet(const CalibratedPhoto& photo, const WindowCrop& crop,
                           const KnownMagnet& known) {
    if (crop.bgr.empty())
        throw std::logic_error("a magnet cannot be sought in an empty crop");
    const cv::Rect2d window = windowOf(photo, 0.0);
    const TopView coarse = viewFromAbove(photo, windowOf(photo, 3.5), coarsePxPerMm);
    const auto area = findDarkObject(coarse, groundOf(coarse, window));
    if (!area)
        return nothingThere();
    Work w;
    w.view = viewFromAbove(photo, *area, std::min(finestPxPerMm, photo.trueScale().value()));
    w.ground = groundOf(w.view, window);
    auto magnet = findMagnet(w.view, w.ground);
    if (!magnet)
        return nothingThere();
    w.silhouette = std::move(magnet->silhouette);
    w.coat = std::move(magnet->coat);
    w.camera = cameraPlaceOf(photo);
    if (!fitRim(w, saidRound(known)))
        return outOfSight();
    findRims(w);
    if (reachesOut(w.view, w.ground, w.silhouette, w.outlineSeen()))
        return outOfSight();

    MagnetReading reading;
    reading.cautions = useWhatWasSaid(w, known, shapeOf(w));
    describeShape(w, reading.finding);
    measureCoat(w, reading.finding);
    SliverScene scene;
    scene.coat = masks::shrunk(w.silhouette.body, w.view.px(0.4));
    scene.face = masks::shrunk(faceMask(w), w.view.px(0.3));
    scene.bare = faceMask(w) & ~w.coat.fuzz;
    scene.bareLevel = w.coat.bareLevel;
    scene.camera = w.camera;
    scene.above = w.height.value + lyingOnCoat * reading.finding.overhangMean.value();
    auto slivers = sliversOf(w.view, scene, seenFromOf(photo.sharpness, photo.trueScale()));
    reading.finding.sliversTold = slivers.has_value();
    if (slivers)
        reading.finding.slivers = std::move(*slivers);
    reading.region = regionOf(w, photo, crop);
    reading.outlineReach = {Millimetres(w.rim.depth), Millimetres(w.rim.uncertainty)};
    return reading;
}

} // namespace swarfbook
