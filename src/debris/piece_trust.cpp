// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/piece_trust.h"

#include "base/data_file.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double mostLog = 0.25;                           // no size is corrected by more
constexpr double leastRelative = 0.01, mostRelative = 0.5; // relative
constexpr std::size_t statedTypes =
    particleTypeCount - 1; // unidentified is no answer of the network

bool isMetal(ParticleType type) {
    return type == ParticleType::brightMetal || type == ParticleType::yellowMetal;
}

} // namespace

PieceTrust PieceTrust::load(const std::filesystem::path& file) {
    return readDataFile("The trust in pieces", file, [](const nlohmann::json& document) {
        checkFormat(document, "swarfbook piece trust 1");
        checkFeatures(document, featureNames());
        PieceTrust trust;
        trust.debris_ = networkFrom(document.at("debris"), featureCount, 1);
        trust.type_ = networkFrom(document.at("type"), featureCount, statedTypes);
        trust.size_ = networkFrom(document.at("size"), featureCount, 1);
        trust.spread_ = networkFrom(document.at("spread"), featureCount, 1);
        trust.debrisThreshold_ = probabilityFrom(document.at("debris_probability"));
        trust.typeThreshold_ = probabilityFrom(document.at("type_probability"));
        trust.metalThreshold_ = probabilityFrom(document.at("metal_probability"));
        trust.liningOverPlastic_ = probabilityFrom(document.at("lining_over_plastic"));
        return trust;
    });
}

PieceOpinion PieceTrust::judge(const Features& features) const {
    PieceOpinion opinion;
    opinion.debris = 1.0 / (1.0 + std::exp(-debris_.answer(features).front()));
    decideType(typeLogShares(features), opinion);
    return opinion;
}

TypeLogShares PieceTrust::typeLogShares(const Features& features) const {
    const std::vector<double> answers = type_.answer(features);
    const double best = *std::max_element(answers.begin(), answers.end());
    double sum = 0.0;
    for (const double answer : answers)
        sum += std::exp(answer - best);
    TypeLogShares logs{};
    for (std::size_t type = 0; type < logs.size(); ++type)
        logs[type] = answers[type] - best - std::log(sum);
    return logs;
}

void PieceTrust::decideType(const TypeLogShares& logShares, PieceOpinion& opinion) const {
    const auto best = std::max_element(logShares.begin(), logShares.end());
    std::array<double, statedTypes> shares{};
    double sum = 0.0, metal = 0.0;
    for (std::size_t type = 0; type < logShares.size(); ++type) {
        const double share = std::exp(logShares[type] - *best);
        shares.at(type) = share;
        sum += share;
        metal += isMetal(static_cast<ParticleType>(type)) ? share : 0.0;
    }
    opinion.typeProbability = 1.0 / sum;
    const bool sure = std::max(metal, sum - metal) >= metalThreshold_ * sum;
    const auto type = static_cast<ParticleType>(best - logShares.begin());
    const double lining = shares.at(static_cast<std::size_t>(ParticleType::lining)),
                 plastic = shares.at(static_cast<std::size_t>(ParticleType::plastic));
    const bool mayBePlastic =
        type == ParticleType::lining && lining < liningOverPlastic_ * (lining + plastic);
    opinion.type = sure && !mayBePlastic && opinion.typeProbability >= typeThreshold_
                       ? type
                       : ParticleType::unidentified;
}

SizeCorrection PieceTrust::sizeCorrection(const Features& features) const {
    const double log = size_.answer(features).front();
    const double spread = spread_.answer(features).front();
    return {std::exp(std::clamp(log, -mostLog, mostLog)),
            std::clamp(std::exp(spread), leastRelative, mostRelative)};
}

} // namespace swarfbook
