// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/hand_made.h"
#include "report/measurement_text.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

TEST_CASE("a refused photo is shown with its reason and what to do, and without a figure") {
    Measurement refused;
    refused.photo.file = "dark.jpg";
    refused.place = Place::filter;
    refused.refusal = Refusal{RefusalReason::notAPhoto, "It is dark.", "Switch a lamp on."};
    CHECK(measurementText(refused) == "dark.jpg (filter)\n"
                                      "  could not be measured: It is dark.\n"
                                      "  what to do: Switch a lamp on.\n");
}

// What is expected is worked out from the particles that are put in.
TEST_CASE(
    "a measured photo is shown with its scale, its size floor, its looks and largest pieces") {
    Measurement measured = emptyMeasurement({});
    measured.place = Place::pad;
    measured.debris->particles = {roundParticle(1, {40.0, 40.0}, 0.55, ParticleType::brightMetal),
                                  roundParticle(2, {50.0, 30.0}, 0.52, ParticleType::brightMetal),
                                  roundParticle(3, {60.0, 45.0}, 0.51, ParticleType::lining)};
    countParticles(measured);
    const std::string text = measurementText(measured);
    INFO(text);
    CHECK_THAT(text,
               Contains("card: close layout, 10 of 10 markers") && Contains("px/mm ± 0.20 %"));
    CHECK_THAT(text, Contains("size limit: complete down to 0.20 mm"));
    CHECK_THAT(text, Contains("(95 % interval)"));
    CHECK_THAT(text, Contains("2 bright metal, 1 lining"));
    CHECK_THAT(text, Contains("largest pieces:\n    1.10 ± "));
}

// What is expected is worked out by hand from the numbers that are put in.
TEST_CASE("what a magnet took is told by count and area, and what is bright and stayed apart") {
    Measurement measured = emptyMeasurement({});
    measured.place = Place::pad;
    measured.debris->particles = {roundParticle(1, {40.0, 40.0}, 0.55, ParticleType::brightMetal),
                                  roundParticle(2, {50.0, 30.0}, 0.52, ParticleType::brightMetal)};
    measured.debris->particles[0].ferrous = Ferrous::yes;
    measured.debris->particles[1].ferrous = Ferrous::no;
    countParticles(measured);
    AfterMagnet after;
    after.sweep = MagnetSweep();
    after.sweep->judgedFrom = Millimetres(0.314);
    after.sweep->placeByPieces = true;
    after.sweep->smaller = 27;
    after.sweep->pieces = {54, 60, 19, MagneticShare{0.4737, 0.326, 0.631},
                           MagneticShare{0.399, 0.246, 0.588}};
    after.sweep->bright = {49, 7, 10, std::nullopt, std::nullopt};
    after.sweep->classes = {
        {"H",
         Micrometres(200),
         Micrometres(400),
         {10, 8, 2, MagneticShare{0.5556, 0.299, 0.781}, MagneticShare{0.505, 0.259, 0.748}}}};
    measured.afterMagnet = after;
    const std::string text = measurementText(measured);
    INFO(text);
    CHECK_THAT(text, Contains("of 133 pieces of 0.31 mm or more 54 gone, 60 left, 19 not known; 27 "
                              "smaller ones are not judged"));
    CHECK_THAT(text, Contains("47 % (33 to 63 %) by count, 40 % (25 to 59 %) by area"));
    CHECK_THAT(text, Contains("0.2 to 0.4 mm    10 gone, 8 left, 2 not known"));
    CHECK_THAT(text, Contains("bright, not magnetic: the magnet left 7 pieces of bright metal"));
    CHECK_THAT(text,
               Contains("bright metal, magnetic\n") && Contains("bright metal, not magnetic\n"));
    CHECK_THAT(text, !Contains("too few pieces are in both"));
    measured.afterMagnet->sweep->placeByPieces = false;
    CHECK_THAT(measurementText(measured), Contains("too few pieces are in both photos"));
    measured.afterMagnet.reset();
    CHECK_THAT(measurementText(measured), !Contains("after the magnet"));
}

// What is expected is counted by hand in what is put in.
TEST_CASE("a second light is told by the pieces that both photos show and where they differ") {
    Measurement measured = emptyMeasurement({});
    measured.place = Place::pad;
    measured.debris->particles = {roundParticle(1, {40.0, 40.0}, 0.55, ParticleType::brightMetal),
                                  roundParticle(2, {50.0, 30.0}, 0.52, ParticleType::lining)};
    measured.debris->particles[0].twoLights =
        TwoLights{ParticleType::brightMetal, ParticleType::lining, 0.7, 0.6, 0.45};
    measured.debris->particles[1].twoLights =
        TwoLights{ParticleType::lining, ParticleType::unidentified, 0.9, 0.5, 0.11};
    countParticles(measured);
    measured.secondLight = SecondLightUse{"b.jpg", "", true, "", 0.8, {}, 2, 0.45};
    CHECK_THAT(measurementText(measured),
               Contains("second light: 2 pieces found in what both photos show together") &&
                   Contains("by 45 % of the card's white (median)") &&
                   Contains("different types for 1\n"));
    measured.secondLight->used = false;
    CHECK_THAT(measurementText(measured), Contains("second light: the second photo was not used"));
    measured.secondLight.reset();
    CHECK_THAT(measurementText(measured), !Contains("second light"));
}
