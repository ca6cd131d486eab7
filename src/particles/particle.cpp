// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/particle.h"

#include <array>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr std::array<std::string_view, particleTypeCount> typeWords{
    "bright metal", "yellow metal", "lining", "plastic", "fibre", "unidentified"};
constexpr std::array<std::string_view, 6> placeNames{"pan",  "magnet", "filter",
                                                     "tray", "pad",    "strained"};

template <class Enum, std::size_t n>
Enum fromName(const std::array<std::string_view, n>& names, std::string_view name,
              const char* what) {
    for (std::size_t i = 0; i < n; ++i)
        if (names[i] == name)
            return static_cast<Enum>(i);
    throw std::invalid_argument(std::string("unknown ") + what + ": " + std::string(name));
}

} // namespace

std::string_view typeWord(ParticleType type) {
    return typeWords.at(static_cast<std::size_t>(type));
}
ParticleType typeFromWord(std::string_view word) {
    return fromName<ParticleType>(typeWords, word, "type");
}
std::string_view earlierTypeWord(ParticleType type) {
    return type == ParticleType::plastic        ? "polymer"
           : type == ParticleType::unidentified ? "undecided"
                                                : typeWord(type);
}
std::string_view placeName(Place place) {
    return placeNames.at(static_cast<std::size_t>(place));
}
Place placeFromName(std::string_view name) {
    return fromName<Place>(placeNames, name, "place");
}
std::string_view placeWord(Place place) {
    return place == Place::pad ? "white card" : placeName(place);
}

} // namespace swarfbook
