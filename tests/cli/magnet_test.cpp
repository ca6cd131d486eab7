// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/observation.h"
#include "cli/shop.h"
#include "entry/known_magnet.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

// 1 inch = 25.4 mm by definition.
TEST_CASE("form and size of a magnet are typed beside its photo", "[magnet]") {
    const KnownMagnet ring = knownMagnetTyped("ring", "37mm", Place::magnet);
    CHECK(ring.shape == MagnetShape::ring);
    CHECK(ring.size->value() == Approx(37.0));
    CHECK(knownMagnetTyped("square", "1.5 in", Place::magnet).size->value() == Approx(38.1));
    CHECK_FALSE(knownMagnetTyped({}, {}, Place::pan).size);
    CHECK_THROWS_WITH(knownMagnetTyped({}, "37mm", Place::pan), Contains("--place magnet"));
    CHECK_THROWS_WITH(knownMagnetTyped({}, "3mm", Place::magnet), Contains("8 to 64 mm"));
    CHECK_THROWS_AS(knownMagnetTyped("star", {}, Place::magnet), UsageError);
}

TEST_CASE("a visit's magnets are known as they were typed in last", "[magnet]") {
    Book book = Book::inMemory();
    const std::int64_t visit =
        book.addVisit(visitOn(book.addVehicle(labelled("DEMO-01")).id, "2025-03-14", 1000.0)).id;
    CHECK_FALSE(knownMagnetOf(book, visit).shape);
    const auto type = [&](const MagnetsFitted& magnets) {
        book.addObservation({0, visit, "magnets", toJson(Observation(magnets)).dump(), ""});
    };
    type({"2", MagnetForm::ring, Typed<Millimetres>{Millimetres(30.0), "30mm"}, {}});
    CHECK(knownMagnetOf(book, visit).shape == MagnetShape::ring);
    CHECK(knownMagnetOf(book, visit).size->value() == 30.0);
    type({"1", MagnetForm::notSaid, {}, {}});
    CHECK_FALSE(knownMagnetOf(book, visit).shape);
    CHECK_FALSE(knownMagnetOf(book, visit).size);
}

// Truth of the demo photo: a ring of 37 mm.
TEST_CASE("the size that is typed in for a visit's magnets is measured with, afterwards too",
          "[photos][magnet]") {
    const Shop shop;
    const std::string photo = (demoPhotos() / "magnet-ring-heavy.jpg").string();
    REQUIRE(shop.run({"vehicle", "add", "DEMO-03"}).exit == 0);
    REQUIRE(shop.run({"visit", "add", "DEMO-03", "--date", "2025-03-14"}).exit == 0);
    REQUIRE(shop.run({"add", "--visit", "1", photo, "--place", "magnet"}).exit == 0);
    const auto report = [&] {
        return shop.run({"report", "--visit", "1", "--text", "--full"}).out;
    };
    CHECK_THAT(report(), Contains("above the card") && Contains("estimated"));
    REQUIRE(
        shop.run({"observe", "--visit", "1", "magnets", "2", "--form", "ring", "--size", "37mm"})
            .exit == 0);
    REQUIRE(shop.run({"visit", "measure", "1"}).exit == 0);
    CHECK_THAT(report(), Contains("by its size as typed in"));
    CHECK_THAT(shop.run({"measure", photo, "--place", "magnet", "--magnet-form", "ring",
                         "--magnet-size", "50mm"})
                   .out,
               Contains("said to be 50 mm, and in the photo it is 3"));
}
