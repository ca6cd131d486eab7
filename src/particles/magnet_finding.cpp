// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/magnet_finding.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr std::array<std::string_view, 3> shapeNames{"ring", "disc", "block"};
constexpr std::array<std::string_view, 3> heightNames{"usual", "hole", "size"};

template <class Enum> Enum fromName(const auto& names, std::string_view name, const char* refusal) {
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end())
        throw std::invalid_argument(refusal + std::string(name));
    return static_cast<Enum>(found - names.begin());
}

} // namespace

std::string_view heightFromName(HeightFrom from) {
    return heightNames.at(static_cast<std::size_t>(from));
}

HeightFrom heightFromOfName(std::string_view name) {
    return fromName<HeightFrom>(heightNames, name, "a magnet's height is not known from: ");
}

std::string_view magnetShapeName(MagnetShape shape) {
    return shapeNames.at(static_cast<std::size_t>(shape));
}

MagnetShape magnetShapeFromName(std::string_view name) {
    return fromName<MagnetShape>(shapeNames, name, "unknown magnet shape: ");
}

} // namespace swarfbook
