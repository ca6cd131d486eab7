// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/look_model.h"

#include "base/errors.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <numeric>

namespace swarfbook {
namespace {

using nlohmann::json;

void checkFeatures(const json& written) {
    const auto& own = featureNames();
    const auto theirs = written.get<std::vector<std::string>>();
    if (!std::equal(own.begin(), own.end(), theirs.begin(), theirs.end()))
        throw std::runtime_error("its features are not those of this program");
}

std::vector<double> affine(const std::vector<double>& weights, const std::vector<double>& bias,
                           const std::vector<double>& in) {
    std::vector<double> out = bias;
    for (std::size_t i = 0; i < out.size(); ++i)
        out[i] = std::inner_product(in.begin(), in.end(),
                                    weights.begin() + static_cast<std::ptrdiff_t>(i * in.size()),
                                    out[i]);
    return out;
}

std::vector<double> standardised(const Features& features, const std::vector<double>& mean,
                                 const std::vector<double>& scale) {
    std::vector<double> in(features.size());
    for (std::size_t i = 0; i < in.size(); ++i) {
        const double f = std::isfinite(features[i]) ? features[i] : 0.0;
        in[i] = (std::clamp(f, -20.0, 20.0) - mean[i]) / scale[i];
    }
    return in;
}

void softmax(std::vector<double>& v) {
    const double top = *std::max_element(v.begin(), v.end());
    for (double& x : v)
        x = std::exp(x - top);
    const double sum = std::accumulate(v.begin(), v.end(), 0.0);
    for (double& x : v)
        x /= sum;
}

} // namespace

LookModel LookModel::load(const std::filesystem::path& file) {
    std::ifstream in(file);
    if (!in)
        throw ToolError(fmt::format("The look model {} cannot be read. Install swarfbook again, or "
                                    "point SWARFBOOK_DATA at its data folder.",
                                    file.string()));
    try {
        const json document = json::parse(in);
        if (document.at("format") != "swarfbook look model 1")
            throw std::runtime_error("it is of another format");
        checkFeatures(document.at("features"));
        LookModel model;
        document.at("mean").get_to(model.mean_);
        document.at("scale").get_to(model.scale_);
        document.at("hidden").at("weights").get_to(model.hiddenWeights_);
        document.at("hidden").at("bias").get_to(model.hiddenBias_);
        document.at("output").at("weights").get_to(model.outputWeights_);
        document.at("output").at("bias").get_to(model.outputBias_);
        for (const auto& name : document.at("classes").get<std::vector<std::string>>())
            model.lookOfClass_.push_back(name == "none" ? -1
                                                        : static_cast<int>(lookFromName(name)));
        model.debrisThreshold_ = document.at("debris_probability");
        model.lookThreshold_ = document.at("look_probability");
        const json& size = document.at("size");
        size.at("mean").get_to(model.sizeMean_);
        size.at("scale").get_to(model.sizeScale_);
        size.at("weights").get_to(model.sizeWeights_);
        size.at("bias").get_to(model.sizeBias_);
        size.at("spread_weights").get_to(model.spreadWeights_);
        size.at("spread_bias").get_to(model.spreadBias_);
        size.at("spread_factor").get_to(model.spreadFactor_);
        const std::size_t units = model.hiddenBias_.size();
        const auto features = static_cast<std::size_t>(featureCount);
        if (model.mean_.size() != features || model.scale_.size() != features ||
            model.hiddenWeights_.size() != units * features || model.sizeMean_.size() != features ||
            model.sizeScale_.size() != features || model.sizeWeights_.size() != features ||
            model.spreadWeights_.size() != features ||
            model.outputBias_.size() != model.lookOfClass_.size() ||
            model.outputWeights_.size() != model.outputBias_.size() * units)
            throw std::runtime_error("its numbers do not fit together");
        return model;
    } catch (const std::exception& wrong) {
        throw ToolError(
            fmt::format("The look model {} is damaged: {}.", file.string(), wrong.what()));
    }
}

SizeCorrection LookModel::sizeCorrection(const Features& features) const {
    const auto in = standardised(features, sizeMean_, sizeScale_);
    const double log = std::inner_product(in.begin(), in.end(), sizeWeights_.begin(), sizeBias_);
    const double spread =
        std::inner_product(in.begin(), in.end(), spreadWeights_.begin(), spreadBias_);
    return {std::exp(std::clamp(log, -0.2, 0.2)),
            spreadFactor_ * std::clamp(std::exp(spread), 0.02, 0.5)};
}

LookOpinion LookModel::judge(const Features& features) const {
    const auto in = standardised(features, mean_, scale_);
    std::vector<double> hidden = affine(hiddenWeights_, hiddenBias_, in);
    for (double& h : hidden)
        h = std::max(0.0, h);
    std::vector<double> out = affine(outputWeights_, outputBias_, hidden);
    softmax(out);
    LookOpinion opinion;
    double best = 0.0;
    for (std::size_t i = 0; i < out.size(); ++i) {
        if (lookOfClass_[i] < 0)
            continue;
        opinion.debris += out[i];
        if (out[i] > best) {
            best = out[i];
            opinion.look = static_cast<Look>(lookOfClass_[i]);
        }
    }
    opinion.debris = std::min(opinion.debris, 1.0); // rounding
    opinion.lookProbability = opinion.debris > 0.0 ? best / opinion.debris : 0.0;
    if (opinion.lookProbability < lookThreshold_)
        opinion.look = Look::undecided;
    return opinion;
}

} // namespace swarfbook
