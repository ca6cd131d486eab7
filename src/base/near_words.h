// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// Those of `known` that someone who typed `typed` may have meant, nearest first, at most three:
/// a few letters differ (Levenshtein distance, case ignored), or one contains the other.
/// Checked: tests/base/near_words_test.cpp.
std::vector<std::string> nearWords(std::string_view typed, const std::vector<std::string>& known);

/// "Did you mean codes, cooler?"; "" where none is near.
std::string didYouMean(std::string_view typed, const std::vector<std::string>& known);

} // namespace swarfbook
