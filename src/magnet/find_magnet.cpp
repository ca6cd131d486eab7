// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/find_magnet.h"

#include "magnet/bare_outline.h"
#include "magnet/cast_shadow.h"

#include <opencv2/core.hpp>

#include <utility>

namespace swarfbook {
namespace {

/// The silhouette; where it is a clump or two of a face that is bare otherwise, that of face and
/// clumps. `bare` is the outline by the bare rim.
std::optional<Silhouette> wholeSilhouette(const TopView& view, const Ground& ground,
                                          const std::optional<OutlineShape>& bare) {
    constexpr double wholeMagnet = 0.8; // of the area
    std::optional<Silhouette> found = silhouetteOf(view, ground);
    if (!found)
        return found;
    const cv::Mat face =
        bare ? silhouetteWithin(view, *bare).body : faceBetweenClumps(view, ground);
    if (!face.empty() && cv::countNonZero(found->body) < wholeMagnet * cv::countNonZero(face))
        found = silhouetteOf(view, ground, face);
    return found ? std::optional(withoutCastShadow(view, std::move(*found))) : found;
}

} // namespace

std::optional<FoundMagnet> findMagnet(const TopView& view, const Ground& ground) {
    constexpr double allButBare = 0.1; // share of the silhouette under fuzz
    const std::optional<OutlineShape> bare = bareOutlineOf(view, ground);
    if (auto whole = wholeSilhouette(view, ground, bare)) {
        Coat coat = coatOf(view, *whole);
        if (!bare || cv::countNonZero(coat.fuzz) > allButBare * cv::countNonZero(whole->body))
            return FoundMagnet{std::move(*whole), std::move(coat)};
    }
    if (!bare)
        return std::nullopt;
    Silhouette within = silhouetteWithin(view, *bare);
    Coat coat = coatOf(view, within);
    return FoundMagnet{std::move(within), std::move(coat)};
}

} // namespace swarfbook
