// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/finding_options.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

TEST_CASE("how a photo was measured comes back as it was kept") {
    const std::string sum(64, 'a');
    for (const bool all : {true, false}) {
        FindingOptions options;
        options.place = Place::tray;
        if (all) {
            options.basis.side = FilterSide::clean;
            options.basis.mediaArea = SquareCentimetres(1200.0);
            options.basis.volume = Millilitres(100.0);
            options.serial = "C0001";
            options.cleanReference = FindingOptions::SecondPhoto{sum, "cleaned.jpg"};
            options.afterMagnet = FindingOptions::SecondPhoto{std::string(64, 'b'), "swept.jpg"};
            options.typedBarMm = 79.6;
            options.measuredBarMm = 79.5;
        }
        const auto back = findingOptionsFrom(textOf(options));
        REQUIRE(back);
        CHECK(back->place == Place::tray);
        CHECK(back->basis == options.basis);
        CHECK(back->serial == options.serial);
        CHECK(back->cleanReference.has_value() == all);
        CHECK(back->afterMagnet.has_value() == all);
        if (all) {
            CHECK(back->afterMagnet->sha256 == std::string(64, 'b'));
            CHECK(back->afterMagnet->file == "swept.jpg");
            CHECK(back->cleanReference->sha256 == sum);
            CHECK(back->cleanReference->file == "cleaned.jpg");
        }
        CHECK(back->typedBarMm == options.typedBarMm);
        CHECK(back->measuredBarMm == options.measuredBarMm);
    }
}

// The names are those that books of earlier programs hold.
TEST_CASE("what earlier programs kept is read") {
    const auto options = findingOptionsFrom(
        R"({"blank":null,"measured_bar_mm":79.6,"place":"pan","serial":"C0001","typed_bar_mm":null})");
    REQUIRE(options);
    CHECK(options->place == Place::pan);
    CHECK(options->serial == "C0001");
    CHECK(options->measuredBarMm == 79.6);
    CHECK_FALSE(options->typedBarMm);
    CHECK(findingOptionsFrom(R"({"place":"pad"})")->serial.empty());
}

TEST_CASE("a damaged part of it counts as not given, and text of another kind as nothing") {
    for (const char* none : {"", "x", "[]", "7", "\"pan\"", "null"})
        CHECK_FALSE(findingOptionsFrom(none));
    const auto options = findingOptionsFrom(
        R"({"place":"../..","serial":7,"typed_bar_mm":"79","measured_bar_mm":1e300,)"
        R"("blank":{"sha256":"../../etc/passwd","file":"cleaned.jpg"}})");
    REQUIRE(options);
    CHECK(options->place == Place::pad);
    CHECK(options->serial.empty());
    CHECK_FALSE(options->typedBarMm);
    CHECK_FALSE(options->measuredBarMm);
    CHECK_FALSE(options->cleanReference);
    CHECK_FALSE(findingOptionsFrom(R"({"typed_bar_mm":-3})")->typedBarMm);
    for (const char* wrong : {R"({"sample":7})", R"({"sample":{"filter_side":"left"}})",
                              R"({"sample":{"media_cm2":-1}})", R"({"sample":{"volume_ml":"x"}})"})
        CHECK(findingOptionsFrom(wrong)->basis.isEmpty());
    CHECK_FALSE(findingOptionsFrom(R"({"blank":"cleaned.jpg"})")->cleanReference);
    CHECK_FALSE(
        findingOptionsFrom(R"({"blank":{"sha256":7,"file":"cleaned.jpg"}})")->cleanReference);
}
