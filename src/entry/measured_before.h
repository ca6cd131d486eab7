// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "entry/measure_for_book.h"
#include "record/finding_options.h"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>

namespace swarfbook {

/// The book's photos of cleaned places, after magnets and in a second light, each read when it is
/// first asked for.
class KeptSecondPhotos {
  public:
    explicit KeptSecondPhotos(const Book& book) : book_(book) {}

    /// Null where none was given. PhotoLost when the book has it no longer, or changed.
    std::shared_ptr<const PhotoFile>
    photo(const std::optional<FindingOptions::SecondPhoto>& second);

  private:
    const Book& book_;
    std::map<std::pair<std::string, std::string>, std::shared_ptr<const PhotoFile>> photos_;
};

/// How a photo of the book was measured, as kept with its finding; its place is where it is now.
/// Checked: tests/cli/after_magnet_test.cpp.
HowMeasured howMeasuredBefore(KeptSecondPhotos& seconds, const StoredPhoto& photo);

} // namespace swarfbook
