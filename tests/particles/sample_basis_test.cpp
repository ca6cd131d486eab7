// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/sample_basis.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace swarfbook;

namespace {

/// One class H of `count` pieces; per 100 cm2 on a frame of 50 cm2, per sample on a white card.
DebrisFinding counted(int count, bool onWhiteCard, double low, double high) {
    DebrisFinding finding;
    finding.onWhiteCard = onWhiteCard;
    finding.measuredArea = SquareCentimetres(50.0);
    ClassCount row;
    row.sizeClass = "H";
    row.from = Micrometres(200);
    row.to = Micrometres(400);
    row.count = count;
    const double per = onWhiteCard ? 1.0 : 2.0;
    row.per100Cm2 = per * count;
    row.intervalLow = per * low;
    row.intervalHigh = per * high;
    finding.counts = {row};
    return finding;
}

} // namespace

// By hand: 10 pieces on 50 cm2 are 240 on 1200 cm2. Limits of a Poisson mean for 10 seen: 4.795 and
// 18.39 (Garwood 1936, published). The factors' logarithms add as squares: ln(10 / 4.795) = 0.735,
// ln(18.39 / 10) = 0.609, 1.96 x 0.05 = 0.098 of the typed area: hypot 0.7415 and 0.617.
TEST_CASE("a count is scaled to the whole media with the uncertainty of its area") {
    const auto rows =
        countsOnWholeMedia(counted(10, false, 4.795, 18.39), SquareCentimetres(1200.0), 0.0);
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].seen == 10);
    CHECK(rows[0].count == Approx(240.0));
    CHECK(rows[0].low == Approx(240.0 * std::exp(-0.7415)).epsilon(0.002));
    CHECK(rows[0].high == Approx(240.0 * std::exp(0.617)).epsilon(0.002));
    const auto unsure =
        countsOnWholeMedia(counted(10, false, 4.795, 18.39), SquareCentimetres(1200.0), 0.2);
    CHECK(unsure[0].low < rows[0].low);
    CHECK(unsure[0].high > rows[0].high);
}

TEST_CASE("no media is smaller than what was measured of it, and a white card has none") {
    const DebrisFinding frame = counted(10, false, 4.795, 18.39);
    CHECK(countsOnWholeMedia(frame, SquareCentimetres(49.9), 0.0).empty());
    CHECK_THAT(mediaProblem(frame, SquareCentimetres(40.0)), Catch::Contains("50 cm²"));
    CHECK(mediaProblem(frame, SquareCentimetres(50.0)).empty());
    CHECK(countsOnWholeMedia(counted(10, true, 4.795, 18.39), SquareCentimetres(1200.0), 0.0)
              .empty());
}

// By hand: 10 pieces in 250 ml are 4 per 100 ml. Of none the upper limit of the mean is 3.689
// (Garwood 1936, published): 1.4756 per 100 ml, times exp(1.96 x 0.025).
TEST_CASE("a strained sample is counted per 100 ml, none included") {
    const auto rows = countsPer100Ml(counted(10, true, 4.795, 18.39), Millilitres(250.0));
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].count == Approx(4.0));
    CHECK(rows[0].low == Approx(4.0 * std::exp(-std::hypot(0.735, 0.049))).epsilon(0.002));
    CHECK(rows[0].high == Approx(4.0 * std::exp(std::hypot(0.6092, 0.049))).epsilon(0.002));
    const auto none = countsPer100Ml(counted(0, true, 0.0, 3.689), Millilitres(250.0));
    CHECK(none[0].count == 0.0);
    CHECK(none[0].low == 0.0);
    CHECK(none[0].high == Approx(1.4756 * std::exp(0.049)).epsilon(0.001));
    CHECK(countsPer100Ml(counted(10, false, 4.795, 18.39), Millilitres(250.0)).empty());
    CHECK_THROWS_AS(countsPer100Ml(counted(1, true, 0.1, 5.6), Millilitres(0.0)), std::logic_error);
}

TEST_CASE("the side of a filter and the volume belong to how a sample was taken") {
    SampleBasis clean, dirty, strained;
    clean.side = FilterSide::clean;
    dirty.side = FilterSide::dirty;
    strained.volume = Millilitres(100.0);
    CHECK(samplingOf("cut open", clean) == "cut open, clean side");
    CHECK(samplingOf("", dirty) == "dirty side");
    CHECK(samplingOf("", strained) == "100 ml strained");
    CHECK(samplingOf("cut open", {}) == "cut open");
    CHECK(placeWords(Place::filter, clean) == "filter, clean side");
    CHECK(placeWords(Place::pan, {}) == "pan");
    CHECK(filterSideFromName("dirty") == FilterSide::dirty);
    CHECK_THROWS_AS(filterSideFromName("left"), std::invalid_argument);
}
