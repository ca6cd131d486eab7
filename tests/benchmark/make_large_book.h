// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>

namespace swarfbook::test {

/// How large the book is.
struct LargeBook {
    int vehicles = 10'000; ///< of which most were entered once
    int vehiclesWithHistory = 3000;
    int visitsEach = 4;  ///< of those with a history
    int photos = 50'000; ///< spread over the visits of those with a history

    [[nodiscard]] int visits() const { return vehiclesWithHistory * visitsEach; }
};

/// Makes a book in `folder`: vehicles, visits with observations, one in twenty with an outcome, and
/// the entries of photos of some thirty pieces each, without the photo files.
void makeLargeBook(const std::filesystem::path& folder, const LargeBook& size);

} // namespace swarfbook::test
