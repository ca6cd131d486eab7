// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/data_file.h"
#include "judgement/wear_score.h"

#include <fmt/format.h>

#include <stdexcept>

namespace swarfbook {
namespace {

using nlohmann::json;

double positive(const json& from, const char* name) {
    const double value = from.at(name).at("value").get<double>();
    if (!(value > 0.0))
        throw std::invalid_argument(fmt::format("\"{}\" must be above zero", name));
    return value;
}

void readSizes(const json& from, WearScoreModel& model) {
    for (const json& entry : from.at("by_size")) {
        const WearScoreModel::SizeWeight next{Millimetres(entry.at("from_mm").get<double>()),
                                              entry.at("weight").get<double>()};
        if (!model.bySize.empty() &&
            (!(next.from > model.bySize.back().from) || next.weight < model.bySize.back().weight))
            throw std::invalid_argument("\"by_size\" must rise in size and not fall in weight");
        if (!(next.weight > 0.0))
            throw std::invalid_argument("a weight in \"by_size\" must be above zero");
        model.bySize.push_back(next);
    }
    if (model.bySize.empty())
        throw std::invalid_argument("\"by_size\" is empty");
}

void readTypes(const json& from, WearScoreModel& model) {
    model.byType.assign(particleTypeCount, 0.0);
    for (int type = 0; type < particleTypeCount; ++type) {
        const std::string name(typeWord(static_cast<ParticleType>(type)));
        const double weight = from.at("by_type").at(name).at("weight").get<double>();
        if (weight < 0.0)
            throw std::invalid_argument(fmt::format("the weight of \"{}\" is negative", name));
        model.byType.at(static_cast<std::size_t>(type)) = weight;
    }
}

WearScoreModel readWearScoreModel(const json& from) {
    WearScoreModel model;
    model.version = from.at("format").get<std::string>();
    if (model.version != "swarfbook wear score 1")
        throw std::invalid_argument("its format is not \"swarfbook wear score 1\"");
    readSizes(from, model);
    readTypes(from, model);
    model.coatWeight = positive(from, "coat_weight");
    model.overhangWeightPerMm = positive(from, "overhang_weight_per_mm");
    model.halfLoad = positive(from, "half_load");
    model.repeatability = positive(from, "repeatability");
    return model;
}

} // namespace

WearScoreModel loadWearScoreModel(const std::filesystem::path& file) {
    return readDataFile("The wear score's weights", file, readWearScoreModel);
}

} // namespace swarfbook
