// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "debris/piece_trust.h"
#include "files/temporary_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <functional>
#include <limits>
#include <random>

using namespace swarfbook;
using nlohmann::json;
using swarfbook::test::TemporaryFile;

namespace {

const std::filesystem::path shipped =
    std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models/piece-trust.json";

constexpr auto at(Feature which) {
    return static_cast<std::size_t>(which);
}

/// One layer of so many answers that sees nothing but its bias, and whatever is put in.
json plainLayers(const std::vector<double>& bias) {
    return {
        {"mean", std::vector<double>(featureCount, 0.0)},
        {"scale", std::vector<double>(featureCount, 1.0)},
        {"layers",
         {{{"weights", std::vector<double>(bias.size() * featureCount, 0.0)}, {"bias", bias}}}}};
}

/// A trust by hand: debris by the mean answer alone through one hidden unit, types by fixed
/// probabilities, sizes by the aspect.
json handMade(const std::vector<double>& probabilities) {
    json trust;
    trust["format"] = "swarfbook piece trust 1";
    for (const auto name : featureNames())
        trust["features"].push_back(std::string(name));
    std::vector<double> hidden(featureCount, 0.0);
    hidden[at(Feature::meanAnswer)] = 1.0;
    trust["debris"] = plainLayers({0.0});
    trust["debris"]["layers"] = {{{"weights", hidden}, {"bias", {-0.5}}},
                                 {{"weights", {10.0}}, {"bias", {-1.0}}}};
    std::vector<double> logs;
    for (const double p : probabilities)
        logs.push_back(std::log(p) + 3.0); // a constant changes no probability
    trust["type"] = plainLayers(logs);
    trust["size"] = plainLayers({0.02});
    trust["size"]["layers"][0]["weights"][at(Feature::aspect)] = 0.1;
    trust["spread"] = plainLayers({std::log(0.06)});
    trust["debris_probability"] = 0.4;
    trust["type_probability"] = 0.5;
    trust["metal_probability"] = 0.7;
    trust["lining_over_plastic"] = 0.82;
    return trust;
}

const std::vector<double> usualTypes{0.1, 0.15, 0.6, 0.1, 0.05};

PieceTrust loaded(const json& document) {
    const TemporaryFile file(document.dump());
    return PieceTrust::load(file.path());
}

void checkRefused(const std::string& content, const std::string& why) {
    const TemporaryFile file(content);
    INFO(why);
    try {
        (void)PieceTrust::load(file.path());
        FAIL("a damaged file was taken");
    } catch (const ToolError& said) {
        CHECK_THAT(said.what(), Catch::Contains(file.path().string()));
        CHECK_THAT(said.what(), Catch::Contains("cannot be used"));
        CHECK_THAT(said.what(), Catch::Contains(why));
    }
}

} // namespace

TEST_CASE("The shipped trust loads and gives probabilities and sizes within its limits",
          "[debris]") {
    const PieceTrust trust = PieceTrust::load(shipped);
    CHECK(trust.debrisThreshold() > 0.0);
    CHECK(trust.debrisThreshold() < 1.0);
    std::mt19937 random(5);
    std::normal_distribution<float> normal(0.0F, 1.5F);
    for (int i = 0; i < 500; ++i) {
        Features f;
        for (float& x : f)
            x = normal(random);
        const PieceOpinion opinion = trust.judge(f);
        CHECK((opinion.debris >= 0.0 && opinion.debris <= 1.0));
        // The most probable of five types has at least a fifth.
        CHECK((opinion.typeProbability >= 0.2 - 1e-9 && opinion.typeProbability <= 1.0 + 1e-9));
        const SizeCorrection size = trust.sizeCorrection(f);
        CHECK(std::abs(std::log(size.factor)) <= 0.25 + 1e-9);
        CHECK((size.relativeUncertainty >= 0.01 && size.relativeUncertainty <= 0.5));
    }
}

TEST_CASE("Numbers that are none do not derail the trust", "[debris]") {
    const PieceTrust trust = PieceTrust::load(shipped);
    Features f{};
    f[0] = std::numeric_limits<float>::quiet_NaN();
    f[1] = std::numeric_limits<float>::infinity();
    f[2] = 1e30F;
    CHECK(std::isfinite(trust.judge(f).debris));
    CHECK(std::isfinite(trust.judge(f).typeProbability));
    CHECK(std::isfinite(trust.sizeCorrection(f).factor));
}

// Closed form: 1 / (1 + exp(-x)) of 10 max(0, answer - 0.5) - 1.
TEST_CASE("The probability of debris is the logistic function of the answer", "[debris]") {
    const PieceTrust trust = loaded(handMade(usualTypes));
    Features f{};
    f[at(Feature::meanAnswer)] = 0.9F;
    CHECK(trust.judge(f).debris == Approx(1.0 / (1.0 + std::exp(-3.0))));
    f[at(Feature::meanAnswer)] = 0.2F; // a hidden unit passes what is positive and nothing else
    CHECK(trust.judge(f).debris == Approx(1.0 / (1.0 + std::exp(1.0))));
}

// By hand: of lining and plastic alone, 0.60 / 0.74 = 0.811 is lining and 0.60 / 0.72 = 0.833; the
// limit is 0.82. Plastic called lining points at a clutch, so the other way round there is no
// limit.
TEST_CASE("Lining is stated only where plastic is little beside it", "[debris]") {
    const PieceOpinion doubted = loaded(handMade({0.16, 0.05, 0.60, 0.14, 0.05})).judge(Features{});
    CHECK(doubted.type == ParticleType::unidentified);
    CHECK(doubted.typeProbability == Approx(0.60));
    const PieceOpinion stated = loaded(handMade({0.18, 0.05, 0.60, 0.12, 0.05})).judge(Features{});
    CHECK(stated.type == ParticleType::lining);
    const PieceOpinion plastic = loaded(handMade({0.16, 0.05, 0.14, 0.60, 0.05})).judge(Features{});
    CHECK(plastic.type == ParticleType::plastic);
}

// Closed form: softmax of log p is p itself.
TEST_CASE("Probabilities of the types are those of the softmax", "[debris]") {
    const PieceOpinion opinion = loaded(handMade(usualTypes)).judge(Features{});
    CHECK(opinion.type == ParticleType::lining);
    CHECK(opinion.typeProbability == Approx(0.6));
}

TEST_CASE("A type that is not probable enough stays undecided", "[debris]") {
    const PieceOpinion opinion = loaded(handMade({0.25, 0.10, 0.45, 0.15, 0.05})).judge(Features{});
    CHECK(opinion.type == ParticleType::unidentified);
    CHECK(opinion.typeProbability == Approx(0.45));
}

// Closed form: 0.55 is enough for the type, yet 0.55 metal against 0.45 is too little to call it
// so.
TEST_CASE("A piece that may as well be no metal stays undecided", "[debris]") {
    const PieceOpinion opinion = loaded(handMade({0.55, 0.00001, 0.20, 0.15, 0.09999})).judge({});
    CHECK(opinion.type == ParticleType::unidentified);
    CHECK(opinion.typeProbability == Approx(0.55).epsilon(1e-3));
    CHECK(loaded(handMade({0.55, 0.20, 0.10, 0.10, 0.05})).judge({}).type ==
          ParticleType::brightMetal);
}

// Closed form: exp of a linear function of the features, held between exp(-0.25) and exp(0.25).
TEST_CASE("The size correction is the file's function, within its limits", "[debris]") {
    const PieceTrust trust = loaded(handMade(usualTypes));
    Features f{};
    CHECK(trust.sizeCorrection(f).factor == Approx(std::exp(0.02)));
    CHECK(trust.sizeCorrection(f).relativeUncertainty == Approx(0.06));
    f[at(Feature::aspect)] = 0.5F;
    CHECK(trust.sizeCorrection(f).factor == Approx(std::exp(0.07)));
    f[at(Feature::aspect)] = 19.0F;
    CHECK(trust.sizeCorrection(f).factor == Approx(std::exp(0.25)));
    f[at(Feature::aspect)] = -19.0F;
    CHECK(trust.sizeCorrection(f).factor == Approx(std::exp(-0.25)));
}

TEST_CASE("A damaged trust is refused with a sentence", "[debris]") {
    const json good = handMade(usualTypes);
    checkRefused("", "parse");
    checkRefused(good.dump().substr(0, 300), "parse");
    const auto spoilt = [&](const std::function<void(json&)>& spoil) {
        json trust = good;
        spoil(trust);
        return trust.dump();
    };
    checkRefused(spoilt([](json& t) { t["format"] = "another 2"; }), "another format");
    checkRefused(spoilt([](json& t) { std::swap(t["features"][0], t["features"][1]); }),
                 "features are not those");
    checkRefused(spoilt([](json& t) { t["features"].erase(3); }), "features are not those");
    for (const char* part : {"debris", "type", "size", "spread"}) {
        checkRefused(spoilt([&](json& t) { t.erase(part); }), part);
        checkRefused(spoilt([&](json& t) { t[part]["mean"].erase(0); }), "do not fit together");
        checkRefused(spoilt([&](json& t) { t[part]["layers"][0]["weights"].erase(0); }),
                     "do not fit together");
        checkRefused(spoilt([&](json& t) { t[part]["layers"].clear(); }), "do not fit together");
        checkRefused(spoilt([&](json& t) { t[part]["scale"][0] = "wide"; }), "number");
    }
    checkRefused(spoilt([](json& t) { t["type"]["layers"][0]["bias"].erase(0); }),
                 "do not fit together");
    checkRefused(spoilt([](json& t) { t.erase("debris_probability"); }), "debris_probability");
    checkRefused(spoilt([](json& t) { t["debris_probability"] = 1.0; }), "between 0 and 1");
    checkRefused(spoilt([](json& t) { t["type_probability"] = 0.0; }), "between 0 and 1");
    checkRefused(spoilt([](json& t) { t["metal_probability"] = 1.0; }), "between 0 and 1");
    checkRefused(spoilt([](json& t) { t["lining_over_plastic"] = 1.0; }), "between 0 and 1");
}

TEST_CASE("A trust that is not there says what to do", "[debris]") {
    const std::filesystem::path nowhere = "/nowhere/piece-trust.json";
    CHECK_THROWS_AS(PieceTrust::load(nowhere), ToolError);
    CHECK_THROWS_WITH(PieceTrust::load(nowhere),
                      Catch::Contains(nowhere.string()) && Catch::Contains("SWARFBOOK_DATA"));
}
