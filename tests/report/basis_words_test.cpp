// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/basis_words.h"
#include "report/hand_made.h"
#include "report/measurement_text.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

/// A white card with two pieces of 0.3 mm: class H of ISO 16232 (published table).
Measurement twoPieces() {
    Measurement measured = emptyMeasurement({});
    measured.debris->particles = {roundParticle(1, {40.0, 40.0}, 0.15, ParticleType::lining),
                                  roundParticle(2, {50.0, 30.0}, 0.15, ParticleType::lining)};
    countParticles(measured);
    return measured;
}

} // namespace

TEST_CASE("nothing is said of a sample of which nothing was typed") {
    const Measurement measured = twoPieces();
    CHECK(basisSentences({}, *measured.debris, 0.0).empty());
    CHECK_THAT(measurementText(measured), !Contains("sample:"));
}

// By hand: 2 pieces in 50 ml are 4 per 100 ml: level 2 of the published table (more than 2, to 4).
TEST_CASE("strained fluid is told per 100 ml, with the reason why ISO 4406 gives no code") {
    Measurement measured = twoPieces();
    measured.place = Place::strained;
    measured.basis.volume = Millilitres(50.0);
    const std::string text = measurementText(measured);
    INFO(text);
    CHECK_THAT(text, Contains("Per 100 ml of the 50 ml strained") &&
                         Contains("H 0.2 to 0.4 mm: 4.0 (") && Contains("(level 2)"));
    CHECK_THAT(text, Contains("ISO 4406: no code.") && Contains("200 µm"));
}

// By hand: per 100 cm2 times 12.
TEST_CASE("a filter is told by its side and on its whole media") {
    Measurement measured = twoPieces();
    measured.place = Place::filter;
    measured.basis.side = FilterSide::clean;
    measured.basis.mediaArea = SquareCentimetres(1200.0);
    measured.debris->onWhiteCard = false;
    measured.debris->measuredArea = SquareCentimetres(50.0);
    for (ClassCount& row : measured.debris->counts) {
        row.per100Cm2 *= 2.0;
        row.intervalLow *= 2.0;
        row.intervalHigh *= 2.0;
    }
    const std::string text = measurementText(measured);
    INFO(text);
    CHECK_THAT(text,
               Contains("(filter, clean side)") && Contains("went through or past the media"));
    CHECK_THAT(text, Contains("whole media of 1200 cm²") && Contains("H 0.2 to 0.4 mm: 48 ("));
    measured.basis.mediaArea = SquareCentimetres(20.0);
    CHECK_THAT(measurementText(measured),
               Contains("were not scaled") && Contains("Check the area"));
}
