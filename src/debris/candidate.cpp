// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/candidate.h"

#include "debris/cast_shadows.h"
#include "debris/connected_parts.h"
#include "debris/cut_model.h"
#include "debris/enter_large_pieces.h"
#include "debris/fill_holes.h"
#include "debris/level_contour.h"
#include "debris/outline_field.h"
#include "debris/piece_parts.h"
#include "debris/threads.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <tuple>
#include <utility>

namespace swarfbook {
namespace {

constexpr float lowSigmas = 3.2F, lowCodes = 6.0F;
constexpr float highSigmas = 6.0F, highCodes = 12.0F;
constexpr int smallestPx = 4;
constexpr int surroundingsPx = 8; // around a place: the model's sight reaches as far

constexpr float lowerLevel = 0.57F,
                higherLevel = 1.7F; // of that level, for how the size changes with it
constexpr int rim = partRim;
constexpr int fewestPoints = 6; // of an outline
constexpr int mostCuts = 4;     // one after the other, through what was one outline
constexpr double evens = 0.5;   // likelier two pieces than one

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
void outlineIt(Candidate& c, cv::Mat field, const cv::Mat& others, bool keepAll) {
    const ConnectedParts parts(nearMask(c.mask, rim - 1, others) & (field > 0.0F), 1);
    const auto largest = std::max_element(
        parts.begin(), parts.end(), [](const auto& a, const auto& b) { return a.area < b.area; });
    if (largest == parts.end())
        return;
    constexpr double mostlyLost = 0.6; // light that breaks a thread in pieces: the map joins it
    if (!keepAll && largest->area > mostlyLost * cv::countNonZero(c.mask))
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

/// A mask of one box as another box of the crop sees it; nothing beyond its own.
cv::Mat movedTo(const cv::Rect& to, const cv::Mat& mask, const cv::Rect& from) {
    cv::Mat moved(to.size(), CV_8U, cv::Scalar(0));
    const cv::Rect both = to & from;
    mask(both - from.tl()).copyTo(moved(both - to.tl()));
    return moved;
}

/// What a candidate is cut by.
struct CutBy {
    const CutModel& model;
    const CastShadows& cast;
};

/// Outlines parts of one window's piece map.
class Outliner {
  public:
    Outliner(const WindowCrop& crop, const ContrastField& field, const PieceMap& map,
             Pixels edgeWidth)
        : crop_(crop), field_(field),
          map_(map), scale_{edgeWidth.value(),
                            std::max(2, static_cast<int>(std::lround(1.3 * edgeWidth.value())))} {}

    [[nodiscard]] std::vector<PiecePart> parts() const {
        return piecePartsOf(crop_, field_, map_, scale_);
    }

    [[nodiscard]] Candidate outlined(const PiecePart& part) const {
        Candidate c;
        c.box = part.box;
        c.mask = part.mask.clone();
        c.mayBeSeveral = part.hasSeam;
        cv::Mat piece;
        map_.piece(c.box).convertTo(piece, CV_32F, 1.0 / 255.0);
        const cv::Mat contrast = field_.contrast(c.box);
        const cv::Point middle = (c.box.tl() + c.box.br()) / 2;
        c.noise = field_.noiseAt(middle.x, middle.y);
        c.certainty = cv::mean(piece, c.mask)[0];
        const cv::Mat others = othersBeside(part, piece);
        const cv::Mat near = nearMask(c.mask, rim, others);
        const auto longestAt = [&](float level) { return longestSide(near & (piece > level)); };
        const double longest = std::max(1.0, longestSide(c.mask));
        c.growth = longestAt(lowerLevel * part.level) / longest;
        c.shrink = longestAt(higherLevel * part.level) / longest;
        outlineIt(c,
                  part.light.empty()
                      ? outlineField(field_, {c.box, piece, part.level, scale_.reach})
                      : part.light,
                  others, isThread(c.mask, scale_.edge));
        c.areaPx = cv::countNonZero(c.mask);
        cv::minMaxLoc(contrast, nullptr, &c.peak, nullptr, nullptr, c.mask);
        const float least = std::max(lowCodes, lowSigmas * static_cast<float>(c.noise));
        c.likeSurface = cv::countNonZero((contrast < least) & c.mask) / std::max(1.0, c.areaPx);
        c.atEdge = touchesBorder(c, crop_.inside);
        return c;
    }

    /// What is left of a candidate's outline once it was cut where the model is sure enough.
    [[nodiscard]] std::vector<Candidate> cutUp(const Candidate& c, const PiecePart& part,
                                               const CutBy& by, int cutsLeft = mostCuts) const {
        if (cutsLeft == 0)
            return {c};
        const CutTask task{c.outline, c.box, c.mask};
        CutOpinion best;
        Cut where;
        for (const Cut& cut : likelyCuts(task, {field_, map_, by.cast, scale_.edge})) {
            const CutOpinion opinion = by.model.judge(cut.features);
            if (opinion.parts > best.parts) {
                best = opinion;
                where = cut;
            }
        }
        if (best.parts < by.model.threshold()) {
            Candidate uncut = c;
            uncut.mayBeSeveral |= best.parts > evens && best.outcome == CutOutcome::betweenPieces;
            return {uncut};
        }
        cv::Mat small = sideOf(where, task), large = c.mask & ~small;
        if (cv::countNonZero(small) > cv::countNonZero(large))
            std::swap(small, large);
        std::vector<Candidate> left;
        for (const auto& [own, other, isNone] :
             {std::tuple{large, small, best.outcome == CutOutcome::largeIsNone},
              std::tuple{small, large, best.outcome == CutOutcome::smallIsNone}}) {
            if (isNone && !isThread(own, scale_.edge))
                continue;
            const PiecePart side = sideAsPart(part, c.box, own, other);
            const Candidate one = outlined(side);
            if (one.outline.size() < fewestPoints)
                continue;
            for (Candidate& piece : cutUp(one, side, by, cutsLeft - 1))
                left.push_back(std::move(piece));
        }
        return left.empty() ? std::vector<Candidate>{c} : left; // no piece is lost by a cut
    }

  private:
    /// One side of a cut, in a box of its own.
    [[nodiscard]] PiecePart sideAsPart(const PiecePart& whole, const cv::Rect& box,
                                       const cv::Mat& own, const cv::Mat& other) const {
        const cv::Rect within = withRim(cv::boundingRect(own) + box.tl(), field_.contrast.size());
        cv::Mat beside = movedTo(within, other, box);
        if (!whole.beside.empty())
            beside |= movedTo(within, whole.beside, whole.box);
        return {within, movedTo(within, own, box), whole.level, false, beside};
    }

    const WindowCrop& crop_;
    const ContrastField& field_;
    const PieceMap& map_;
    OutlineScale scale_;
};

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
                                    const PieceMap& map, const CutSettings& cuts) {
    const Outliner outliner(crop, field, map, cuts.edgeWidth);
    const std::vector<PiecePart> parts = outliner.parts();
    const cv::Range each(0, static_cast<int>(parts.size()));
    std::vector<Candidate> whole(parts.size());
    cv::parallel_for_(each, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i)
            whole[static_cast<std::size_t>(i)] =
                outliner.outlined(parts[static_cast<std::size_t>(i)]);
    });
    const CastShadows cast = castShadowsOf(field, whole, cuts.edgeWidth.value());
    std::vector<std::vector<Candidate>> pieces(parts.size());
    cv::parallel_for_(each, [&](const cv::Range& range) {
        for (int i = range.start; i < range.end; ++i) {
            const auto at = static_cast<std::size_t>(i);
            if (whole[at].outline.size() >= fewestPoints)
                pieces[at] = outliner.cutUp(whole[at], parts[at], {cuts.model, cast});
        }
    });
    std::vector<Candidate> all;
    for (auto& own : pieces)
        std::move(own.begin(), own.end(), std::back_inserter(all));
    return all;
}

PieceMap pieceMapOf(const WindowCrop& crop, const ContrastField& field, const PieceModel& model,
                    Pixels edgeWidth) {
    PieceMap map = model.judge(crop, field, placesWorthALook(field), edgeWidth);
    enterLargePieces(map, crop, field);
    enterThreads(map, crop, field, edgeWidth.value());
    return map;
}

std::vector<Candidate> findCandidates(const WindowCrop& crop, const ContrastField& field,
                                      const OutlineModels& models, Pixels edgeWidth) {
    const PieceMap map = pieceMapOf(crop, field, models.pieces, edgeWidth);
    return candidatesOf(crop, field, map, {models.cuts, edgeWidth});
}

} // namespace swarfbook
