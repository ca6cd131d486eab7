// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>

#include <regex>

using namespace swarfbook;
using namespace swarfbook::test;
using namespace swarfbook::web;
using Catch::Matchers::Contains;

namespace {

/// The trial visit and a later one, a photo each.
struct TwoTrialVisits {
    TrialWorkshop trial;
    std::int64_t later = 0;

    TwoTrialVisits() {
        trial.addTrialPhoto();
        Book book = Book::open(trial.book);
        const std::int64_t vehicle = book.visit(trial.visit).vehicleId;
        later = book.addVisit(visitOn(vehicle, "2026-03-14", 140000.0)).id;
        book.addPhoto(newPhoto(later), photoBytes(2), findingWithWindow(photoBytes(2)));
    }
    Answer compared(const std::string& query = "") {
        return trial.get("/visit/" + std::to_string(later) + "/compare", query);
    }
};

std::vector<std::string> allOf(const std::string& html, const std::string& pattern) {
    const std::regex wanted(pattern);
    std::vector<std::string> found;
    for (std::sregex_iterator at(html.begin(), html.end(), wanted), end; at != end; ++at)
        found.push_back((*at)[1].str());
    return found;
}

} // namespace

TEST_CASE("two visits stand side by side, a millimetre as long in one photo as in the other") {
    TwoTrialVisits two;
    const std::string body = two.compared().body;
    CHECK_THAT(body, Contains("Then") && Contains("2025") && Contains("Now") && Contains("2026"));
    const std::vector<std::string> millimetres = allOf(body, "data-width=\"([0-9.]+)\"");
    const std::vector<std::string> pixels =
        allOf(body, "/above\" alt=\"[^\"]*\" width=\"([0-9]+)\"");
    REQUIRE(millimetres == std::vector<std::string>{"48.000", "48.000"});
    REQUIRE(pixels.size() == 2);
    const double scale = std::stod(allOf(body, "data-scale=\"([0-9.]+)\"").at(0));
    for (const std::string& width : pixels)
        CHECK(std::stod(width) == Approx(48.0 * scale).margin(1.0));
    CHECK(allOf(body, "(viewBox=\"20.000 15.000 48.000 40.000\")").size() == 2);
    CHECK_THAT(body, Contains("30.00,20.00 31.00,20.00")); // an outline where the finding has it
}

TEST_CASE("the counts of both are beside the photos, or why they cannot be compared") {
    TwoTrialVisits two;
    const std::string body = two.compared().body;
    CHECK_THAT(body, Contains("last documented clean")); // no visit says the distance since then
    CHECK_THAT(body, Contains("Wear score at each visit"));
    CHECK(two.trial.get(two.trial.at("/trend.png")).status == 409); // no score, no chart
}

TEST_CASE("a visit is compared with earlier ones of its vehicle alone") {
    TwoTrialVisits two;
    CHECK_THAT(two.trial.get(two.trial.at("/compare")).body, Contains("first visit"));
    for (const char* with : {"with=77", "with=x", "with=-1"})
        CHECK(two.compared(with).status == 400);
    CHECK(two.compared("place=moon").status == 200);
}

TEST_CASE("a photo whose picture cannot be shown is refused in words") {
    TwoTrialVisits two;
    const Answer above = two.trial.get("/photo/1/above"); // a trial photo's bytes are no picture
    CHECK(above.status == 409);
    CHECK_THAT(above.body, Contains("<h1>"));
}

TEST_CASE("the fuzz on the magnet at both visits is told, or why it is not compared") {
    TwoTrialVisits two;
    CHECK_THAT(two.compared().body, !Contains("Fuzz on the magnet"));
    const auto addMagnet = [&](std::int64_t visit, int seed, double share, MagnetShape shape) {
        Measurement finding = findingWithWindow(photoBytes(seed));
        finding.place = Place::magnet;
        finding.magnet.emplace();
        finding.magnet->shape = shape;
        finding.magnet->coveredShare = {Share(share), Share(0.02)};
        Book::open(two.trial.book)
            .addPhoto(newPhoto(visit, Place::magnet), photoBytes(seed), finding);
    };
    addMagnet(two.trial.visit, 3, 0.3, MagnetShape::ring);
    addMagnet(two.later, 4, 0.5, MagnetShape::ring);
    CHECK_THAT(two.compared().body, Contains("There is more fuzz on the magnet than on") &&
                                        Contains("then 30 \u00b1 4 %") &&
                                        Contains("Fuzz at each visit"));
    addMagnet(two.later, 5, 0.6, MagnetShape::block);
    CHECK_THAT(two.compared().body, Contains("showed a ring, now a block"));
}
