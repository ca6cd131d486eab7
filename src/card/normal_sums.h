// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

namespace swarfbook {

/// Adds weight * row * row' to the upper half of the matrix of normal equations, which is
/// symmetric.
template <int n>
void addToUpperHalf(cv::Matx<double, n, n>& sum, const cv::Vec<double, n>& row, double weight) {
    for (int i = 0; i < n; ++i)
        for (int k = i; k < n; ++k)
            sum(i, k) += weight * (row[i] * row[k]);
}

/// Fills in the lower half.
template <int n> void mirrorUpperHalf(cv::Matx<double, n, n>& sum) {
    for (int i = 1; i < n; ++i)
        for (int k = 0; k < i; ++k)
            sum(i, k) = sum(k, i);
}

} // namespace swarfbook
