// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/coat_of_magnet.h"
#include "judgement/judge_visit.h"
#include "judgement/wear_trend.h"
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

MagnetFinding coated(double share, double overhang, bool lost = false) {
    MagnetFinding magnet;
    magnet.coveredShare = {Share(share), Share(0.02)};
    magnet.overhangMean = magnet.overhangP95 = Millimetres(overhang);
    magnet.outlineLost = lost;
    return magnet;
}

const JudgementModels& bothModels() {
    static const JudgementModels models =
        loadJudgementModels(std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models");
    return models;
}

/// A visit with a photo of the magnet, after this distance.
VisitEvidence magnetVisit(std::int64_t id, double odometerKm, const MagnetFinding& magnet,
                          std::vector<Observation> more = {}) {
    VisitEvidence visit;
    visit.visitId = id;
    visit.odometer = Kilometres(odometerKm);
    DebrisSample sample;
    sample.place = Place::magnet;
    sample.sampling = "as found";
    sample.finding.emplace();
    sample.finding->onWhiteCard = true;
    sample.finding->detectionLimit = Millimetres(0.3);
    sample.magnet = magnet;
    visit.samples = {sample};
    visit.observations = std::move(more);
    visit.observations.emplace_back(SinceClean{Typed<Kilometres>{Kilometres(30000), "30000km"}});
    return visit;
}

MagnetsFitted magnets(const char* count, double mm, std::optional<bool> added = {}) {
    return {count, MagnetForm::ring, Typed<Millimetres>{Millimetres(mm), "typed"}, added};
}

} // namespace

// The trade's classes of a coat: F1 thin (to 1 mm), F2 covered (to 3 mm), F3 outline lost (to 5
// mm), F4 bearded (above); common practice, no source, and settings of models/suggestion.json.
TEST_CASE("a coat is described in the trade's words") {
    const auto told = [](const MagnetFinding& magnet) {
        return coatClassSentence(magnet, suggestionModel());
    };
    CHECK(told(coated(0.01, 0.0)) == "In the trade's words: F0, none.");
    CHECK(told(coated(0.3, 0.5)) == "In the trade's words: F1, thin.");
    CHECK(told(coated(0.8, 2.0)) == "In the trade's words: F2, covered.");
    CHECK_THAT(told(coated(0.8, 4.0)),
               Contains("F3, outline lost.") && Contains("gathers no more"));
    CHECK_THAT(told(coated(0.8, 2.0, true)), Contains("F3, outline lost."));
    CHECK_THAT(told(coated(0.9, 6.0)), Contains("F4, bearded.") && Contains("at least so much"));
}

TEST_CASE("a magnet is full where nothing more finds room on it") {
    const FullMagnet& full = suggestionModel().fullMagnet;
    CHECK_FALSE(isFull(coated(0.9, 1.0), full));
    CHECK(isFull(coated(0.99, 1.0), full));      // its whole face is covered
    CHECK(isFull(coated(0.5, 1.0, true), full)); // its outline is lost
    CHECK(isFull(coated(0.5, 4.0), full));
}

// A magnet integrates until it is full: physics. Afterwards its fuzz over distance is too low.
TEST_CASE("a full magnet's score is a least one, and no trend goes through it") {
    const WearScoreModel& model = bothModels().wear;
    const auto score = [&](const MagnetFinding& magnet) {
        return std::get<WearScore>(
            wearScore(magnetVisit(1, 100000, magnet), Place::magnet, {}, model));
    };
    CHECK_FALSE(score(coated(0.9, 1.0)).atLeast);
    const WearScore most = score(coated(0.99, 1.0));
    CHECK(most.atLeast);
    CHECK(most.high == 100.0);
    CHECK_THAT(most.method, Contains("at least this"));
    CHECK(toJson(WearScoreResult(most)).at("at_least") == true);

    Evidence evidence;
    evidence.earlier = {magnetVisit(1, 60000, coated(0.3, 0.5)),
                        magnetVisit(2, 80000, coated(0.99, 4.0, true))};
    evidence.now = magnetVisit(3, 100000, coated(0.5, 0.8));
    const auto scores = comparableScores(evidence, Place::magnet, model);
    REQUIRE(scores.size() == 2);
    CHECK(scores[0].visitId == 1);
    CHECK(scores[1].visitId == 3);
}

TEST_CASE("fuzz that other magnets gathered is not compared") {
    const MagnetFinding coat = coated(0.3, 0.5);
    const VisitEvidence two = magnetVisit(1, 60000, coat, {magnets("2", 30)});
    const VisitEvidence three = magnetVisit(2, 80000, coat, {magnets("3", 30)});
    const VisitEvidence larger = magnetVisit(2, 80000, coat, {magnets("2", 40)});
    const VisitEvidence oneMore = magnetVisit(2, 80000, coat, {magnets("2", 30, true)});
    CHECK(otherMagnets(two, magnetVisit(2, 80000, coat, {magnets("2", 30)})).empty());
    CHECK(otherMagnets(two, magnetVisit(2, 80000, coat)).empty()); // nobody said
    CHECK_THAT(otherMagnets(two, three),
               Contains("by 2 ring magnets of 30 mm, now by 3 ring magnets of 30 mm"));
    CHECK_FALSE(otherMagnets(two, larger).empty());
    CHECK_THAT(otherMagnets(two, oneMore), Contains("A magnet was added"));

    Evidence evidence;
    evidence.earlier = {two};
    evidence.now = three;
    CHECK(comparableScores(evidence, Place::magnet, bothModels().wear).size() == 1);
}

TEST_CASE("the suggestion says what gathered the coat, over what distance, and when it is full") {
    const auto coatOfVisit = [](const VisitEvidence& visit) {
        const VisitFindings findings = visitFindings(visit.observations, {});
        return debrisFacts(visit, findings, suggestionModel())->coatSentence;
    };
    const std::string told =
        coatOfVisit(magnetVisit(1, 60000, coated(0.8, 4.0), {magnets("2", 30, true)}));
    CHECK_THAT(told, Contains("It was gathered by 2 ring magnets of 30 mm, one of them added since "
                              "the last clean over 30,000 km.") &&
                         Contains("gathers no more"));
    CHECK_THAT(coatOfVisit(magnetVisit(1, 60000, coated(0.3, 0.5))),
               !Contains("gathered") && !Contains("gathers"));
}
