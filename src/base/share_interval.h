// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>

namespace swarfbook {

/// 95 % limits of a share by Wilson's score, for `hits` of `trials` independent ones; both may be
/// fractions, as effective numbers are.
///
/// @param trials  over 0; `hits` from 0 to `trials`. Throws std::logic_error for others.
/// @return {lower, upper}, from 0 to 1.
/// Source: Wilson 1927, as method 3 of Newcombe, Statistics in Medicine 17 (1998) 857 (from
/// memory). Checked: tests/base/share_interval_test.cpp (Newcombe's table).
std::array<double, 2> shareInterval95(double hits, double trials);

} // namespace swarfbook
