// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>

using namespace swarfbook::test;
using Catch::Contains;

namespace {

/// A shop with its own book and photos of a drawn shank of 2.00 mm.
struct PhotoShop : Shop {
    void photograph(const std::string& name, double tilt, std::uint64_t seed) const {
        Drawing drawing;
        drawing.layout = layoutNamed("close");
        drawing.bodies.push_back({{50, 38}, 2.0, 36.0, 20.0});
        Camera camera;
        camera.tilt = tilt;
        camera.azimuth = 50.0;
        camera.distance = 105.0;
        Exposure exposure;
        exposure.seed = seed;
        REQUIRE(cv::imwrite((folder.path() / name).string(),
                            swarfbook::test::photograph(drawing, camera, exposure).bgr,
                            {cv::IMWRITE_PNG_COMPRESSION, 1}));
    }
};

} // namespace

TEST_CASE("a shank is read, kept in the book and listed with how well readings repeat",
          "[program]") {
    const PhotoShop shop;
    for (int i = 0; i < 4; ++i)
        shop.photograph("shank-" + std::to_string(i) + ".png", 3.0 + 4.0 * i,
                        static_cast<std::uint64_t>(i + 1));
    const std::vector<std::string> usual{"--known-size",   "2.00mm", "--thing", "shank",
                                         "--measured-bar", "80.0",   "--phone", "bench phone"};
    const auto by = [&](const std::string& name, const std::string& a, const std::string& b) {
        std::vector<std::string> words = usual;
        words.insert(words.end(), {"--by", name, a, b});
        return shop.verb("check", words);
    };
    const ProgramResult first = by("R. Demo", "shank-0.png", "shank-1.png");
    INFO(first.out << first.err);
    CHECK(first.exit == 0);
    CHECK_THAT(first.out,
               Contains("agrees") && Contains("known: 2.00mm") && Contains("uncertainty from:"));
    CHECK(by("K. Demo", "shank-2.png", "shank-3.png").exit == 0);
    const ProgramResult list = shop.run({"check", "--list"});
    CHECK(list.exit == 0);
    CHECK_THAT(list.out, Contains("4 of 4 readings agree") && Contains("Repeatability") &&
                             Contains("Reproducibility") && Contains("bench phone") &&
                             Contains("R. Demo"));
    const auto document = nlohmann::json::parse(shop.run({"check", "--list", "--json"}).out);
    CHECK(document.at("checks").size() == 4);
    CHECK(document.at("study").at("people").size() == 2);
    for (const auto& one : document.at("checks")) // truth: the drawn diameter
        CHECK(one.at("size_mm").get<double>() == Approx(2.0).margin(0.02));
}

TEST_CASE("a photo without the thing is refused and nothing is kept", "[program]") {
    const PhotoShop shop;
    shop.photograph("shank.png", 5.0, 9);
    const ProgramResult other = shop.run({"check", "--known-size", "5/16in", "shank.png"});
    CHECK(other.exit == 1);
    CHECK_THAT(other.out, Contains("not read") && Contains("what to do"));
    const ProgramResult none = shop.run({"check", "--known-size", "2.00mm", "nowhere.png"});
    CHECK(none.exit == 1);
    CHECK_THAT(none.out, Contains("could not be measured"));
    CHECK(shop.run({"check", "--list"}).exit == 1);
    const ProgramResult read =
        shop.run({"check", "--known-size", "2.00mm", "--no-book", "--json", "shank.png"});
    CHECK(read.exit == 0);
    CHECK(nlohmann::json::parse(read.out).at("reading").at("agrees") == true);
    CHECK(shop.run({"check", "--list"}).exit == 1);
}

TEST_CASE("words that make no sense for a check are answered with what to type", "[program]") {
    const PhotoShop shop;
    const auto wrong = [&](const std::vector<std::string>& words, const std::string& hint) {
        const ProgramResult told = shop.verb("check", words);
        CHECK(told.exit == 2);
        CHECK(told.out.empty());
        CHECK_THAT(told.err, Contains(hint));
    };
    wrong({}, "--known-size 2.00mm PHOTO");
    wrong({"a.jpg"}, "--known-size");
    wrong({"a.jpg", "--known-size", "2"}, "no unit");
    wrong({"a.jpg", "--known-size", "2mm", "--thing", "coin"}, "shank, wire, strip or ball");
    wrong({"a.jpg", "--known-size", "2mm", "--thickness", "0.5mm"}, "--thing strip");
    wrong({"a.jpg", "--known-size", "2mm", "--no-book", "--serial", "C0001"}, "--measured-bar");
    wrong({"--list", "--by", "me"}, "takes no --by");
}
