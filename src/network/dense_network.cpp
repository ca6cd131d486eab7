// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "network/dense_network.h"

#include <nlohmann/json.hpp>
#include <opencv2/core/hal/intrin.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>

namespace swarfbook {
namespace {

/// The weights input by input, so that all answers of a layer are summed side by side.
void turn(DenseNetwork::Layer& layer) {
    const std::size_t answers = layer.bias.size();
    if (answers == 0 || layer.weights.size() % answers != 0)
        return; // does not fit; DenseNetwork::fits will report it
    const std::size_t inputs = layer.weights.size() / answers;
    std::vector<double> turned(layer.weights.size());
    for (std::size_t i = 0; i < answers; ++i)
        for (std::size_t j = 0; j < inputs; ++j)
            turned[j * answers + i] = layer.weights[i * inputs + j];
    layer.weights = std::move(turned);
}

/// Adds a value's share to each answer; two at a time, each summed as it would be alone.
void addShares(std::vector<double>& sums, double value, const double* weights) {
    std::size_t i = 0;
#if CV_SIMD128_64F
    const auto twice = cv::v_setall_f64(value);
    for (; i + 2 <= sums.size(); i += 2)
        cv::v_store(&sums[i], cv::v_load(&sums[i]) + twice * cv::v_load(weights + i));
#endif
    for (; i < sums.size(); ++i)
        sums[i] += value * weights[i];
}

std::vector<double> affine(const DenseNetwork::Layer& layer, const std::vector<double>& in) {
    std::vector<double> out = layer.bias;
    const double* weights = layer.weights.data();
    for (const double value : in) {
        if (value != 0.0) // as most are once rectified
            addShares(out, value, weights);
        weights += out.size();
    }
    return out;
}

} // namespace

DenseNetwork::DenseNetwork(std::vector<double> mean, std::vector<double> scale,
                           std::vector<Layer> layers)
    : mean_(std::move(mean)), scale_(std::move(scale)), layers_(std::move(layers)) {
    std::for_each(layers_.begin(), layers_.end(), turn);
}

std::vector<double> DenseNetwork::standardised(std::span<const float> features) const {
    std::vector<double> in(features.size());
    for (std::size_t i = 0; i < in.size(); ++i) {
        const double f = std::isfinite(features[i]) ? features[i] : 0.0;
        in[i] = (std::clamp(f, -20.0, 20.0) - mean_[i]) / scale_[i];
    }
    return in;
}

std::vector<double> DenseNetwork::answer(std::span<const float> features) const {
    std::vector<double> values = standardised(features);
    for (std::size_t i = 0; i < layers_.size(); ++i) {
        values = affine(layers_[i], values);
        if (i + 1 < layers_.size())
            for (double& v : values)
                v = std::max(0.0, v);
    }
    return values;
}

bool DenseNetwork::fits(std::size_t features, std::size_t answers) const {
    std::size_t inputs = features;
    for (const Layer& layer : layers_) {
        if (layer.weights.size() != inputs * layer.bias.size())
            return false;
        inputs = layer.bias.size();
    }
    return !layers_.empty() && mean_.size() == features && scale_.size() == features &&
           inputs == answers;
}

DenseNetwork networkFrom(const nlohmann::json& written, std::size_t features, std::size_t answers) {
    std::vector<DenseNetwork::Layer> layers;
    for (const nlohmann::json& layer : written.at("layers"))
        layers.push_back({layer.at("weights").get<std::vector<double>>(),
                          layer.at("bias").get<std::vector<double>>()});
    DenseNetwork read(written.at("mean").get<std::vector<double>>(),
                      written.at("scale").get<std::vector<double>>(), std::move(layers));
    if (!read.fits(features, answers))
        throw std::runtime_error("its numbers do not fit together");
    return read;
}

double probabilityFrom(const nlohmann::json& written) {
    const double probability = written;
    if (!(probability > 0.0 && probability < 1.0))
        throw std::runtime_error("a probability in it is not between 0 and 1");
    return probability;
}

void checkFeatures(const nlohmann::json& document, std::span<const std::string_view> own) {
    const auto theirs = document.at("features").get<std::vector<std::string>>();
    if (!std::equal(own.begin(), own.end(), theirs.begin(), theirs.end()))
        throw std::runtime_error("its features are not those of this program");
}

} // namespace swarfbook
