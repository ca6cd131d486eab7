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
    measured.debris->particles = {roundParticle(1, {40.0, 40.0}, 0.55, Look::brightMetal),
                                  roundParticle(2, {50.0, 30.0}, 0.52, Look::brightMetal),
                                  roundParticle(3, {60.0, 45.0}, 0.51, Look::lining)};
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
