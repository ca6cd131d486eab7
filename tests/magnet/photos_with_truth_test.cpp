// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/calibrated_photo.h"
#include "magnet/measure_magnet.h"
#include "photo/decode.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>

using namespace swarfbook;

// Outside truth: path-traced photos whose meshes are known, beside them as truth/<name>.json.

TEST_CASE("magnets in photos with truth are measured within the limits") {
    const std::filesystem::path photos = std::filesystem::path(SWARFBOOK_SHARED_DIR) / "photos";
    const std::string name = GENERATE("magnet-block", "magnet-ring-heavy", "magnet-ring-light");
    const auto file = photos / (name + ".jpg");
    if (!std::filesystem::exists(file)) {
        WARN("passed over: " + file.string() + " is not there");
        return;
    }
    const auto truth =
        nlohmann::json::parse(std::ifstream(photos / "truth" / (name + ".json"))).at("magnet");
    const auto bytes = readPhotoFile(file);
    REQUIRE(bytes.has_value());
    const auto photo = decodePhoto(*bytes, name);
    REQUIRE(photo.has_value());
    const auto layouts = loadCardLayouts(std::filesystem::path(SWARFBOOK_SOURCE_DIR) /
                                         "calibration" / "reference-card.json");
    const auto calibrated = calibratePhoto(*photo, layouts, std::nullopt);
    REQUIRE(calibrated.has_value());
    const auto search = measureMagnet(*calibrated, cropWindow(*calibrated, Millimetres(0.25)));
    REQUIRE(std::holds_alternative<MagnetReading>(search));
    const MagnetReading& reading = std::get<MagnetReading>(search);
    const MagnetFinding& m = reading.finding;

    INFO(name);
    CHECK(magnetShapeName(m.shape) == truth.at("kind").get<std::string>());
    const double first = truth.value("od", truth.value("length", 0.0));
    const double second = truth.value("id", truth.value("width", 0.0));
    REQUIRE(m.size.size() == 2);
    CHECK(m.size[0].value() == Approx(first).margin(0.03 * first));
    CHECK(m.size[1].value() == Approx(second).margin(0.03 * second + 0.3));
    CHECK(m.coveredShare.value.value() ==
          Approx(truth.at("covered_fraction").get<double>()).margin(0.05));
    CHECK(m.overhangMean.value() == Approx(truth.at("overhang_mean_mm").get<double>()).margin(0.5));
    CHECK(m.overhangMax.value() == Approx(truth.at("overhang_max_mm").get<double>()).margin(0.8));
    CHECK_FALSE(m.outlineLost);
    CHECK(m.sliversTold == (name != "magnet-block")); // lit by a torch from the side
    CHECK(reading.faceHeight.value.value() ==
          Approx(truth.at("face_height_mm").get<double>())
              .margin(2.0 * reading.faceHeight.standardUncertainty.value()));
}

TEST_CASE("photos of paper with debris hold no magnet") {
    const auto file = std::filesystem::path(SWARFBOOK_SHARED_DIR) / "photos" / "pad-heavy-1.jpg";
    if (!std::filesystem::exists(file)) {
        WARN("passed over: " + file.string() + " is not there");
        return;
    }
    const auto photo = decodePhoto(*readPhotoFile(file), "pad-heavy-1");
    REQUIRE(photo.has_value());
    const auto calibrated =
        calibratePhoto(*photo,
                       loadCardLayouts(std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "calibration" /
                                       "reference-card.json"),
                       std::nullopt);
    REQUIRE(calibrated.has_value());
    CHECK(std::holds_alternative<NoMagnet>(
        measureMagnet(*calibrated, cropWindow(*calibrated, Millimetres(0.25)))));
}
