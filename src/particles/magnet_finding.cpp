// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/magnet_finding.h"

#include <array>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr std::array<std::string_view, 3> shapeNames{"ring", "disc", "block"};
constexpr std::array<std::string_view, 3> heightNames{"usual", "hole", "size"};

} // namespace

std::string_view heightFromName(HeightFrom from) {
    return heightNames.at(static_cast<std::size_t>(from));
}

HeightFrom heightFromOfName(std::string_view name) {
    for (std::size_t i = 0; i < heightNames.size(); ++i)
        if (heightNames[i] == name)
            return static_cast<HeightFrom>(i);
    throw std::invalid_argument("a magnet's height is not known from: " + std::string(name));
}

std::string_view magnetShapeName(MagnetShape shape) {
    return shapeNames.at(static_cast<std::size_t>(shape));
}

MagnetShape magnetShapeFromName(std::string_view name) {
    for (std::size_t i = 0; i < shapeNames.size(); ++i)
        if (shapeNames[i] == name)
            return static_cast<MagnetShape>(i);
    throw std::invalid_argument("unknown magnet shape: " + std::string(name));
}

} // namespace swarfbook
