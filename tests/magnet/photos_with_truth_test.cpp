// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/calibrated_photo.h"
#include "magnet/measure_magnet.h"
#include "photo/decode.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <filesystem>
#include <fstream>

using namespace swarfbook;

// Outside truth: path-traced photos whose meshes are known, beside them as truth/<name>.json.

namespace {

/// The same with the size that a technician would type. Outline, share and overhang: the limits of
/// the requirements, 0.5 mm, 4 points and 0.4 mm.
void checkWithItsSize(const CalibratedPhoto& photo, const nlohmann::json& truth) {
    const double size = truth.value("od", truth.value("length", 0.0));
    const KnownMagnet said{magnetShapeFromName(truth.at("kind").get<std::string>()),
                           Millimetres(size)};
    const auto search = measureMagnet(photo, cropWindow(photo, Millimetres(0.25)), said);
    REQUIRE(std::holds_alternative<MagnetReading>(search));
    const MagnetReading& reading = std::get<MagnetReading>(search);
    const MagnetFinding& m = reading.finding;
    CHECK(reading.cautions.empty());
    REQUIRE(m.height);
    CHECK(m.height->from == HeightFrom::size);
    CHECK(m.height->value.standardUncertainty.value() < 1.5);
    CHECK(m.height->value.value.value() ==
          Approx(truth.at("face_height_mm").get<double>())
              .margin(2.0 * m.height->value.standardUncertainty.value()));
    CHECK(m.size[0].value() == Approx(size).margin(0.5));
    CHECK(m.coveredShare.value.value() ==
          Approx(truth.at("covered_fraction").get<double>()).margin(0.04));
    CHECK(m.overhangMean.value() == Approx(truth.at("overhang_mean_mm").get<double>()).margin(0.4));
    CHECK(std::abs(m.overhangMean.value() - truth.at("overhang_mean_mm").get<double>()) <
          2.5 * m.overhangUncertainty.value().value());
}

} // namespace

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
    REQUIRE(m.height);
    CHECK(m.height->value.value.value() ==
          Approx(truth.at("face_height_mm").get<double>())
              .margin(2.0 * m.height->value.standardUncertainty.value()));
    checkWithItsSize(*calibrated, truth);
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
