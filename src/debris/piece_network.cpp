// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/piece_network.h"

#include "base/errors.h"
#include "debris/light_against_white.h"
#include "debris/piece_shares.h"

#include <fmt/format.h>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <stdexcept>
#include <utility>
#include <vector>

namespace swarfbook {
namespace {

constexpr int shownPlanes = 3; // blue, green, red
// Experiment: 8 photos of all kinds of surface, asked for at once and in parts. With 48 px round
// each part 0.15 % of a piece's pixels cross one half and no piece comes or goes, with 32 px 0.7 %.
constexpr int context = 48;        // px seen round what is asked for
constexpr double learntEdge = 1.8; // px, of the photos the network was made from
constexpr double widestLearnt = 2.7;
constexpr int mostThreads = 8;

/// A part of the view that is asked for at once, px of the crop as the view shows it.
using Tile = cv::Rect;

/// What of a photo is asked for.
struct Question {
    NetworkView view;  ///< with the context round the crop, as far as the photo has it
    cv::Point crop;    ///< where the crop begins in the view
    cv::Size cropSize; ///< in the view's pixels
};

Question questionOf(const CalibratedPhoto& photo, const WindowCrop& crop) {
    const double edge = photo.sharpness.edgeWidth.value();
    const double reduced = edge > widestLearnt ? learntEdge / edge : 1.0;
    const int around = static_cast<int>(std::ceil(context / reduced));
    const cv::Rect inPhoto(crop.origin, crop.bgr.size());
    const cv::Rect seen = cv::Rect(inPhoto.x - around, inPhoto.y - around,
                                   inPhoto.width + 2 * around, inPhoto.height + 2 * around) &
                          cv::Rect({0, 0}, photo.bgr.size());
    const auto scaled = [reduced](int px) {
        return std::max(1, static_cast<int>(std::lround(px * reduced)));
    };
    Question asked;
    asked.view = {photo.bgr(seen), cv::Point2d(seen.x - 0.5, seen.y - 0.5), reduced};
    asked.crop = {static_cast<int>(std::lround((inPhoto.x - seen.x) * reduced)),
                  static_cast<int>(std::lround((inPhoto.y - seen.y) * reduced))};
    asked.cropSize = {scaled(inPhoto.width), scaled(inPhoto.height)};
    if (reduced < 1.0) {
        cv::Mat small;
        cv::resize(asked.view.bgr, small, {scaled(seen.width), scaled(seen.height)}, 0, 0,
                   cv::INTER_AREA);
        asked.view.bgr = small;
    }
    return asked;
}

/// The least multiple of `grain` that is not less.
int upTo(int grain, int n) {
    return (n + grain - 1) / grain * grain;
}

/// px of a sheet: the larger, the less is seen twice; a photo of 48 megapixels leaves less memory.
int mostAtOnce(std::size_t pixelsOfPhoto) {
    constexpr std::size_t largePhoto = 24'000'000;
    return pixelsOfPhoto > largePhoto ? 1 << 19 : 1 << 20;
}

/// How large the parts are that a window is asked for in: as little as can be is seen twice, and
/// two threads have as many parts each.
cv::Size partOf(cv::Size whole, int most, int grain) {
    constexpr int mostParts = 64; // a side
    cv::Size best;
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    for (int down = 1; down <= mostParts; ++down)
        for (int across = 1; across <= mostParts; ++across) {
            const cv::Size part(upTo(grain, (whole.width + across - 1) / across),
                                upTo(grain, (whole.height + down - 1) / down));
            const std::int64_t sheet =
                std::int64_t{part.width + 2 * context} * (part.height + 2 * context);
            const int inTurn = (across * down + 1) / 2;
            if (sheet <= most && inTurn * sheet < least) {
                least = inTurn * sheet;
                best = part;
            }
        }
    return best;
}

/// The parts of the window of which anything is measured.
std::vector<Tile> tilesOf(const cv::Mat& inside, cv::Size part) {
    std::vector<Tile> tiles;
    for (int y = 0; y < inside.rows; y += part.height)
        for (int x = 0; x < inside.cols; x += part.width) {
            const Tile tile = cv::Rect({x, y}, part) & cv::Rect({0, 0}, inside.size());
            if (cv::countNonZero(inside(tile)) > 0)
                tiles.push_back(tile);
        }
    return tiles;
}

/// Mirrors what the runner is shown, left to right.
void mirror(ConvolutionRunner& runner, cv::Size sheet) {
    float* row = runner.input();
    for (int i = 0; i < shownPlanes * sheet.height; ++i, row += sheet.width)
        std::reverse(row, row + sheet.width);
}

/// Whether anything in the tile may be a piece: what is less sure than this is never outlined.
bool showsAny(const cv::Mat& piece, const Tile& tile) {
    constexpr double leastShown = 38.0; // of 255
    double most = 0.0;
    cv::minMaxLoc(piece(tile), nullptr, &most);
    return most >= leastShown;
}

/// Shows the runner a tile with what lies around it.
void show(ConvolutionRunner& runner, const Tile& tile, cv::Size sheet,
          std::pair<const Question&, const LightAgainstWhite&> what) {
    const auto& [asked, light] = what;
    const cv::Rect wanted(asked.crop.x + tile.x - context, asked.crop.y + tile.y - context,
                          sheet.width, sheet.height);
    const cv::Rect there = wanted & cv::Rect({0, 0}, asked.view.bgr.size());
    if (there != wanted)
        std::fill_n(runner.input(), shownPlanes * sheet.area(), 0.0F);
    light.write(there, {runner.input(), sheet, there.tl() - wanted.tl()});
}

PieceMaps emptyMaps(cv::Size size) {
    PieceMaps maps{cv::Mat::zeros(size, CV_8U), cv::Mat::zeros(size, CV_8U), {}};
    for (cv::Mat& type : maps.types)
        type = cv::Mat::zeros((size.height + 1) / 2, (size.width + 1) / 2, CV_8U);
    return maps;
}

/// Brings maps to the crop's own size and takes out what is not inside.
void fitToCrop(PieceMaps& maps, const WindowCrop& crop) {
    const auto grow = [](cv::Mat& map, cv::Size size) {
        if (map.size() != size)
            cv::resize(map, map, size, 0, 0, cv::INTER_LINEAR);
    };
    const cv::Size size = crop.bgr.size();
    grow(maps.piece, size);
    grow(maps.seam, size);
    for (cv::Mat& type : maps.types)
        grow(type, {(size.width + 1) / 2, (size.height + 1) / 2});
    cv::bitwise_and(maps.piece, crop.inside, maps.piece);
    cv::bitwise_and(maps.seam, crop.inside, maps.seam);
}

} // namespace

struct PieceNetwork::Parts {
    ConvolutionNetwork network;
    ConvolutionRunner::How how;

    /// Asks for all tiles, as many at once as there are threads, on sheets of one size. A tile
    /// that shows anything is shown mirrored as well: the mean of both answers is truer.
    void answer(const std::vector<Tile>& tiles, cv::Size sheet,
                std::pair<const Question&, const LightAgainstWhite&> what, PieceMaps& maps) const {
        std::atomic<std::size_t> next = 0;
        const auto work = [&](const cv::Range&) {
            std::optional<ConvolutionRunner> runner;
            for (std::size_t at = next++; at < tiles.size(); at = next++) {
                if (!runner)
                    runner.emplace(network, sheet, how);
                show(*runner, tiles[at], sheet, what);
                writeShares(runner->run(), {sheet.width, context}, tiles[at], maps);
                if (!showsAny(maps.piece, tiles[at]))
                    continue;
                show(*runner, tiles[at], sheet, what);
                mirror(*runner, sheet);
                addMirroredShares(runner->run(), {sheet.width, context}, tiles[at], maps);
            }
        };
        const int threads = std::clamp(cv::getNumThreads(), 1, mostThreads);
        cv::parallel_for_(cv::Range(0, threads), work, threads);
    }
};

PieceNetwork::PieceNetwork(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
PieceNetwork::PieceNetwork(PieceNetwork&&) noexcept = default;
PieceNetwork& PieceNetwork::operator=(PieceNetwork&&) noexcept = default;
PieceNetwork::~PieceNetwork() = default;

PieceNetwork PieceNetwork::load(const std::filesystem::path& file, Precision precision) {
    auto own = std::make_unique<Parts>();
    std::error_code unreadable;
    if (!std::filesystem::is_regular_file(file, unreadable))
        throw ToolError(fmt::format("The piece network {} is missing.", file.string()));
    try {
        own->network = ConvolutionNetwork::read(file, shownPlanes);
        own->how.precision = precision;
        const auto& answer = own->network.answer();
        const int coarsest = own->network.coarsestCell();
        if (answer.channels != answerChannels || answer.cell != 2 || context % coarsest != 0)
            throw std::runtime_error("it answers in another shape");
        // Shows that it can be run, and readies the library while the photo is still being read.
        const ConvolutionRunner trial(own->network, {4 * coarsest, 4 * coarsest}, own->how);
    } catch (const std::exception& wrong) {
        throw ToolError(
            fmt::format("The piece network {} is damaged: {}.", file.string(), wrong.what()));
    }
    return PieceNetwork(std::move(own));
}

PieceMaps PieceNetwork::judge(const CalibratedPhoto& photo, const WindowCrop& crop) const {
    const Question asked = questionOf(photo, crop);
    const LightAgainstWhite light(photo, asked.view);
    PieceMaps maps = emptyMaps(asked.cropSize);
    const cv::Size part =
        partOf(asked.cropSize, mostAtOnce(photo.bgr.total()), parts_->network.coarsestCell());
    cv::Mat inside = crop.inside;
    if (inside.size() != asked.cropSize)
        cv::resize(crop.inside, inside, asked.cropSize, 0, 0, cv::INTER_AREA);
    const cv::Size sheet(part.width + 2 * context, part.height + 2 * context);
    parts_->answer(tilesOf(inside, part), sheet, {asked, light}, maps);
    fitToCrop(maps, crop);
    return maps;
}

} // namespace swarfbook
