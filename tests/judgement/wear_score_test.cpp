// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "debris_samples.h"
#include "files/temporary_folder.h"
#include "judgement/wear_score.h"
#include "scenario.h"

#include <catch2/catch.hpp>

#include <random>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

const WearScoreModel& weights() {
    static const WearScoreModel model =
        loadWearScoreModel(fs::path(SWARFBOOK_SOURCE_DIR) / "models/wear-score.json");
    return model;
}

Particle sizedPiece(double mm, ParticleType type) {
    Particle p;
    p.maxFeret.value = Millimetres(mm);
    p.type = type;
    return p;
}

VisitEvidence visit(std::vector<Particle> particles, double km = 20000) {
    VisitEvidence v;
    v.visitId = 3;
    v.samples = {debrisPhoto(Place::pan, std::move(particles))};
    v.observations = {SinceClean{Typed<Kilometres>{Kilometres(km), "typed"}}};
    return v;
}

WearScore scored(const VisitEvidence& v) {
    return std::get<WearScore>(wearScore(v, weights()));
}

std::vector<Particle> randomPieces(std::mt19937& random) {
    std::uniform_real_distribution<double> size(0.2, 4.0);
    std::uniform_int_distribution<int> type(0, particleTypeCount - 1), count(0, 30);
    std::vector<Particle> pieces;
    for (int i = count(random); i > 0; --i)
        pieces.push_back(sizedPiece(size(random), static_cast<ParticleType>(type(random))));
    return pieces;
}

} // namespace

TEST_CASE("one more piece never lowers the score") {
    std::mt19937 random(1);
    for (int round = 0; round < 200; ++round) {
        std::vector<Particle> pieces = randomPieces(random);
        const double before = scored(visit(pieces)).value;
        pieces.push_back(randomPieces(random).empty() ? sizedPiece(0.3, ParticleType::lining)
                                                      : sizedPiece(1.0, ParticleType::brightMetal));
        CHECK(scored(visit(pieces)).value >= before);
    }
}

TEST_CASE("a larger piece never lowers the score") {
    std::mt19937 random(2);
    std::uniform_real_distribution<double> more(1.0, 3.0);
    for (int round = 0; round < 200; ++round) {
        std::vector<Particle> pieces = randomPieces(random);
        pieces.push_back(sizedPiece(0.4, ParticleType::brightMetal));
        const double before = scored(visit(pieces)).value;
        pieces.back().maxFeret.value = pieces.back().maxFeret.value * more(random);
        CHECK(scored(visit(pieces)).value >= before);
    }
}

TEST_CASE("a more serious type never lowers the score") {
    // severity in the trade's order: lint, plastic, lining or unidentified, steel, yellow metal
    const ParticleType order[] = {ParticleType::fibre,       ParticleType::plastic,
                                  ParticleType::lining,      ParticleType::unidentified,
                                  ParticleType::brightMetal, ParticleType::yellowMetal};
    double before = -1.0;
    for (const ParticleType type : order) {
        const double now = scored(visit({sizedPiece(0.6, type)})).value;
        CHECK(now >= before);
        before = now;
    }
}

TEST_CASE("twice the distance halves the load behind the score") {
    const std::vector<Particle> pieces(10, sizedPiece(0.6, ParticleType::brightMetal));
    const auto load = [](double score) { return score / (100.0 - score); };
    const double near = load(scored(visit(pieces, 10000)).value);
    const double far = load(scored(visit(pieces, 20000)).value);
    CHECK(near / far == Approx(2.0));
}

TEST_CASE("the score stays between 0 and 100 and inside its interval") {
    std::mt19937 random(3);
    for (int round = 0; round < 200; ++round) {
        const WearScore score = scored(visit(randomPieces(random)));
        CHECK(score.low >= 0.0);
        CHECK(score.low <= score.value);
        CHECK(score.value <= score.high);
        CHECK(score.high <= 100.0);
    }
}

TEST_CASE("an empty sample scores 0 and its upper limit is what a zero count allows") {
    const WearScore score = scored(visit({}, 10000));
    CHECK(score.value == 0.0);
    CHECK(score.low == 0.0);
    // exact Poisson upper limit of a zero count: 3.688879 (Garwood); a piece at the floor weighs
    // what the model says for 0.2 mm
    const double load = 3.688879 * 1.0;
    CHECK(score.high == Approx(100.0 * load / (load + weights().halfLoad)).margin(1e-4));
}

TEST_CASE("fewer pieces leave a relatively wider interval") {
    const WearScore few =
        scored(visit(std::vector<Particle>(3, sizedPiece(0.6, ParticleType::brightMetal))));
    const WearScore many =
        scored(visit(std::vector<Particle>(60, sizedPiece(0.6, ParticleType::brightMetal))));
    const auto load = [](double score) { return score / (100.0 - score); };
    CHECK(load(few.high) / load(few.low) > load(many.high) / load(many.low));
}

TEST_CASE("pieces below the common size limit do not count") {
    const VisitEvidence v = visit(
        {sizedPiece(0.3, ParticleType::brightMetal), sizedPiece(0.8, ParticleType::brightMetal)});
    const auto at = [&](double floor) {
        return std::get<WearScore>(wearScore(v, Place::pan, Millimetres(floor), weights())).value;
    };
    CHECK(at(0.5) < at(0.2));
    CHECK(at(0.1) == at(0.2)); // never below the photo's own floor
}

TEST_CASE("a place that shows only large pieces is passed over if another shows finer ones") {
    VisitEvidence v = visit({sizedPiece(0.5, ParticleType::lining)});
    v.samples.push_back(v.samples.front());
    v.samples.back().place = Place::pad;
    CHECK(scored(v).place == Place::pan);
    v.samples.front().finding->detectionLimit = Millimetres(0.9);
    CHECK(scored(v).place == Place::pad);
    CHECK(scored(v).detectionLimit.value() == 0.2);
}

TEST_CASE("without distance, sampling or a measured photo there is no score but a reason") {
    VisitEvidence v = visit({sizedPiece(0.3, ParticleType::brightMetal)});
    SECTION("distance unknown") {
        v.observations = {SinceClean{}};
        CHECK_THAT(std::get<NoWearScore>(wearScore(v, weights())).why,
                   Catch::Contains("distance since the last documented clean"));
    }
    SECTION("distance never entered") {
        v.observations.clear();
        CHECK(std::holds_alternative<NoWearScore>(wearScore(v, weights())));
    }
    SECTION("sampling not said") {
        v.samples.front().sampling.clear();
        CHECK_THAT(std::get<NoWearScore>(wearScore(v, weights())).why,
                   Catch::Contains("How the sample was taken"));
    }
    SECTION("photo refused") {
        v.samples.front().finding.reset();
        v.samples.front().refusal = Refusal{RefusalReason::blurred, "blurred", "again"};
        CHECK(std::holds_alternative<NoWearScore>(wearScore(v, weights())));
    }
    const auto json = toJson(wearScore(v, weights()));
    CHECK(json.at("value").is_null());
    CHECK_FALSE(json.at("advice").get<std::string>().empty());
}

TEST_CASE("a magnet's thicker coat raises the score") {
    VisitEvidence v = visit({});
    v.samples.front().place = Place::magnet;
    v.samples.front().magnet.emplace();
    double before = -1.0;
    for (const double share : {0.0, 0.3, 0.6, 1.0}) {
        v.samples.front().magnet->coveredShare = {Share(share), Share(0.05)};
        const double now = scored(v).value;
        CHECK(now > before);
        before = now;
    }
    v.samples.front().magnet->overhangMean = Millimetres(2);
    CHECK(scored(v).value > before);
}

TEST_CASE("weights that are not monotone are refused") {
    std::ifstream in(fs::path(SWARFBOOK_SOURCE_DIR) / "models/wear-score.json");
    nlohmann::json model = nlohmann::json::parse(in);
    model["by_size"][2]["weight"] = 0.5;
    const TemporaryFile file(model.dump());
    CHECK_THROWS_WITH(loadWearScoreModel(file.path()), Catch::Contains("not fall in weight"));
    CHECK_THROWS_AS(loadWearScoreModel("nowhere.json"), ToolError);
}
