// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/driven.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

Asked compareLoad(Load one, Load other) {
    if (one == Load::notSaid || other == Load::notSaid)
        return Asked::notSaid;
    return one >= other ? Asked::asMuch : Asked::less;
}

Asked compareWarmth(Warmth one, Warmth other) {
    if (one == Warmth::notSaid || other == Warmth::notSaid)
        return Asked::notSaid;
    return one == other || one == Warmth::both || other == Warmth::both ? Asked::asMuch
                                                                        : Asked::less;
}

} // namespace

Driven drivenOf(const Complaint& felt, const WarmthLimits& limits) {
    Driven driven{felt.load, felt.warmth};
    if (driven.warmth == Warmth::notSaid && felt.temperature) {
        if (felt.temperature->value < limits.coldBelow)
            driven.warmth = Warmth::cold;
        else if (felt.temperature->value >= limits.hotFrom)
            driven.warmth = Warmth::hot;
    }
    return driven;
}

Asked compare(const Driven& one, const Driven& other) {
    return std::max(compareLoad(one.load, other.load), compareWarmth(one.warmth, other.warmth));
}

std::string inWords(const Driven& driven) {
    std::string words;
    if (driven.load != Load::notSaid)
        words = fmt::format("{} load", wordOf(driven.load));
    if (driven.warmth != Warmth::notSaid)
        words +=
            fmt::format("{}{}", words.empty() ? "" : ", ",
                        driven.warmth == Warmth::both ? "cold and hot" : wordOf(driven.warmth));
    return words;
}

} // namespace swarfbook
