// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "debris/look_model.h"
#include "files/temporary_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <fstream>
#include <functional>
#include <limits>
#include <random>

using namespace swarfbook;
using nlohmann::json;
using swarfbook::test::TemporaryFile;

namespace {

const std::filesystem::path shipped =
    std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models/looks.json";

/// A model of one hidden unit that sees one feature alone; its outputs are logs of probabilities
/// where that unit is silent.
json handMade(const std::vector<double>& probabilities) {
    json model;
    model["format"] = "swarfbook look model 3";
    model["classes"] = {"bright metal", "yellow metal", "lining", "polymer", "fibre", "none"};
    for (const auto name : featureNames())
        model["features"].push_back(std::string(name));
    model["mean"] = std::vector<double>(featureCount, 0.0);
    model["scale"] = std::vector<double>(featureCount, 1.0);
    std::vector<double> weights(featureCount, 0.0);
    weights[static_cast<std::size_t>(Feature::yellow)] = 1.0;
    model["hidden"] = {{"weights", weights}, {"bias", {0.0}}};
    std::vector<double> bias;
    for (const double p : probabilities)
        bias.push_back(std::log(p));
    model["output"] = {{"weights", {0.0, 3.0, 0.0, 0.0, 0.0, 0.0}}, {"bias", bias}};
    std::vector<double> none(featureCount, 0.0);
    // Two units, the second for what the first is silent of: their difference is linear.
    std::vector<double> longer(2 * featureCount, 0.0);
    longer[static_cast<std::size_t>(Feature::aspect)] = 1.0;
    longer[featureCount + static_cast<std::size_t>(Feature::aspect)] = -1.0;
    model["size"] = {{"mean", none},
                     {"scale", std::vector<double>(featureCount, 1.0)},
                     {"hidden", {{"weights", longer}, {"bias", {0.0, 0.0}}}},
                     {"output", {{"weights", {0.1, -0.1}}, {"bias", {0.02}}}},
                     {"spread_weights", none},
                     {"spread_bias", std::log(0.05)},
                     {"spread_factor", 1.2}};
    model["debris_probability"] = 0.4;
    model["debris_share"] = 0.3;
    model["look_probability"] = 0.5;
    return model;
}

void checkRefused(const std::string& content, const std::string& why) {
    const TemporaryFile file(content);
    INFO(why);
    try {
        (void)LookModel::load(file.path());
        FAIL("a damaged model was taken");
    } catch (const ToolError& said) {
        CHECK_THAT(said.what(), Catch::Contains(file.path().string()));
        CHECK_THAT(said.what(), Catch::Contains("cannot be used"));
        CHECK_THAT(said.what(), Catch::Contains(why));
    }
}

} // namespace

TEST_CASE("The shipped look model loads and gives probabilities", "[debris]") {
    const LookModel model = LookModel::load(shipped);
    CHECK(model.debrisThreshold() > 0.0);
    CHECK(model.debrisThreshold() < 1.0);
    std::mt19937 random(5);
    std::normal_distribution<float> normal(0.0F, 1.5F);
    for (int i = 0; i < 500; ++i) {
        Features f;
        for (float& x : f)
            x = normal(random);
        const LookOpinion opinion = model.judge(f);
        CHECK((opinion.debris >= 0.0 && opinion.debris <= 1.0));
        // The most probable of five looks has at least a fifth.
        CHECK((opinion.lookProbability >= 0.2 - 1e-9 && opinion.lookProbability <= 1.0 + 1e-9));
    }
}

TEST_CASE("Numbers that are none do not derail the judgement", "[debris]") {
    const LookModel model = LookModel::load(shipped);
    Features f{};
    f[0] = std::numeric_limits<float>::quiet_NaN();
    f[1] = std::numeric_limits<float>::infinity();
    f[2] = 1e30F;
    const LookOpinion opinion = model.judge(f);
    CHECK(std::isfinite(opinion.debris));
    CHECK(std::isfinite(opinion.lookProbability));
}

// Closed form: softmax of log p is p itself; a look's probability is given that it is debris.
TEST_CASE("Probabilities are those of the softmax and sum to one", "[debris]") {
    const TemporaryFile file(handMade({0.05, 0.10, 0.40, 0.15, 0.05, 0.25}).dump());
    const LookOpinion opinion = LookModel::load(file.path()).judge(Features{});
    CHECK(opinion.debris == Approx(1.0 - 0.25));
    CHECK(opinion.look == Look::lining);
    CHECK(opinion.lookProbability == Approx(0.40 / 0.75));
}

TEST_CASE("A look that is not probable enough stays undecided", "[debris]") {
    const TemporaryFile file(handMade({0.25, 0.10, 0.30, 0.05, 0.05, 0.25}).dump());
    const LookOpinion opinion = LookModel::load(file.path()).judge(Features{});
    CHECK(opinion.look == Look::undecided);
    CHECK(opinion.lookProbability == Approx(0.30 / 0.75));
}

TEST_CASE("A hidden unit passes what is positive and nothing else", "[debris]") {
    const TemporaryFile file(handMade({0.05, 0.10, 0.40, 0.15, 0.05, 0.25}).dump());
    const LookModel model = LookModel::load(file.path());
    Features f{};
    f[static_cast<std::size_t>(Feature::yellow)] = -2.0F;
    CHECK(model.judge(f).debris == Approx(0.75));
    f[static_cast<std::size_t>(Feature::yellow)] = 1.0F;
    const double lifted = 0.10 * std::exp(3.0); // exp(log p + 3)
    const LookOpinion opinion = model.judge(f);
    CHECK(opinion.look == Look::yellowMetal);
    CHECK(opinion.lookProbability == Approx(lifted / (lifted + 0.65)));
    CHECK(opinion.debris == Approx((lifted + 0.65) / (lifted + 0.90)));
}

// Closed form: exp of a linear function of the features, held between exp(-0.25) and exp(0.25).
TEST_CASE("The size correction is the model's function, within its limits", "[debris]") {
    const TemporaryFile file(handMade({0.05, 0.10, 0.40, 0.15, 0.05, 0.25}).dump());
    const LookModel model = LookModel::load(file.path());
    Features f{};
    CHECK(model.sizeCorrection(f).factor == Approx(std::exp(0.02)));
    CHECK(model.sizeCorrection(f).relativeUncertainty == Approx(1.2 * 0.05));
    f[static_cast<std::size_t>(Feature::aspect)] = 0.5F;
    CHECK(model.sizeCorrection(f).factor == Approx(std::exp(0.07)));
    f[static_cast<std::size_t>(Feature::aspect)] = 19.0F;
    CHECK(model.sizeCorrection(f).factor == Approx(std::exp(0.25)));
    f[static_cast<std::size_t>(Feature::aspect)] = -19.0F;
    CHECK(model.sizeCorrection(f).factor == Approx(std::exp(-0.25)));
}

TEST_CASE("A damaged look model is refused with a sentence", "[debris]") {
    const json good = handMade({0.1, 0.2, 0.3, 0.2, 0.1, 0.1});
    checkRefused("", "parse");
    checkRefused(good.dump().substr(0, 300), "parse");
    const auto spoilt = [&](const std::function<void(json&)>& spoil) {
        json model = good;
        spoil(model);
        return model.dump();
    };
    checkRefused(spoilt([](json& m) { m["format"] = "another 2"; }), "another format");
    checkRefused(spoilt([](json& m) { std::swap(m["features"][0], m["features"][1]); }),
                 "features are not those");
    checkRefused(spoilt([](json& m) { m["features"].erase(3); }), "features are not those");
    checkRefused(spoilt([](json& m) { m["mean"].erase(0); }), "do not fit together");
    checkRefused(spoilt([](json& m) { m["hidden"]["weights"].erase(0); }), "do not fit together");
    checkRefused(spoilt([](json& m) { m["output"]["bias"].erase(0); }), "do not fit together");
    checkRefused(spoilt([](json& m) { m["size"]["hidden"]["weights"].erase(0); }),
                 "do not fit together");
    checkRefused(spoilt([](json& m) { m.erase("size"); }), "size");
    checkRefused(spoilt([](json& m) { m["classes"].erase(0); }), "do not fit together");
    checkRefused(spoilt([](json& m) { m["classes"][0] = "gold"; }), "gold");
    checkRefused(spoilt([](json& m) { m["scale"][0] = "wide"; }), "number");
    checkRefused(spoilt([](json& m) { m.erase("debris_probability"); }), "debris_probability");
    checkRefused(spoilt([](json& m) { m["debris_share"] = 1.0; }), "do not fit together");
}

TEST_CASE("A look model that is not there says what to do", "[debris]") {
    const std::filesystem::path nowhere = "/nowhere/looks.json";
    CHECK_THROWS_AS(LookModel::load(nowhere), ToolError);
    CHECK_THROWS_WITH(LookModel::load(nowhere),
                      Catch::Contains(nowhere.string()) && Catch::Contains("SWARFBOOK_DATA"));
}
