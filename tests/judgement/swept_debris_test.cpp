// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/debris_facts.h"
#include "scenario.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// A photo of the pan that shows these as surely bright metal of 0.8 mm.
DebrisSample sweptPan(std::vector<Particle> pieces) {
    for (Particle& p : pieces) {
        p.maxFeret = {Millimetres(0.8), Millimetres(0.02)};
        p.type = ParticleType::brightMetal;
        p.typeProbability = 0.95;
    }
    DebrisSample sample;
    sample.place = Place::pan;
    sample.photoName = "pan.jpg";
    sample.finding.emplace();
    sample.finding->detectionLimit = Millimetres(0.2);
    sample.finding->particles = std::move(pieces);
    return sample;
}

Suggestion suggestionOf(std::vector<DebrisSample> samples, std::vector<Observation> observations) {
    Evidence evidence = evidenceOf(std::move(observations));
    evidence.now.samples = std::move(samples);
    return suggest(evidence, suggestionModel());
}

/// Twelve bright pieces of which the magnet took `taken` and left the others.
DebrisSample swept(int taken) {
    std::vector<Particle> pieces(12);
    for (std::size_t i = 0; i < pieces.size(); ++i)
        pieces[i].ferrous = static_cast<int>(i) < taken ? Ferrous::yes : Ferrous::no;
    return sweptPan(pieces);
}

const auto itSlips = [] { return observed("complaint", R"({"symptom": "slip"})"); };

} // namespace

// Source: what a magnet leaves of bright metal is aluminium, of converter, pump, case or valve
// body; what it takes is steel. Common practice, no source.
TEST_CASE("bright metal that the magnet left and bright metal that it took are two things") {
    VisitEvidence visit;
    visit.samples = {swept(8)};
    const PhotoDebris debris = debrisOfPhotos(visit, suggestionModel());
    REQUIRE(debris.items.size() == 2);
    const bool leftFirst = debris.items[0].magnetic == Ferrous::no;
    const DebrisItem &left = debris.items[leftFirst ? 0 : 1],
                     &took = debris.items[leftFirst ? 1 : 0];
    CHECK(left.count == 4);
    CHECK_THAT(left.sentence, Catch::Contains("4 pieces of bright metal") &&
                                  Catch::Contains("a magnet left them"));
    CHECK(took.magnetic == Ferrous::yes);
    CHECK(took.count == 8);
    CHECK_THAT(took.sentence, Catch::Contains("a magnet took them"));
}

TEST_CASE("a sweep points where a magnet under the paper would, and the hand outranks it") {
    const Suggestion aluminium = suggestionOf({swept(0)}, {itSlips()});
    CHECK(aluminium.outcome == Recommendation::openTheTransmission);
    CHECK(std::any_of(aluminium.all.begin(), aluminium.all.end(),
                      [](const Reason& r) { return r.rule == "nonmagnetic_metal"; }));
    const auto stated = [](const Suggestion& s) {
        return std::any_of(s.all.begin(), s.all.end(),
                           [](const Reason& r) { return r.rule == "nonmagnetic_metal"; });
    };
    CHECK_FALSE(stated(suggestionOf({swept(12)}, {itSlips()})));
    const auto hand = [](const char* result) {
        return observed("magnet-test", fmt::format(R"({{"result": "{}"}})", result));
    };
    CHECK_FALSE(stated(suggestionOf({swept(0)}, {itSlips(), hand("moves")})));
    CHECK(stated(suggestionOf({swept(12)}, {itSlips(), hand("stays")})));
}

TEST_CASE("a magnet tried by hand leaves the pieces of a sweep together") {
    VisitEvidence visit;
    visit.samples = {swept(8)};
    visit.observations = {observed("magnet-test", R"({"result": "moves"})")};
    const PhotoDebris debris = debrisOfPhotos(visit, suggestionModel());
    REQUIRE(debris.items.size() == 1);
    CHECK(debris.items[0].count == 12);
}
