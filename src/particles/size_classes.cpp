// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/size_classes.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr double openEnd = std::numeric_limits<double>::infinity();

constexpr std::array<SizeClass, 13> classes{{
    {"B", Micrometres(5), Micrometres(15)},
    {"C", Micrometres(15), Micrometres(25)},
    {"D", Micrometres(25), Micrometres(50)},
    {"E", Micrometres(50), Micrometres(100)},
    {"F", Micrometres(100), Micrometres(150)},
    {"G", Micrometres(150), Micrometres(200)},
    {"H", Micrometres(200), Micrometres(400)},
    {"I", Micrometres(400), Micrometres(600)},
    {"J", Micrometres(600), Micrometres(1000)},
    {"K", Micrometres(1000), Micrometres(1500)},
    {"L", Micrometres(1500), Micrometres(2000)},
    {"M", Micrometres(2000), Micrometres(3000)},
    {"N", Micrometres(3000), Micrometres(openEnd)},
}};

/// Upper counts of levels 0, 1, 2, ... 24 (ISO 16232).
constexpr std::array<double, 25> levelLimits{1,     2,     4,   8,   16,  32,   64,   130,  250,
                                             500,   1e3,   2e3, 4e3, 8e3, 16e3, 32e3, 64e3, 130e3,
                                             250e3, 500e3, 1e6, 2e6, 4e6, 8e6,  16e6};

template <class Count>
std::string joinedCode(char kind, const std::vector<CodeEntry>& entries, const Count& countText) {
    if (entries.empty())
        return {};
    std::string inside;
    for (const CodeEntry& entry : entries)
        inside += (inside.empty() ? "" : "/") + entry.sizeClass + countText(entry.count);
    return fmt::format("{}({})", kind, inside);
}

} // namespace

std::span<const SizeClass> sizeClasses() {
    return classes;
}

std::string sizeClassOf(Micrometres maxFeret) {
    for (const SizeClass& c : classes)
        if (maxFeret >= c.from && maxFeret < c.to)
            return std::string(c.letter);
    return {};
}

std::string levelNumber(double countPer1000Cm2) {
    if (!(countPer1000Cm2 >= 0.0))
        throw std::logic_error("a level number needs a count of zero or more");
    if (countPer1000Cm2 == 0.0)
        return "00";
    for (std::size_t level = 0; level < levelLimits.size(); ++level)
        if (countPer1000Cm2 <= levelLimits[level])
            return std::to_string(level);
    return ">24";
}

std::string codePerArea(const std::vector<CodeEntry>& entries, SquareCentimetres area) {
    if (!(area.value() > 0.0))
        throw std::logic_error("a cleanliness code per area needs a positive area");
    return joinedCode('A', entries,
                      [&](double count) { return levelNumber(count * 1000.0 / area.value()); });
}

std::string codePerComponent(const std::vector<CodeEntry>& entries) {
    return joinedCode('N', entries, [](double count) { return fmt::format("{:.0f}", count); });
}

} // namespace swarfbook
