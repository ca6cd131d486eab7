// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/coat_history.h"
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

struct Ring {
    double share = 0.4, overhang = 0.8, diameter = 37.0;
    bool outlineLost = false;
    MagnetShape shape = MagnetShape::ring;
};

/// A visit with a photo of the magnet, 30,000 km after the clean.
VisitEvidence visitOf(std::int64_t id, const Ring& ring, std::vector<Observation> more = {}) {
    VisitEvidence visit;
    visit.visitId = id;
    visit.date = "2026-0" + std::to_string(id) + "-01";
    visit.odometer = Kilometres(100000.0 + 10000.0 * static_cast<double>(id));
    DebrisSample sample;
    sample.place = Place::magnet;
    sample.magnet.emplace();
    sample.magnet->shape = ring.shape;
    sample.magnet->size = {Millimetres(ring.diameter)};
    sample.magnet->coveredShare = {Share(ring.share), Share(0.02)};
    sample.magnet->overhangMean = sample.magnet->overhangP95 = Millimetres(ring.overhang);
    sample.magnet->outlineLost = ring.outlineLost;
    visit.samples = {sample};
    visit.observations = std::move(more);
    visit.observations.emplace_back(SinceClean{Typed<Kilometres>{Kilometres(30000), "30000km"}});
    return visit;
}

CoatHistory of(std::vector<VisitEvidence> visits) {
    Evidence evidence;
    evidence.now = std::move(visits.back());
    visits.pop_back();
    evidence.earlier = std::move(visits);
    return coatHistory(evidence, suggestionModel());
}

MagnetsFitted fitted(const char* count, double mm, std::optional<bool> added = {}) {
    return {count, MagnetForm::ring, Typed<Millimetres>{Millimetres(mm), "typed"}, added};
}

} // namespace

TEST_CASE("a coat that grew is told with both visits' figures") {
    const CoatHistory coats = of({visitOf(1, {.share = 0.35}), visitOf(2, {.share = 0.62})});
    REQUIRE(coats.visits.size() == 2);
    CHECK(coats.changed);
    CHECK_THAT(coats.sentence, Contains("more fuzz") && Contains("then 35 \u00b1 4 %") &&
                                   Contains("now 62 \u00b1 4 %") && Contains("30,000 km"));
    CHECK(coats.visits[0].inWords == "F1, thin");
    CHECK(coats.visits[0].notLikeNow.empty());
    const auto json = toJson(coats);
    CHECK(json["visits"][1]["covered_share"] == 0.62);
    CHECK(json["changed"] == true);
    CHECK(coatLines(coats).size() == 2);
}

// Two shares of standard uncertainty 0.02 differ surely (95 %) from 1.96 * 0.0283 = 0.055 on.
TEST_CASE("a difference within the uncertainty is no change") {
    CHECK_FALSE(of({visitOf(1, {.share = 0.40}), visitOf(2, {.share = 0.45})}).changed);
    CHECK(of({visitOf(1, {.share = 0.40}), visitOf(2, {.share = 0.46})}).changed);
    CHECK_FALSE(of({visitOf(1, {.overhang = 0.8}), visitOf(2, {.overhang = 1.3})}).changed);
    CHECK(of({visitOf(1, {.overhang = 0.8}), visitOf(2, {.overhang = 1.6})}).changed);
    // one up and the other down is told as neither
    CHECK_FALSE(of({visitOf(1, {.share = 0.4, .overhang = 1.6}),
                    visitOf(2, {.share = 0.6, .overhang = 0.8})})
                    .changed);
    CHECK_THAT(of({visitOf(1, {.share = 0.6}), visitOf(2, {.share = 0.3})}).sentence,
               Contains("less fuzz"));
}

// A magnet gathers until it is full, and a larger one gathers more: physics.
TEST_CASE("magnets that are not alike are not compared, and it says why") {
    const auto why = [](const VisitEvidence& then, const VisitEvidence& now) {
        const CoatHistory coats = of({then, now});
        CHECK_FALSE(coats.changed);
        CHECK_FALSE(coats.sentence.empty());
        return coats.sentence;
    };
    CHECK_THAT(why(visitOf(1, {}), visitOf(2, {.share = 0.6, .shape = MagnetShape::block})),
               Contains("a ring of 37 mm, now a block of 37 mm"));
    CHECK_THAT(why(visitOf(1, {}), visitOf(2, {.share = 0.6, .diameter = 30.0})),
               Contains("a ring of 37 mm, now a ring of 30 mm"));
    CHECK_THAT(
        why(visitOf(1, {}, {fitted("1", 37)}), visitOf(2, {.share = 0.6}, {fitted("2", 37)})),
        Contains("cannot be compared"));
    CHECK_THAT(why(visitOf(1, {}), visitOf(2, {.share = 0.6}, {fitted("2", 37, true)})),
               Contains("was added"));
    CHECK_THAT(why(visitOf(1, {.outlineLost = true}), visitOf(2, {.share = 0.6})),
               Contains("full then"));
    CHECK_THAT(why(visitOf(1, {}), visitOf(2, {.share = 0.99})), Contains("gathers no more"));
    CHECK_THAT(why(VisitEvidence{}, visitOf(2, {})), Contains("No earlier visit"));
}

TEST_CASE("the last visit that was alike is compared, past one that was not") {
    const CoatHistory coats = of(
        {visitOf(1, {.share = 0.2}), visitOf(2, {.diameter = 25.0}), visitOf(3, {.share = 0.5})});
    REQUIRE(coats.visits.size() == 3);
    CHECK(coats.changed);
    CHECK_THAT(coats.sentence, Contains("then 20 \u00b1 4 %"));
    CHECK_THAT(coats.visits[1].notLikeNow, Contains("ring of 25 mm"));
    CHECK_THAT(coatLines(coats)[1], Contains("Not compared"));
}

TEST_CASE("where no magnet was measured at the visit nothing is said of its coat") {
    CHECK(of({visitOf(1, {}), VisitEvidence{}}).sentence.empty());
}
