// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <chrono>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

/// Wall clock times for the benchmarks, seconds.
namespace swarfbook::test {

template <class Work> double secondsOnce(const Work& work) {
    const auto start = std::chrono::steady_clock::now();
    const auto sinceStart = [&] {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    };
    if constexpr (std::is_void_v<std::invoke_result_t<Work>>) {
        work();
        return sinceStart();
    } else {
        [[maybe_unused]] const auto result = work(); // kept alive until the clock has stopped
        return sinceStart();
    }
}

inline double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

template <class Work> double secondsOf(const Work& work, int repeats) {
    std::vector<double> seconds;
    for (int i = 0; i < repeats; ++i)
        seconds.push_back(secondsOnce(work));
    return median(std::move(seconds));
}

/// Medians of two works in turns, so that a busy machine slows both alike.
template <class One, class Other>
std::pair<double, double> secondsOfBoth(const One& one, const Other& other, int repeats) {
    std::vector<double> ones, others;
    for (int i = 0; i < repeats; ++i) {
        ones.push_back(secondsOnce(one));
        others.push_back(secondsOnce(other));
    }
    return {median(std::move(ones)), median(std::move(others))};
}

} // namespace swarfbook::test
