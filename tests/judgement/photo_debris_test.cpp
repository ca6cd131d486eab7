// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris_samples.h"
#include "judgement/debris_facts.h"
#include "judgement/visit_samples.h"
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

TEST_CASE("a photo of specks allows clean and refit, and its size limit is stated") {
    const Suggestion s = suggestionWith(
        {debrisPhoto(Place::pan, {debrisPiece(0.3, ParticleType::lining)})}, {drivesWell()});
    CHECK(s.outcome == Recommendation::cleanAndRefit);
    CHECK(std::any_of(s.notKnown.begin(), s.notKnown.end(), [](const std::string& line) {
        return line.find("0.20 mm") != std::string::npos;
    }));
}

TEST_CASE("a refused photo does not count as a clean pan") {
    DebrisSample refused;
    refused.place = Place::pan;
    refused.refusal = Refusal{RefusalReason::blurred, "blurred", "Hold the phone steadier."};
    const Suggestion s = suggestionWith({refused}, {drivesWell()});
    CHECK(s.outcome == Recommendation::notEnoughEvidence);
    CHECK_THAT(s.nextTest, Catch::Contains("steadier"));
}

// What a photo alone may suggest, and where a hand test comes before it, is common practice, no
// source.
TEST_CASE("a photo shown, not counted, does not count as a clean pan either") {
    DebrisSample shown;
    shown.place = Place::pan;
    shown.photoName = "pan.jpg";
    shown.shownOnly = ShownOnly{"About 50 of 100 pieces are found.", "Spread the debris."};
    const Suggestion s = suggestionWith({shown}, {drivesWell()});
    CHECK(s.outcome == Recommendation::notEnoughEvidence);
    CHECK_THAT(s.nextTest, Catch::Contains("Spread the debris."));
    CHECK(std::any_of(s.notKnown.begin(), s.notKnown.end(), [](const std::string& line) {
        return line.find("pan.jpg") != std::string::npos;
    }));
}

TEST_CASE("large metal in photos alone must be tested by hand first, with a caution not to drive") {
    const auto chip = debrisPiece(3.6, ParticleType::brightMetal);
    const auto says = [](const Suggestion& s, const char* text) {
        return std::any_of(s.cautions.begin(), s.cautions.end(), [&](const std::string& line) {
            return line.find(text) != std::string::npos;
        });
    };
    for (const auto& photos :
         {std::vector{debrisPhoto(Place::pan, {chip})},
          std::vector{debrisPhoto(Place::pan, {chip, chip, chip})},
          std::vector{debrisPhoto(Place::pan, {chip}), debrisPhoto(Place::filter, {chip})}}) {
        const Suggestion alone = suggestionWith(photos, {drivesWell()});
        CHECK(alone.outcome == Recommendation::notEnoughEvidence);
        CHECK_FALSE(alone.doNotDrive);
        CHECK_THAT(alone.nextTest, Catch::Contains("by hand"));
        CHECK(says(alone, "tested by hand"));
    }
    const Suggestion proven =
        suggestionWith({debrisPhoto(Place::pan, {chip})},
                       {drivesWell(), observed("magnet-test", R"({"result": "moves"})")});
    CHECK(proven.outcome == Recommendation::openTheTransmission);
    CHECK(proven.doNotDrive);
}

TEST_CASE("a piece above 3 mm that is beyond doubt needs no hand") {
    const Suggestion s = suggestionWith(
        {debrisPhoto(Place::pan, {debrisPiece(3.6, ParticleType::brightMetal, 0.995)})},
        {drivesWell()});
    CHECK(s.outcome == Recommendation::openTheTransmission);
    CHECK(s.doNotDrive);
    CHECK(suggestionWith(
              {debrisPhoto(Place::pan, {debrisPiece(1.4, ParticleType::brightMetal, 0.995)})},
              {drivesWell()})
              .outcome == Recommendation::notEnoughEvidence);
}

TEST_CASE("a hand test that shows no metal comes before the photo") {
    const auto chip = debrisPhoto(Place::pan, {debrisPiece(3.6, ParticleType::brightMetal, 0.995)});
    for (const auto& [kind, json] : {std::pair{"squeeze", R"({"result": "crumbles"})"},
                                     std::pair{"finger", R"({"feel": "not-felt"})"},
                                     std::pair{"finger", R"({"feel": "smears", "place": "pan"})"},
                                     std::pair{"debris", R"({"place": "pan", "what": "clean"})"}}) {
        INFO(kind << json);
        const Suggestion s = suggestionWith({chip}, {drivesWell(), observed(kind, json)});
        CHECK(s.outcome == Recommendation::cleanAndRefit);
        CHECK_FALSE(s.doNotDrive);
        CHECK(std::any_of(s.all.begin(), s.all.end(),
                          [](const Reason& r) { return r.rule == "hand_outranks_photo"; }));
    }
    const Suggestion specks =
        suggestionWith({debrisPhoto(Place::pan, {debrisPiece(0.3, ParticleType::brightMetal)})},
                       {drivesWell(), observed("finger", R"({"feel": "not-felt"})")});
    for (const Reason& reason : specks.all)
        CHECK(reason.rule != "hand_outranks_photo"); // specks cannot be felt, whatever they are
    // tried on other debris, or shown to be metal by another test
    CHECK(suggestionWith({chip}, {drivesWell(), observed("squeeze", R"({"result": "crumbles",
        "place": "magnet"})")})
              .outcome == Recommendation::openTheTransmission);
    CHECK(suggestionWith({chip}, {drivesWell(), observed("finger", R"({"feel": "smears"})"),
                                  observed("magnet-test", R"({"result": "moves"})")})
              .outcome == Recommendation::openTheTransmission);
    const auto plain = debrisPhoto(Place::pan, {debrisPiece(3.6, ParticleType::brightMetal)});
    CHECK(suggestionWith({plain}, {drivesWell(), observed("magnet-test", R"({"result": "stays"})")})
              .outcome != Recommendation::openTheTransmission);
    CHECK_FALSE(suggestionWith({plain}, {drivesWell(), observed("debris", R"({"place": "pan",
        "what": "swarf-curl", "amount": "one", "assembly_left_over": true})")})
                    .doNotDrive);
}

TEST_CASE("near a class limit the smaller size class counts") {
    Particle p = debrisPiece(3.02, ParticleType::brightMetal); // 3.02 - 2 x 0.02 lies below 3
    VisitEvidence visit;
    visit.samples = {debrisPhoto(Place::pan, {p})};
    const PhotoDebris debris = debrisOfPhotos(visit, suggestionModel());
    REQUIRE(debris.items.size() == 1);
    CHECK(debris.items.front().size == TradeSize::s3);
}

TEST_CASE("a type that the photo is not sure of does not count") {
    const Suggestion s = suggestionWith(
        {debrisPhoto(Place::pan, {debrisPiece(3.6, ParticleType::brightMetal, 0.6)})},
        {drivesWell()});
    CHECK(s.outcome == Recommendation::notEnoughEvidence);
    CHECK_THAT(s.nextTest, Catch::Contains("magnet"));
}

TEST_CASE("doubtful pieces prove nothing and must be looked at") {
    std::vector<Particle> pieces(9, debrisPiece(3.6, ParticleType::brightMetal));
    for (Particle& doubtful : pieces)
        doubtful.debrisProbability = 0.5;
    const Suggestion s = suggestionWith({debrisPhoto(Place::pan, pieces)}, {drivesWell()});
    CHECK(s.outcome == Recommendation::notEnoughEvidence);
    CHECK_THAT(s.nextTest, Catch::Contains("magnet"));
}

TEST_CASE("large pieces not identified by the photo are what a hand test shows") {
    const auto open = debrisPhoto(Place::pan, {debrisPiece(3.6, ParticleType::unidentified),
                                               debrisPiece(2.0, ParticleType::unidentified)});
    const auto said = [&](const char* kind, const char* json) {
        return suggestionWith({open}, {drivesWell(), observed(kind, json)});
    };
    for (const auto& [kind, json] : {std::pair{"magnet-test", R"({"result": "moves"})"},
                                     std::pair{"squeeze", R"({"result": "bends"})"},
                                     std::pair{"squeeze", R"({"result": "breaks"})"}}) {
        INFO(kind << json);
        CHECK(said(kind, json).outcome == Recommendation::openTheTransmission);
        CHECK(said(kind, json).doNotDrive);
    }
    const Suggestion lining = said("squeeze", R"({"result": "crumbles"})");
    CHECK(lining.outcome == Recommendation::notEnoughEvidence);
    CHECK_THAT(lining.nextTest, Catch::Contains("adaptive"));
    // any large piece can be felt, and a test of other debris says nothing of these
    CHECK_THAT(said("finger", R"({"feel": "felt"})").nextTest, Catch::Contains("pliers"));
    CHECK_THAT(said("magnet-test", R"({"result": "moves", "place": "magnet"})").nextTest,
               Catch::Contains("pliers"));
    // worded here, no source
    CHECK_THAT(said("noise", R"({"noise": "none"})").notKnown,
               Catch::VectorContains(std::string("The type of 2 large pieces is not known.")));
    const Suggestion stays = said("magnet-test", R"({"result": "stays"})");
    CHECK_THAT(stays.nextTest, Catch::Contains("pliers") && !Catch::Contains("pass a magnet"));
}

// Both limits of each photo come from its finding; the wording is common practice, no source.
TEST_CASE("the size limits of several photos stand in one sentence") {
    DebrisSample pan = debrisPhoto(Place::pan, {debrisPiece(0.4, ParticleType::lining)}),
                 tray = debrisPhoto(Place::tray, {debrisPiece(2.4, ParticleType::lining)});
    pan.finding->detectionLimit = Millimetres(0.31);
    pan.finding->resolutionLimit = Millimetres(0.12);
    tray.finding->detectionLimit = Millimetres(0.9);
    tray.finding->resolutionLimit = Millimetres(0.45);
    const auto ofLimits = [](const std::vector<DebrisSample>& photos) {
        std::vector<std::string> found;
        for (const std::string& line : suggestionWith(photos, {drivesWell()}).notKnown)
            if (line.find("complete") != std::string::npos)
                found.push_back(line);
        return found;
    };
    const auto two = ofLimits({pan, tray}), one = ofLimits({tray});
    REQUIRE(two.size() == 1);
    CHECK_THAT(two.front(), Catch::Contains(" 0.31 and 0.12 mm; photo ") &&
                                Catch::EndsWith(" 0.90 and 0.45 mm."));
    REQUIRE(one.size() == 1);
    CHECK_THAT(one.front(), Catch::Contains("down to 0.90 mm; nothing shows under 0.45 mm"));
}

TEST_CASE("doubtful pieces that would be lint need no second look") {
    Particle shadow = debrisPiece(3.6, ParticleType::fibre);
    shadow.debrisProbability = 0.4;
    const Suggestion s = suggestionWith({debrisPhoto(Place::pan, {shadow})}, {drivesWell()});
    CHECK(s.outcome == Recommendation::cleanAndRefit);
}

TEST_CASE("a count near the limit of plenty is called borderline") {
    std::vector<Particle> nine(9, debrisPiece(0.4, ParticleType::brightMetal));
    const Suggestion s = suggestionWith({debrisPhoto(Place::pan, nine)}, {drivesWell()});
    CHECK(std::any_of(s.notKnown.begin(), s.notKnown.end(), [](const std::string& line) {
        return line.find("borderline") != std::string::npos;
    }));
}

TEST_CASE("yellow metal in a photo with a whine leads to opening, end play first") {
    std::vector<Particle> gold(14, debrisPiece(0.6, ParticleType::yellowMetal));
    const Suggestion s =
        suggestionWith({debrisPhoto(Place::pan, gold)},
                       {observed("noise", R"({"noise": "whine", "heard_in": ["1"]})"),
                        observed("codes", R"({"codes": [], "when": "before"})")});
    CHECK(s.outcome == Recommendation::openTheTransmission);
    CHECK_THAT(s.nextTest, Catch::Contains("end play"));
}

TEST_CASE("the magnet's coat is read from covered share and overhang") {
    DebrisSample magnet = debrisPhoto(Place::magnet, {});
    magnet.magnet.emplace();
    magnet.magnet->coveredShare = {Share(0.3), Share(0.03)};
    VisitEvidence visit;
    visit.samples = {magnet};
    CHECK(debrisOfPhotos(visit, suggestionModel()).coat == Coat::f1);
    visit.samples[0].magnet->coveredShare.value = Share(0.9);
    CHECK(debrisOfPhotos(visit, suggestionModel()).coat == Coat::f2);
    visit.samples[0].magnet->outlineLost = true;
    CHECK(debrisOfPhotos(visit, suggestionModel()).coat == Coat::f3);
    visit.samples[0].magnet->overhangP95 = Millimetres(6);
    CHECK(debrisOfPhotos(visit, suggestionModel()).coat == Coat::f4);
}

TEST_CASE("a rate that rose since the last visit is evidence against cleaning alone") {
    Evidence evidence = evidenceOf({drivesWell(), observed("since-clean", R"({"distance_km":
        {"value": 10000, "typed": "10000 km"}})")});
    evidence.now.samples = {
        debrisPhoto(Place::pan, std::vector<Particle>(30, debrisPiece(0.3, ParticleType::lining)))};
    VisitEvidence before;
    before.visitId = 7;
    before.samples = {
        debrisPhoto(Place::pan, std::vector<Particle>(5, debrisPiece(0.3, ParticleType::lining)))};
    before.observations = {observed("since-clean", R"({"distance_km":
        {"value": 10000, "typed": "10000 km"}})")};
    evidence.earlier = {before};
    const Suggestion s = suggest(evidence, suggestionModel());
    CHECK(std::any_of(s.all.begin(), s.all.end(),
                      [](const Reason& r) { return r.rule == "trend_rise"; }));
}
