// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>

namespace swarfbook {

/// Writes features by name into their array; copies write into the same one.
template <class Which, std::size_t count> class FeatureWriter {
  public:
    explicit FeatureWriter(std::array<float, count>& features) : features_(features) {}
    void set(Which which, double value) {
        features_[static_cast<std::size_t>(which)] = static_cast<float>(value);
    }

  private:
    std::array<float, count>& features_;
};

} // namespace swarfbook
