// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/window_look.h"
#include "photo/decode.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <vector>

using namespace swarfbook;
namespace fs = std::filesystem;

// Outside truth: path-traced photos of known places, beside them as truth/<name>.json.
namespace {

std::map<fs::path, std::string> placesOfPhotos() {
    std::map<fs::path, std::string> places;
    std::vector<fs::path> folders{fs::path(SWARFBOOK_SOURCE_DIR) / "demo-images"};
    if (std::getenv("SWARFBOOK_SHORT_TESTS") == nullptr)
        for (const char* of : {"photos", "rendered"})
            folders.push_back(fs::path(SWARFBOOK_SHARED_DIR) / of);
    for (const fs::path& folder : folders) {
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

TEST_CASE("a window that does not look like the given place is asked about, others are not") {
    const auto layouts =
        loadCardLayouts(fs::path(SWARFBOOK_SOURCE_DIR) / "calibration" / "reference-card.json");
    int whole = 0, wholeNoticed = 0, pans = 0, pansNoticed = 0;
    for (const auto& [file, place] : placesOfPhotos()) {
        const auto photo = decodePhoto(*readPhotoFile(file), file.filename().string());
        REQUIRE(photo.has_value());
        const auto calibrated = calibratePhoto(*photo, layouts, std::nullopt);
        if (!calibrated) // those that are refused
            continue;
        const WindowLook window = windowLookOf(*calibrated);
        INFO(file << ", place " << place << ": paper " << window.paperShare << ", like paper "
                  << window.likePaper << ", median " << window.medianLight << ", redness "
                  << window.redness << ", dark object " << window.darkObject);
        const bool asked = !whiteWindowQuestions(window).empty();
        const bool isWhole = place == "pad" || place == "strained";
        CHECK(asked == !isWhole);
        if (place == "magnet")
            continue;
        const bool askedWhole = !cutWindowQuestions(window, false).empty();
        if (isWhole) {
            ++whole;
            wholeNoticed += askedWhole ? 1 : 0;
        } else
            CHECK_FALSE(askedWhole);
        if (place == "pan") {
            ++pans;
            pansNoticed += cutWindowQuestions(window, true).empty() ? 0 : 1;
        }
    }
    // Under a flash or a torch paper may be lighter than the card's; a wet or bright pan is as
    // light as a tray. Those go unnoticed.
    INFO(wholeNoticed << " of " << whole << " whole windows, " << pansNoticed << " of " << pans
                      << " pans said to be trays");
    CHECK(wholeNoticed * 10 >= whole * 9);
    constexpr int enoughToJudge = 10; // the demo's photos alone have one pan
    CHECK((pans < enoughToJudge || pansNoticed * 2 >= pans));
}

TEST_CASE("a dark cut window is not taken for a white tray, one nearly as light as paper may be") {
    WindowLook window;
    window.paperShare = window.likePaper = 0.0;
    window.medianLight = 0.2;
    CHECK(cutWindowQuestions(window, true).size() == 1);
    CHECK(cutWindowQuestions(window, false).empty());
    window.medianLight = 0.8;
    CHECK(cutWindowQuestions(window, true).empty());
}
