// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/fluid_cleanliness.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;

namespace {

/// A white card complete down to `limit` that holds pieces of these sizes, µm.
DebrisFinding strainedThrough(double limitUm, const std::vector<double>& sizesUm) {
    DebrisFinding finding;
    finding.onWhiteCard = true;
    finding.detectionLimit = Millimetres(limitUm / 1000.0);
    finding.resolutionLimit = finding.detectionLimit;
    for (const double size : sizesUm) {
        Particle piece;
        piece.maxFeret = {Millimetres(size / 1000.0), Millimetres(0.0)};
        finding.particles.push_back(piece);
    }
    return finding;
}

} // namespace

// Source: ISO 4406, published table of scale numbers (counts per ml, more than / up to and with);
// that there is a ">28" is from memory.
TEST_CASE("scale numbers of ISO 4406 change just above each published limit") {
    const double limits[] = {0.01, 0.02, 0.04, 0.08, 0.16,  0.32,  0.64,  1.3,    2.5,   5,
                             10,   20,   40,   80,   160,   320,   640,   1300,   2500,  5000,
                             10e3, 20e3, 40e3, 80e3, 160e3, 320e3, 640e3, 1300e3, 2500e3};
    int number = 0;
    for (const double limit : limits) {
        INFO(limit);
        CHECK(iso4406Number(limit) == std::to_string(number));
        CHECK(iso4406Number(limit * 1.0001) ==
              (number < 28 ? std::to_string(number + 1) : std::string(">28")));
        ++number;
    }
    CHECK(iso4406Number(0.0) == "0");
    CHECK_THROWS_AS(iso4406Number(-0.1), std::logic_error);
    CHECK_THROWS_AS(iso4406Number(std::nan("")), std::logic_error);
}

// Source: worked by hand from the published table. 1.3, 2.5, 1300 and 2500 are the standard's own
// rounded limits: powers of two (1.28, 2.56, 1280, 2560) give another number for these counts.
TEST_CASE("worked counts have their published scale numbers, rounded limits included") {
    const std::pair<double, const char*> rows[] = {
        {85.9, "14"}, {4.0, "9"},  {0.9, "7"},   {640, "16"},  {640.1, "17"}, {5000, "19"},
        {1300, "17"}, {160, "14"}, {0.64, "6"},  {0.65, "7"},  {1.29, "7"},   {1.31, "8"},
        {2.51, "9"},  {2.55, "9"}, {1290, "17"}, {2550, "19"}, {1.3, "7"},    {2.5, "8"}};
    for (const auto& [perMl, number] : rows) {
        INFO(perMl);
        CHECK(iso4406Number(perMl) == number);
    }
}

// Source: the limit itself belongs to the lower number (published table). Dividing a count by a
// volume in floating numbers must not lift it above: 0.1 + 0.2 > 0.3 there.
TEST_CASE("arithmetic does not push a count at a limit into the next number") {
    CHECK(iso4406Number((0.1 + 0.2) * 0.32 / 0.3) == "5");
    for (const double ml : {3.0, 7.0, 33.0, 57.0, 100.0, 350.0})
        CHECK(iso4406Entry(std::lround(ml * 640.0), Millilitres(ml)) == "16");
    CHECK(iso4406Entry(std::lround(100.0 * 640.0) + 1, Millilitres(100.0)) == "17");
}

// Source: ISO 4406, published example 14/12/≥7: a number is marked where fewer than 20 were
// counted.
TEST_CASE("fewer than twenty pieces mark their number") {
    CHECK(iso4406Entry(19, Millilitres(19.0)) == "≥7"); // 1 per ml
    CHECK(iso4406Entry(20, Millilitres(20.0)) == "7");
    CHECK(iso4406Entry(0, Millilitres(100.0)) == "≥0");
    CHECK_THROWS_AS(iso4406Entry(-1, Millilitres(1.0)), std::logic_error);
    CHECK_THROWS_AS(iso4406Entry(1, Millilitres(0.0)), std::logic_error);
}

// Source: by microscope from 5 and from 15 µm up, longest side (ISO 4406, published); the dash in
// the first place is from memory. 300 pieces from 5 µm up in 1 ml: 15; 25 from 15 µm up: 12.
TEST_CASE("the microscope form counts from 5 and from 15 um up where the photo shows them") {
    std::vector<double> sizes(24, 40.0);
    sizes.push_back(15.0);
    sizes.resize(300, 5.0);
    sizes.push_back(4.99);
    const MicroscopeCode code = iso4406ByMicroscope(strainedThrough(5.0, sizes), Millilitres(1.0));
    CHECK(code.code == "-/15/12");
    CHECK(code.whyNot.empty());
}

TEST_CASE("where a photo cannot show pieces of 5 um there is no code, and it says why") {
    const MicroscopeCode coarse =
        iso4406ByMicroscope(strainedThrough(220.0, {400.0}), Millilitres(100.0));
    CHECK(coarse.code.empty());
    CHECK_THAT(coarse.whyNot, Catch::Contains("220 µm") && Catch::Contains("5 and from 15 µm"));
    CHECK(iso4406ByMicroscope(strainedThrough(5.01, {400.0}), Millilitres(1.0)).code.empty());
    DebrisFinding part = strainedThrough(4.0, {400.0});
    part.onWhiteCard = false;
    CHECK_THAT(iso4406ByMicroscope(part, Millilitres(1.0)).whyNot, Catch::Contains("a part of"));
    part.shownOnly = ShownOnly{"Few can be relied on.", "Spread the debris."};
    CHECK_THAT(iso4406ByMicroscope(part, Millilitres(1.0)).whyNot,
               Catch::Contains("Spread the debris."));
}
