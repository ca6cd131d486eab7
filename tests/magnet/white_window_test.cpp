// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/white_window.h"
#include "photo/decode.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>
#include <map>

using namespace swarfbook;
namespace fs = std::filesystem;

// Outside truth: path-traced photos of known places, beside them as truth/<name>.json.
namespace {

std::map<fs::path, std::string> placesOfPhotos() {
    std::map<fs::path, std::string> places;
    for (const fs::path& folder :
         {fs::path(SWARFBOOK_SOURCE_DIR) / "demo-images", fs::path(SWARFBOOK_SHARED_DIR) / "photos",
          fs::path(SWARFBOOK_SHARED_DIR) / "rendered"}) {
        if (!fs::exists(folder / "truth"))
            continue;
        for (const auto& entry : fs::directory_iterator(folder / "truth")) {
            const fs::path photo = folder / (entry.path().stem().string() + ".jpg");
            if (entry.path().extension() == ".json" && fs::exists(photo))
                places[photo] =
                    nlohmann::json::parse(std::ifstream(entry.path())).value("place", "");
        }
    }
    return places;
}

} // namespace

TEST_CASE("a magnet or a cut window said to be debris on white paper is asked about, no pad is") {
    const auto layouts =
        loadCardLayouts(fs::path(SWARFBOOK_SOURCE_DIR) / "calibration" / "reference-card.json");
    for (const auto& [file, place] : placesOfPhotos()) {
        const auto photo = decodePhoto(*readPhotoFile(file), file.filename().string());
        REQUIRE(photo.has_value());
        const auto calibrated = calibratePhoto(*photo, layouts, std::nullopt);
        if (!calibrated) // those that are refused
            continue;
        const WhiteWindow window = whiteWindowOf(*calibrated);
        INFO(file << ", place " << place << ": paper " << window.paperShare << ", dark thing "
                  << window.darkThing);
        const auto questions = placeQuestions(window);
        if (place == "pad" || place == "strained")
            CHECK(questions.empty());
        else if (place == "magnet")
            CHECK(questions.size() == 1);
        else if (place == "pan") // a tray or a filter may be as white as paper
            CHECK(questions.size() == 1);
    }
}
