// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cstdint>
#include <stdexcept>
#include <string>

/// Values of a measurement document, each checked as it is read: std::invalid_argument, or the JSON
/// library's own exception, if one is missing or impossible.
/// Checked: tests/assess/measurement_json_test.cpp.
namespace swarfbook::document {

// Far beyond anything measured in a photo; a document from elsewhere may hold anything.
inline constexpr double largestNumber = 1e12;
inline constexpr std::int64_t largestCount = 1'000'000'000;

inline double checkedNumber(const nlohmann::json& value, double least = -largestNumber,
                            double most = largestNumber) {
    const auto x = value.get<double>();
    if (!(x >= least && x <= most))
        throw std::invalid_argument(fmt::format("the number {} cannot be there", x));
    return x;
}

inline double number(const nlohmann::json& from, const char* key) {
    return checkedNumber(from.at(key));
}

/// A size, a count or their uncertainty: not below 0.
inline double amount(const nlohmann::json& from, const char* key) {
    return checkedNumber(from.at(key), 0.0);
}

/// A probability or a share.
inline double share(const nlohmann::json& value) {
    return checkedNumber(value, 0.0, 1.0);
}

inline int whole(const nlohmann::json& value) {
    if (!value.is_number_integer() || value.get<std::int64_t>() < -1 ||
        value.get<std::int64_t>() > largestCount)
        throw std::invalid_argument(fmt::format("{} is no count", value.dump()));
    return value.get<int>();
}

template <class Unit>
Measured<Unit> measured(const nlohmann::json& from, const char* key, const char* uKey) {
    return {Unit(amount(from, key)), Unit(amount(from, uKey))};
}

inline std::string textOrEmpty(const nlohmann::json& from, const char* key) {
    const nlohmann::json& value = from.at(key);
    return value.is_null() ? std::string() : value.get<std::string>();
}

} // namespace swarfbook::document
