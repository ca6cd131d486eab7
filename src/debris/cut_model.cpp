// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/cut_model.h"

#include "base/data_file.h"

#include <algorithm>
#include <cmath>

namespace swarfbook {

CutModel CutModel::load(const std::filesystem::path& file) {
    return readDataFile("The cut model", file, [](const nlohmann::json& document) {
        checkFormat(document, "swarfbook cut model 1");
        checkFeatures(document, cutFeatureNames());
        std::vector<Layers::Layer> layers;
        for (const auto& layer : document.at("layers"))
            layers.push_back(layerFrom(layer));
        CutModel model;
        model.layers_ = Layers(document.at("mean").get<std::vector<double>>(),
                               document.at("scale").get<std::vector<double>>(), std::move(layers));
        model.threshold_ = document.at("probability");
        if (!model.layers_.fits(cutFeatureCount, static_cast<std::size_t>(CutOutcome::count)) ||
            !(model.threshold_ > 0.0))
            throw std::runtime_error("its numbers do not fit together");
        return model;
    });
}

CutOpinion CutModel::judge(const CutFeatures& features) const {
    if (layers_.empty())
        return {};
    const std::vector<double> answers = layers_.answer(features);
    const auto best = std::max_element(answers.begin() + 1, answers.end());
    double others = 0.0;
    for (auto answer = answers.begin() + 1; answer != answers.end(); ++answer)
        others += std::exp(*answer - *best);
    // 1 - softmax of the first answer
    const double parts = 1.0 / (1.0 + std::exp(answers.front() - *best) / others);
    return {parts, static_cast<CutOutcome>(best - answers.begin())};
}

} // namespace swarfbook
