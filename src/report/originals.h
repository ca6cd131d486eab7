// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book.h"

#include <opencv2/core.hpp>

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>

namespace swarfbook {

/// A photo as kept in the book.
struct Original {
    cv::Mat bgr;     ///< upright; empty when its file is gone, damaged or can no longer be decoded
    std::string why; ///< then, in words for a customer; the book says which file it is
};

/// The original photos of one report, each read and decoded once as long as those read before take
/// little room. Checked: tests/cli/read_once_test.cpp.
class Originals {
  public:
    explicit Originals(const Book& book) : book_(book) {}
    Original of(const StoredPhoto& photo);

  private:
    [[nodiscard]] Original read(const StoredPhoto& photo) const;

    const Book& book_;
    std::map<std::string, Original> held_; ///< by SHA-256
    std::size_t heldBytes_ = 0;
};

/// The original of a photo of work of a visit; as Originals gives it, but not held.
Original originalOf(const Book& book, const WorkPhoto& photo, std::int64_t visitId);

} // namespace swarfbook
