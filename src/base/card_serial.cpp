// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/card_serial.h"

#include <random>

namespace swarfbook {
namespace {

// No vowels, so that they form no word, and none of 0 O 1 I L 2 Z 5 S 8, which are misread.
constexpr std::string_view signs = "BCDFGHJKMNPQRTVWXY34679";
constexpr std::size_t length = 7, dash = 3;

} // namespace

std::string newCardSerial() {
    std::random_device chance;
    std::uniform_int_distribution<std::size_t> any(0, signs.size() - 1);
    std::string serial(length, '-');
    for (std::size_t i = 0; i < length; ++i)
        if (i != dash)
            serial[i] = signs[any(chance)];
    return serial;
}

bool isCodedSerial(std::string_view serial) {
    if (serial.size() != length)
        return false;
    for (std::size_t i = 0; i < length; ++i)
        if (i == dash ? serial[i] != '-' : signs.find(serial[i]) == std::string_view::npos)
            return false;
    return true;
}

} // namespace swarfbook
