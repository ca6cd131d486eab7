// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <span>
#include <string_view>
#include <vector>

namespace swarfbook {

/// A small network of fully connected layers from standardised features to answers; all layers but
/// the last are rectified. Checked: tests/debris/piece_trust_test.cpp.
class DenseNetwork {
  public:
    /// One layer: answers x inputs weights, row by row.
    struct Layer {
        std::vector<double> weights, bias;
    };
    DenseNetwork() = default;
    /// @param mean, scale  of every feature
    DenseNetwork(std::vector<double> mean, std::vector<double> scale, std::vector<Layer> layers);

    /// Features as the layers see them: cut off at +-20, less their mean, over their scale; NaN
    /// counts as 0.
    [[nodiscard]] std::vector<double> standardised(std::span<const float> features) const;
    [[nodiscard]] std::vector<double> answer(std::span<const float> features) const;
    [[nodiscard]] bool empty() const { return layers_.empty(); }
    /// Whether it is complete for this number of features and answers.
    [[nodiscard]] bool fits(std::size_t features, std::size_t answers) const;

  private:
    std::vector<double> mean_, scale_;
    std::vector<Layer> layers_; ///< weights column by column
};

/// Reads {"mean": [...], "scale": [...], "layers": [{"weights": [...], "bias": [...]}, ...]},
/// weights row by row. Throws nlohmann's exceptions, and std::runtime_error if the numbers do not
/// fit this number of features and answers.
DenseNetwork networkFrom(const nlohmann::json& written, std::size_t features, std::size_t answers);

/// Reads a probability. Throws std::runtime_error where it is not between 0 and 1.
double probabilityFrom(const nlohmann::json& written);

/// Throws std::runtime_error unless a model's "features" are these, in this order.
void checkFeatures(const nlohmann::json& document, std::span<const std::string_view> own);

} // namespace swarfbook
