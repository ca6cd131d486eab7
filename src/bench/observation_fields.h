// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/after_repair_fields.h"
#include "bench/bench_fields.h"
#include "bench/debris_fields.h"
#include "bench/drive_fields.h"
#include "bench/solenoid_fields.h"

#include <algorithm>
#include <string>
#include <tuple>
#include <unordered_map>
#include <vector>

/// The fields of each observation, each described once (field.h). Storing, reading back, adding up
/// several readings of one part, typing, help, work sheet and describing are derived from it.
namespace swarfbook::fields {

/// Calls use(field) for every field of T.
template <class T, class Use> void forEach(Use&& use) {
    std::apply([&](const auto&... each) { (use(each), ...); }, Of<T>::all);
}

inline bool isGiven(const std::string& text) {
    return !text.empty();
}
inline bool isGiven(bool flag) {
    return flag;
}
template <class T> bool isGiven(const std::optional<T>& value) {
    return value.has_value();
}
template <class T> bool isGiven(const std::vector<T>& values) {
    return !values.empty();
}
/// Words such as "not-said" and "not-tested" mean that nothing was given.
constexpr bool saysNothingGiven(std::string_view word) {
    return word == "not-said" || word == "not-tested" || word == "not-compared" ||
           word == "not-swapped" || word == "not-looked" || word == "not-known";
}
template <HasNames Enum> constexpr bool hasNothing(Enum value) {
    return saysNothingGiven(wordOf(value));
}
template <HasNames Enum> bool isGiven(Enum value) {
    return !hasNothing(value);
}

/// Values of the later reading replace those of `into`; values that it leaves out stay.
template <class T> void addLater(T& into, const T& later) {
    forEach<T>([&](const auto& f) {
        if (isGiven(later.*f.member))
            into.*f.member = later.*f.member;
    });
}

/// Joins the readings of each name in the order they were taken; names keep the order first seen.
template <class T> std::vector<T> mergedByName(const std::vector<T>& readings) {
    std::vector<T> merged;
    std::unordered_map<std::string, std::size_t> places;
    for (const T& reading : readings) {
        const auto [at, isNew] = places.try_emplace(reading.name, merged.size());
        if (isNew)
            merged.push_back(reading);
        else
            addLater(merged[at->second], reading);
    }
    return merged;
}

} // namespace swarfbook::fields
