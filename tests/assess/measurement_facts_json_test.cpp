// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/measured_pan.h"
#include "assess/measurement_json.h"

#include <catch2/catch.hpp>

#include <stdexcept>

using namespace swarfbook;
using nlohmann::json;
using nlohmann::ordered_json;
using swarfbook::test::measuredPan;

// Source: the project's own written format. The counts on the whole media are worked out by hand:
// 3.6 per 100 cm2 on 1200 cm2 are 43.2; 4 pieces in 50 ml are 8 per 100 ml, level 3 of the
// published table (more than 4, up to 8).
TEST_CASE("the typed facts of the sample are written, read back and used for scaling") {
    Measurement m = measuredPan();
    CHECK(toJson(m)["sample"].is_null());
    m.place = Place::filter;
    m.basis.side = FilterSide::clean;
    m.basis.mediaArea = SquareCentimetres(1200.0);
    const ordered_json filter = toJson(m)["sample"];
    CHECK(filter["filter_side"] == "clean");
    CHECK(filter["media_cm2"] == 1200.0);
    CHECK(filter["volume_ml"].is_null());
    CHECK(filter["whole_media"][0]["count"] == Approx(43.2));
    CHECK(measurementFromJson(toJson(m)).basis == m.basis);
    m.place = Place::strained;
    m.basis = {};
    m.basis.volume = Millilitres(50.0);
    m.debris->onWhiteCard = true;
    m.debris->counts[0].per100Cm2 = 4.0;
    const ordered_json strained = toJson(m)["sample"];
    CHECK(strained["per_100_ml"][0]["count"] == Approx(8.0));
    CHECK(strained["per_100_ml"][0]["level"] == "3");
    CHECK(strained["iso_4406"].is_null());
    CHECK_THAT(strained["iso_4406_why_not"].get<std::string>(), Catch::Contains("210 µm"));
    json wrong = toJson(m);
    wrong["sample"]["volume_ml"] = -3.0;
    CHECK_THROWS_AS(measurementFromJson(wrong), std::invalid_argument);
    wrong["sample"] = {{"filter_side", "left"}};
    CHECK_THROWS_AS(measurementFromJson(wrong), std::invalid_argument);
}

// Source: the project's own written format. Documents of earlier programs do not have the field.
TEST_CASE("the type by each kind of evidence is written and read back") {
    Measurement m = measuredPan();
    TypeEvidence& said = m.debris->particles[0].said;
    said.photo = TypeSaid{ParticleType::lining, 0.62};
    said.twoLights = TypeSaid{ParticleType::plastic, 0.81};
    said.sweep = Ferrous::no;
    said.hand = ParticleType::plastic;
    const ordered_json d = toJson(m);
    CHECK(d["particles"][0]["type_said"] == ordered_json::parse(R"({"hand": "plastic",
        "sweep": "not magnetic", "two_lights": {"type": "plastic", "probability": 0.81},
        "photo": {"type": "lining", "probability": 0.62}})"));
    CHECK(toJson(measurementFromJson(d)) == d);
    json earlier = d;
    earlier["particles"][0].erase("type_said");
    const Measurement read = measurementFromJson(earlier);
    REQUIRE(read.debris->particles[0].said.photo);
    CHECK(read.debris->particles[0].said.photo->type == ParticleType::brightMetal);
    CHECK(read.debris->particles[0].said.photo->probability == 0.91);
    CHECK_FALSE(read.debris->particles[0].said.hand);
    json wrong = d;
    wrong["particles"][0]["type_said"]["sweep"] = "perhaps";
    CHECK_THROWS_AS(measurementFromJson(wrong), std::invalid_argument);
}
