// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/type_evidence.h"
#include "report/second_light_words.h"
#include "report/sweep_words.h"
#include "report/type_sources.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using Catch::Contains;

TEST_CASE("a report says in sentences what the magnet took, left and did not tell") {
    AfterMagnet after;
    after.sweep = MagnetSweep();
    after.sweep->judgedFrom = Millimetres(0.314);
    after.sweep->placeByPieces = true;
    after.sweep->pieces = {54, 60, 19, MagneticShare{0.4737, 0.326, 0.631},
                           MagneticShare{0.399, 0.246, 0.588}};
    after.sweep->bright = {49, 7, 10, std::nullopt, std::nullopt};
    const std::vector<std::string> told = sweepSentences(after);
    REQUIRE(told.size() == 3);
    CHECK(told[0] == "After the magnet: of 133 pieces of 0.31 mm or more 54 gone, 60 left, 19 not "
                     "known.");
    CHECK(told[1] == "Magnetic (95 % interval): 47 % (33 to 63 %) by count, 40 % (25 to 59 %) by "
                     "area.");
    CHECK_THAT(told[2], Contains("Bright, not magnetic: the magnet left 7 pieces of bright metal"));
    CHECK(sweepInShort(after) ==
          "A magnet took 47 % of the judged pieces of 0.31 mm or more (95 %: 33 to 63 %): they are "
          "iron or steel. It left 7 pieces of bright metal, which may be aluminium or stainless "
          "steel.");
    after.sweep->placeByPieces = false;
    CHECK_THAT(sweepSentences(after).back(), Contains("the pieces gone rest on that."));
}

TEST_CASE("a photo after the magnet that was not used is named with the reason") {
    AfterMagnet after;
    after.whyNot = "It is blurred. Hold the phone steadier.";
    CHECK(sweepInShort(after).empty());
    CHECK(sweepSentences(after) ==
          std::vector<std::string>{
              "The photo after the magnet was not used, so it is not known "
              "which pieces are magnetic. It is blurred. Hold the phone steadier."});
}

// What is expected is counted by hand in what is put in.
TEST_CASE("a report says what two lights show together and where they say different types") {
    DebrisFinding debris;
    debris.particles.resize(3);
    debris.particles[0].twoLights =
        TwoLights{ParticleType::brightMetal, ParticleType::lining, 0.7, 0.6, 0.45};
    SecondLightUse use{"b.jpg", "", true, "", 0.8, {}, 2, 0.45};
    CHECK(secondLightSentence(use, debris) ==
          "Second light: 2 pieces were found in what two photos under different light show "
          "together. Their light changes by 45 % of the card's white (median). The photos name "
          "different types for 1.");
    use.used = false;
    use.whyNot = "It is blurred. Hold the phone steadier.";
    CHECK(secondLightSentence(use, debris) ==
          "The photo in a second light was not used, so finds and types rest on one photo. It is "
          "blurred. Hold the phone steadier.");
}

TEST_CASE("a report says who decided the types where it was not the photo alone") {
    DebrisFinding debris;
    debris.particles.resize(4);
    for (Particle& piece : debris.particles)
        piece.said.photo = TypeSaid{ParticleType::lining, 0.7};
    CHECK(typeSourcesSentence(debris).empty());
    debris.particles[0].said.sweep = Ferrous::yes;
    debris.particles[1].said.twoLights = TypeSaid{ParticleType::lining, 0.9};
    debris.particles[2].said.hand = ParticleType::plastic;
    for (Particle& piece : debris.particles)
        decideType(piece);
    CHECK(typeSourcesSentence(debris) ==
          "The types were decided so: 1 by hand, 1 by the magnet, 1 by two lights, 1 by the photo "
          "alone. The photo alone says another type of 2.");
}
