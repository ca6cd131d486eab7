// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/layers.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace swarfbook {
namespace {

std::vector<double> affine(const Layers::Layer& layer, const std::vector<double>& in) {
    std::vector<double> out = layer.bias;
    for (std::size_t i = 0; i < out.size(); ++i)
        out[i] = std::inner_product(
            in.begin(), in.end(),
            layer.weights.begin() + static_cast<std::ptrdiff_t>(i * in.size()), out[i]);
    return out;
}

} // namespace

Layers::Layers(std::vector<double> mean, std::vector<double> scale, std::vector<Layer> layers)
    : mean_(std::move(mean)), scale_(std::move(scale)), layers_(std::move(layers)) {}

std::vector<double> Layers::standardised(std::span<const float> features) const {
    std::vector<double> in(features.size());
    for (std::size_t i = 0; i < in.size(); ++i) {
        const double f = std::isfinite(features[i]) ? features[i] : 0.0;
        in[i] = (std::clamp(f, -20.0, 20.0) - mean_[i]) / scale_[i];
    }
    return in;
}

std::vector<double> Layers::answer(std::span<const float> features) const {
    std::vector<double> values = standardised(features);
    for (std::size_t i = 0; i < layers_.size(); ++i) {
        values = affine(layers_[i], values);
        if (i + 1 < layers_.size())
            for (double& v : values)
                v = std::max(0.0, v);
    }
    return values;
}

bool Layers::fits(std::size_t features, std::size_t answers) const {
    std::size_t inputs = features;
    for (const Layer& layer : layers_) {
        if (layer.weights.size() != inputs * layer.bias.size())
            return false;
        inputs = layer.bias.size();
    }
    return !layers_.empty() && mean_.size() == features && scale_.size() == features &&
           inputs == answers;
}

Layers::Layer layerFrom(const nlohmann::json& written) {
    return {written.at("weights").get<std::vector<double>>(),
            written.at("bias").get<std::vector<double>>()};
}

} // namespace swarfbook
