// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>

namespace swarfbook {

/// Exact (Garwood) two-sided 95 % limits of a Poisson mean for a count seen.
///
/// @param count  0 or more.
/// @return {lower, upper}; the lower limit of a zero count is 0.
/// Source: lower = chi2(0.025; 2k) / 2, upper = chi2(0.975; 2k + 2) / 2 (Garwood 1936).
/// Checked: tests/base/poisson_test.cpp (published table).
std::array<double, 2> poissonInterval95(long count);

} // namespace swarfbook
