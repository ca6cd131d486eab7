// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/height_from_size.h"

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double lowestFace = 1.0, highestFace = 12.0; // mm
constexpr double heightStep = 0.02;
constexpr double typedError = 0.25; // mm, standard: read to half a millimetre, and coats of paint
constexpr double farOff = 3.0;      // standard uncertainties

} // namespace

std::optional<HeightFromSize> heightFromSize(const CameraPlace& camera, const RimSeen& seen,
                                             double trueSize, const FaceHeight& before) {
    const double error = std::hypot(seen.uncertainty, typedError);
    const double narrowest = trueSize * camera.stretch(lowestFace);
    const double widest = trueSize * camera.stretch(highestFace);
    if (seen.size < narrowest - farOff * error || seen.size > widest + farOff * error)
        return std::nullopt;
    double weights = 0.0, mean = 0.0, square = 0.0;
    for (double height = lowestFace; height <= highestFace; height += heightStep) {
        const double bySize = (trueSize * camera.stretch(height) - seen.size) / error;
        const double byBefore = (height - before.value) / before.uncertainty;
        const double weight = std::exp(-0.5 * (bySize * bySize + byBefore * byBefore));
        weights += weight;
        mean += weight * height;
        square += weight * height * height;
    }
    if (weights <= 0.0)
        return std::nullopt;
    mean /= weights;
    HeightFromSize known;
    known.height = {mean, std::sqrt(std::max(0.0, square / weights - mean * mean))};
    known.rim.size = trueSize * camera.stretch(mean);
    const double perMillimetre = known.rim.size / (camera.height - mean);
    known.rim.uncertainty = std::hypot(typedError, perMillimetre * known.height.uncertainty);
    return known;
}

} // namespace swarfbook
