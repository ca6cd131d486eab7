// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>

#include <fstream>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

/// Writes card.png into the shop's folder: a photo of a close card of this serial, with one piece
/// in its window.
void takePhotoOf(const std::string& serial, const Shop& shop) {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    drawing.serial = serial;
    drawing.pieces.push_back({{50.0, 40.0}, 2.0, 1.0, 20.0, {0.05, 0.05, 0.05}});
    Camera camera;
    camera.size = {2800, 2100};
    camera.focal = 2100.0;
    camera.distance = 95.0; // 22 px/mm
    cv::imwrite((shop.folder.path() / "card.png").string(),
                photograph(drawing, camera, Exposure{}).bgr);
}

std::string printedSerial(const Shop& shop, const std::string& layout) {
    const std::string out =
        shop.run({"card", "--layout", layout, "--out", layout + ".pdf", "--force"}).out;
    return out.substr(5, 7); // "Card K7Q-M4X: ..."
}

nlohmann::json measuredCard(const Shop& shop, std::vector<std::string> more = {}) {
    more.insert(more.begin(), {"card.png", "--json"});
    const ProgramResult outcome = shop.verb("measure", more);
    REQUIRE(outcome.exit == 0);
    return nlohmann::json::parse(outcome.out);
}

} // namespace

TEST_CASE("a photo's card is found in the book by the code on it", "[program]") {
    const Shop shop;
    const std::string serial = printedSerial(shop, "close");
    takePhotoOf(serial, shop);
    const nlohmann::json unmeasured = measuredCard(shop);
    CHECK(unmeasured["card"]["serial"] == serial);
    CHECK(unmeasured["card"]["print_scale_checked"] == false);
    CHECK_THAT(unmeasured["cautions"].dump(),
               Contains("The check bar of card " + serial + " is not in the book"));

    REQUIRE(shop.run({"card", "--serial", serial, "--measured-bar", "79.2"}).exit == 0);
    const nlohmann::json known = measuredCard(shop);
    CHECK(known["card"]["print_scale"] == 0.99);
    CHECK(known["card"]["print_scale_checked"] == true);
    CHECK(known["cautions"].empty());
    CHECK(measuredCard(shop, {"--measured-bar", "80.0"})["card"]["print_scale"] == 1.0);

    REQUIRE(shop.run({"vehicle", "add", "V"}).exit == 0);
    REQUIRE(shop.run({"visit", "add", "V", "--date", "2025-03-14"}).exit == 0);
    const ProgramResult added =
        shop.run({"add", "--visit", "1", "card.png", "--place", "white-card"});
    CHECK(added.exit == 0);
    const auto report = nlohmann::json::parse(shop.run({"report", "--visit", "1", "--json"}).out);
    CHECK(report["samples"][0]["card"]["serial"] == serial);
    CHECK(report["samples"][0]["card"]["print_scale"] == 0.99);
}

TEST_CASE("a card that the book does not know is reported", "[program]") {
    const Shop shop;
    takePhotoOf("K7Q-M4X", shop);
    CHECK_THAT(measuredCard(shop)["cautions"].dump(), Contains("no book here knows"));
    (void)printedSerial(shop, "close");
    const std::string caution = measuredCard(shop)["cautions"].dump();
    CHECK_THAT(caution, Contains("K7Q-M4X, a card that this book does not know"));
    CHECK_THAT(caution,
               Contains("swarfbook card --serial K7Q-M4X --layout close --measured-bar MM"));
    REQUIRE(shop.run({"card", "--serial", "K7Q-M4X", "--layout", "close", "--measured-bar", "80.4"})
                .exit == 0);
    CHECK(measuredCard(shop)["card"]["print_scale"] == 1.005);
}

TEST_CASE("a photo of a coded card is measured although the book is damaged", "[program]") {
    const Shop shop;
    (void)printedSerial(shop, "close");
    takePhotoOf("K7Q-M4X", shop);
    std::ofstream(shop.folder.path() / "book" / "book.db") << "no database";
    CHECK_THAT(measuredCard(shop)["cautions"].dump(), Contains("no book here knows"));
    CHECK(shop.run({"measure", "card.png", "--book", "book"}).exit == 3);
}

TEST_CASE("a typed serial that differs from the one on the card is questioned", "[program]") {
    const Shop shop;
    takePhotoOf("K7Q-M4X", shop);
    const std::string other = printedSerial(shop, "close");
    REQUIRE(shop.run({"card", "--serial", other, "--measured-bar", "79.2"}).exit == 0);
    REQUIRE(shop.run({"vehicle", "add", "V"}).exit == 0);
    REQUIRE(shop.run({"visit", "add", "V", "--date", "2025-03-14"}).exit == 0);
    const std::vector<std::vector<std::string>> wrong{
        {"measure", "card.png", "--serial", other},
        {"add", "--visit", "1", "card.png", "--place", "white-card", "--serial", other},
        {"check", "card.png", "--known-size", "2mm", "--serial", other}};
    for (const auto& words : wrong) {
        INFO(words[0]);
        const ProgramResult outcome = shop.run(words);
        CHECK(outcome.exit == 2);
        CHECK(outcome.out.empty());
        CHECK_THAT(outcome.err, Contains("shows card K7Q-M4X") && Contains("says " + other));
    }
    CHECK_THAT(shop.run({"visit", "show", "1"}).out, !Contains("card.png"));
    CHECK(shop.run({"measure", "card.png", "--serial", "k7q-m4x"}).exit == 0);
}
