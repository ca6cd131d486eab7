// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/second_light.h"

#include "card/smooth_map.h"
#include "debris/detection_limit.h"
#include "photo/linear_light.h"

#include <fmt/format.h>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double mostTurned = 6.0;   // degrees between the two lines of sight: what stands 0.4 mm
                                     // high is then seen 0.04 mm beside its place
constexpr double leastAlike = 0.4;   // correlation of the two piece maps
constexpr double tooFew = 0.5;       // mm2 of pieces that a correlation can be asked of
constexpr double byLampAlone = 0.25; // mm: a torch on the other side moves the correlation by 0.12
constexpr double mostShift = 1.0;    // mm
constexpr double clearlyBetter = 0.05; // of the correlation
constexpr double coarsePxPerMm = 8.0;
constexpr double leastAnswer = 0.01; // held between this and 1 less this
constexpr double mostShown = 0.5;    // of a piece, by the second photo
constexpr double matteChange = 0.3, perChange = 10.0, mostByChange = 3.0;

double oddsOf(double p) {
    p = std::clamp(p, leastAnswer, 1.0 - leastAnswer);
    return std::log(p / (1.0 - p));
}

/// Degrees between the lines from the middle of the window to the two cameras.
double turnedBy(const CalibratedPhoto& first, const CalibratedPhoto& second) {
    const auto sight = [](const CalibratedPhoto& photo) {
        const CardRect& w = photo.card.layout.window;
        const CameraStand stand = cameraOver(photo.card.mapping);
        return cv::normalize(cv::Vec3d(stand.foot.x - w.x - w.width / 2.0,
                                       stand.foot.y - w.y - w.height / 2.0, stand.height.value()));
    };
    return std::acos(std::clamp(sight(first).dot(sight(second)), -1.0, 1.0)) * 180.0 / CV_PI;
}

/// Where each pixel of a picture of the first crop lies in the second one's crop.
struct Places {
    cv::Mat full; ///< CV_32FC2, of the crop's size
    cv::Mat half; ///< the same for maps of half its size
};

Places placesOf(const SurfacePhoto& first, const SurfacePhoto& second, PointOnCard shift) {
    const WindowCrop &crop = first.window.crop, &from = second.window.crop;
    const auto place = [&](cv::Point2d px) {
        PointOnCard at = first.photo.trueFromPhoto(crop.inPhoto(px));
        at = {at.x + shift.x, at.y + shift.y};
        const PointInPhoto p = second.photo.photoFromTrue(at);
        return cv::Point2d(p.u - from.origin.x, p.v - from.origin.y);
    };
    const auto asFloats = [](cv::Point2d p) {
        return cv::Vec2f(static_cast<float>(p.x), static_cast<float>(p.y));
    };
    const cv::Size size = crop.bgr.size();
    return {
        smoothMap<cv::Vec2f>(size, [&](cv::Point2d px) { return asFloats(place(px)); }),
        smoothMap<cv::Vec2f>({(size.width + 1) / 2, (size.height + 1) / 2}, [&](cv::Point2d px) {
            const cv::Point2d p = place(2.0 * px + cv::Point2d(0.5, 0.5));
            return asFloats((p - cv::Point2d(0.5, 0.5)) * 0.5);
        })};
}

cv::Mat seenAt(const cv::Mat& picture, const cv::Mat& places, int how = cv::INTER_LINEAR) {
    cv::Mat out;
    cv::remap(picture, out, places, {}, how, cv::BORDER_CONSTANT, cv::Scalar(0));
    return out;
}

PieceMaps mapsAt(const PieceMaps& maps, const Places& places) {
    PieceMaps out{seenAt(maps.piece, places.full), seenAt(maps.seam, places.full), {}};
    for (std::size_t type = 0; type < maps.types.size(); ++type)
        out.types[type] = seenAt(maps.types[type], places.half);
    return out;
}

/// A piece map in few pixels, to be compared.
cv::Mat coarseMap(const cv::Mat& piece, double pxPerMm) {
    cv::Mat small, out;
    const double by = std::min(1.0, coarsePxPerMm / pxPerMm);
    cv::resize(piece, small, {}, by, by, cv::INTER_AREA);
    small.convertTo(out, CV_32F, 1.0 / 255.0);
    return out;
}

double alikeness(const cv::Mat& one, const cv::Mat& other) {
    const double both = std::sqrt(one.dot(one) * other.dot(other));
    return both > 0.0 ? one.dot(other) / both : 0.0;
}

bool showsHardlyAny(const cv::Mat& coarsePieces, double pxPerMm) {
    const double scale = std::min(pxPerMm, coarsePxPerMm);
    return cv::sum(coarsePieces)[0] < tooFew * scale * scale;
}

/// The mean of two maps where the second is known, else the first.
cv::Mat meanWhere(const cv::Mat& known, const cv::Mat& first, const cv::Mat& second) {
    cv::Mat mean = first.clone(), both;
    cv::addWeighted(first, 0.5, second, 0.5, 0.0, both);
    both.copyTo(mean, known);
    return mean;
}

PieceMaps mapsTogether(const PieceMaps& first, const PieceMaps& second, const cv::Mat& known) {
    PieceMaps out;
    out.piece = first.piece.clone();
    togetherOf(first.piece, second.piece).copyTo(out.piece, known);
    out.seam = meanWhere(known, first.seam, second.seam);
    cv::Mat half;
    cv::resize(known, half, first.types[0].size(), 0, 0, cv::INTER_NEAREST);
    for (std::size_t type = 0; type < out.types.size(); ++type)
        out.types[type] = meanWhere(half, first.types[type], second.types[type]);
    return out;
}

/// The shift of the scene that the maps show beyond what a lamp does; none where it fits no better.
PointOnCard shiftOf(const SurfacePhoto& first, const SurfacePhoto& second, const PieceMaps& one,
                    const PieceMaps& other) {
    const double pxPerMm = first.window.crop.pxPerMm;
    const cv::Mat seen = coarseMap(one.piece, pxPerMm);
    const cv::Mat unmoved = seenAt(other.piece, placesOf(first, second, {}).full);
    const cv::Mat there = coarseMap(unmoved, pxPerMm);
    if (showsHardlyAny(seen, pxPerMm) || showsHardlyAny(there, pxPerMm))
        return {};
    cv::Mat window;
    const cv::Point2d px =
        cv::phaseCorrelate(seen, there, window) * (1.0 / std::min(pxPerMm, coarsePxPerMm));
    const double length = std::hypot(px.x, px.y);
    if (length < byLampAlone || length > mostShift)
        return {};
    // Pixels of the crop to true millimetres: the phone may be held any way round.
    const WindowCrop& crop = first.window.crop;
    const cv::Point2d middle(crop.bgr.cols / 2.0, crop.bgr.rows / 2.0);
    const PointOnCard from = first.photo.trueFromPhoto(crop.inPhoto(middle)),
                      to = first.photo.trueFromPhoto(crop.inPhoto(middle + px * pxPerMm));
    const PointOnCard shift{to.x - from.x, to.y - from.y};
    const cv::Mat moved =
        coarseMap(seenAt(other.piece, placesOf(first, second, shift).full), pxPerMm);
    return alikeness(seen, moved) > alikeness(seen, there) + clearlyBetter ? shift : PointOnCard{};
}

SecondLightMisfit heldOtherwise(double degrees) {
    return {fmt::format("The phone was held {:.0f} degrees otherwise than for the first photo.",
                        degrees),
            "Keep phone and card where they are, move the lamp alone to the other side, and take "
            "the second photo again."};
}

SecondLightMisfit otherScene(double likeness) {
    return {fmt::format("It does not show the pieces of the first photo where they lie (likeness "
                        "{:.2f} of 1).",
                        likeness),
            "Give a photo of the same debris, nothing touched, the lamp alone moved to the other "
            "side."};
}

/// Linear light over the card's white, the channels' mean as luma, of a pixel within a piece.
class LightOf {
  public:
    LightOf(const CalibratedPhoto& photo, const WindowCrop& crop, const cv::Rect& box) {
        const cv::Point middle = (box.tl() + box.br()) / 2;
        white_ = photo.light.whiteAt(photo.card.mapping.cardFromPhoto(crop.inPhoto(middle)));
        cv::GaussianBlur(crop.bgr(box), smooth_, {3, 3}, 0.7);
    }
    [[nodiscard]] double at(int y, int x) const {
        const auto& linear = linearFromSrgb();
        const auto& p = smooth_.at<cv::Vec3b>(y, x);
        return (linear[p[0]] / white_[0] + 2.0 * linear[p[1]] / white_[1] +
                linear[p[2]] / white_[2]) /
               4.0;
    }

  private:
    cv::Vec3d white_;
    cv::Mat smooth_;
};

/// Mean change of a piece's light where both photos show it; nothing where that is under half.
std::optional<double> changeOf(const JudgedWindow& first, const SecondLight& second,
                               const Candidate& piece) {
    const LightOf one(first.photo, first.crop, piece.box),
        other(second.photo, second.crop, piece.box);
    double change = 0.0;
    int pixels = 0, shown = 0;
    for (int y = 0; y < piece.box.height; ++y)
        for (int x = 0; x < piece.box.width; ++x) {
            if (piece.mask.at<uchar>(y, x) == 0)
                continue;
            ++pixels;
            if (second.crop.inside.at<uchar>(y + piece.box.y, x + piece.box.x) == 0)
                continue;
            ++shown;
            change += std::abs(one.at(y, x) - other.at(y, x));
        }
    if (shown == 0 || shown < mostShown * pixels)
        return std::nullopt;
    return change / shown;
}

TypeInTwoLights typeOf(const TypeLogShares& first, const TypeLogShares& second, double change,
                       const PieceTrust& trust) {
    TypeInTwoLights out;
    PieceOpinion one, other;
    trust.decideType(first, one);
    trust.decideType(second, other);
    out.said = {one.type, other.type, one.typeProbability, other.typeProbability, change};
    const double metal = std::clamp(perChange * (change - matteChange), 0.0, mostByChange);
    for (std::size_t type = 0; type < out.logShares.size(); ++type) {
        const auto which = static_cast<ParticleType>(type);
        const bool metallic =
            which == ParticleType::brightMetal || which == ParticleType::yellowMetal;
        out.logShares[type] = (first[type] + second[type]) / 2.0 + (metallic ? metal : 0.0);
    }
    return out;
}

} // namespace

cv::Mat togetherOf(const cv::Mat& first, const cv::Mat& second) {
    static const auto table = [] {
        std::vector<uchar> codes(256 * 256);
        for (std::size_t a = 0; a < 256; ++a)
            for (std::size_t b = 0; b < 256; ++b) {
                const double sum =
                    oddsOf(static_cast<double>(a) / 255.0) + oddsOf(static_cast<double>(b) / 255.0);
                codes[256 * a + b] =
                    a == b ? static_cast<uchar>(a)
                           : cv::saturate_cast<uchar>(255.0 / (1.0 + std::exp(-sum / 2.0)));
            }
        return codes;
    }();
    cv::Mat out(first.size(), CV_8U);
    for (int y = 0; y < out.rows; ++y) {
        const auto *a = first.ptr<uchar>(y), *b = second.ptr<uchar>(y);
        auto* to = out.ptr<uchar>(y);
        for (int x = 0; x < out.cols; ++x)
            to[x] = table[256 * static_cast<std::size_t>(a[x]) + b[x]];
    }
    return out;
}

std::variant<SecondLight, SecondLightMisfit>
laySecondLight(const SurfacePhoto& first, const SurfacePhoto& second, const PieceNetwork& network) {
    if (const double degrees = turnedBy(first.photo, second.photo); degrees > mostTurned)
        return heldOtherwise(degrees);
    SecondLight out{first.photo, first.window.crop, {}, {}, {}, 1.0, {}};
    out.first = network.judge(first.photo, first.window.crop);
    const PieceMaps own = network.judge(second.photo, second.window.crop);
    out.shift = shiftOf(first, second, out.first, own);
    const Places places = placesOf(first, second, out.shift);
    out.second = mapsAt(own, places);
    const double pxPerMm = out.crop.pxPerMm;
    const cv::Mat one = coarseMap(out.first.piece, pxPerMm),
                  other = coarseMap(out.second.piece, pxPerMm);
    if (!showsHardlyAny(one, pxPerMm) || !showsHardlyAny(other, pxPerMm)) {
        out.likeness = alikeness(one, other);
        if (out.likeness < leastAlike)
            return otherScene(out.likeness);
    }
    out.photo.light = second.photo.light;
    out.photo.sharpness = second.photo.sharpness;
    out.crop.bgr = seenAt(second.window.crop.bgr, places.full, cv::INTER_CUBIC);
    cv::Mat inside;
    cv::bitwise_and(seenAt(second.window.crop.inside, places.full, cv::INTER_NEAREST),
                    first.window.crop.inside, inside);
    out.crop.inside = inside;
    out.together = mapsTogether(out.first, out.second, inside);
    return out;
}

std::vector<std::optional<TypeInTwoLights>> typesInTwoLights(const JudgedWindow& first,
                                                             const SecondLight& second,
                                                             const PieceTrust& trust,
                                                             const std::vector<Candidate>& pieces) {
    const auto one =
        featuresOf({first.photo, first.crop, second.first, first.surfaceNoise}, pieces);
    const auto other =
        featuresOf({second.photo, second.crop, second.second, surfaceNoise(second.crop)}, pieces);
    std::vector<std::optional<TypeInTwoLights>> out(pieces.size());
    for (std::size_t i = 0; i < pieces.size(); ++i)
        if (const auto change = changeOf(first, second, pieces[i]))
            out[i] =
                typeOf(trust.typeLogShares(one[i]), trust.typeLogShares(other[i]), *change, trust);
    return out;
}

} // namespace swarfbook
