// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/look_model.h"

#include "base/data_file.h"
#include "debris/debris_share.h"

#include <opencv2/core/utility.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace swarfbook {
namespace {

using nlohmann::json;

Layers layersFrom(const json& written) {
    return {written.at("mean").get<std::vector<double>>(),
            written.at("scale").get<std::vector<double>>(),
            {layerFrom(written.at("hidden")), layerFrom(written.at("output"))}};
}

void softmax(std::vector<double>& v) {
    const double top = *std::max_element(v.begin(), v.end());
    for (double& x : v)
        x = std::exp(x - top);
    const double sum = std::accumulate(v.begin(), v.end(), 0.0);
    for (double& x : v)
        x /= sum;
}

/// How probable the most probable look is, given that it is debris; from the answers, whose
/// probabilities may all be too small to divide.
double mostProbableAmong(const std::vector<double>& answers, const std::vector<int>& lookOfClass) {
    std::vector<double> looks;
    for (std::size_t i = 0; i < answers.size(); ++i)
        if (lookOfClass[i] >= 0)
            looks.push_back(answers[i]);
    softmax(looks);
    return *std::max_element(looks.begin(), looks.end());
}

} // namespace

LookModel LookModel::load(const std::filesystem::path& file) {
    return readDataFile("The look model", file, [](const json& document) {
        checkFormat(document, "swarfbook look model 3");
        checkFeatures(document, featureNames());
        LookModel model;
        model.look_ = layersFrom(document);
        for (const auto& name : document.at("classes").get<std::vector<std::string>>())
            model.lookOfClass_.push_back(name == "none" ? -1
                                                        : static_cast<int>(lookFromName(name)));
        model.debrisThreshold_ = document.at("debris_probability");
        model.debrisShare_ = document.at("debris_share");
        model.lookThreshold_ = document.at("look_probability");
        const json& size = document.at("size");
        model.size_ = layersFrom(size);
        size.at("spread_weights").get_to(model.spreadWeights_);
        size.at("spread_bias").get_to(model.spreadBias_);
        size.at("spread_factor").get_to(model.spreadFactor_);
        if (!model.look_.fits(featureCount, model.lookOfClass_.size()) ||
            !model.size_.fits(featureCount, 1) ||
            model.spreadWeights_.size() != static_cast<std::size_t>(featureCount) ||
            !(model.debrisShare_ > 0.0 && model.debrisShare_ < 1.0))
            throw std::runtime_error("its numbers do not fit together");
        return model;
    });
}

SizeCorrection LookModel::sizeCorrection(const Features& features) const {
    const auto in = size_.standardised(features);
    const double log = size_.answer(features).front();
    const double spread =
        std::inner_product(in.begin(), in.end(), spreadWeights_.begin(), spreadBias_);
    return {std::exp(std::clamp(log, -0.25, 0.25)),
            spreadFactor_ * std::clamp(std::exp(spread), 0.02, 0.5)};
}

LookOpinion LookModel::judge(const Features& features) const {
    std::vector<double> out = look_.answer(features);
    const double shareOfBest = mostProbableAmong(out, lookOfClass_);
    softmax(out);
    LookOpinion opinion;
    double best = -1.0;
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
    opinion.lookProbability = shareOfBest;
    if (opinion.lookProbability < lookThreshold_)
        opinion.look = Look::undecided;
    return opinion;
}

std::vector<LookOpinion> LookModel::judgeAll(const std::vector<Features>& candidates) const {
    std::vector<LookOpinion> opinions(candidates.size());
    std::vector<double> debris(candidates.size());
    const auto judgeSome = [&](const cv::Range& some) {
        for (auto i = static_cast<std::size_t>(some.start); i < static_cast<std::size_t>(some.end);
             ++i) {
            opinions[i] = judge(candidates[i]);
            debris[i] = opinions[i].debris;
        }
    };
    cv::parallel_for_(cv::Range(0, static_cast<int>(candidates.size())), judgeSome);
    debris = atOwnShare(debris, debrisShare_);
    for (std::size_t i = 0; i < opinions.size(); ++i)
        opinions[i].debris = debris[i];
    return opinions;
}

} // namespace swarfbook
