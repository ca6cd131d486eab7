// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/sha256.h"
#include "rendered/rendered_card.h"
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

/// A photo of four bars on the white card, drawn small: the more light a bar sends back, the more
/// it shines under that lamp.
std::string photoUnderLamp(double light, std::uint64_t seed) {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    for (int i = 0; i < 4; ++i) {
        drawing.pieces.push_back({{34.0 + 11.0 * i, 30.0 + 6.0 * (i % 3)}, 1.5, 0.8, 20.0 * i});
        drawing.pieces.back().light = {light, light, light};
    }
    Camera camera;
    camera.size = {1400, 1050};
    camera.focal = 1050.0;
    std::vector<unsigned char> png;
    REQUIRE(cv::imencode(".png", photograph(drawing, camera, {1.0, 1.0, 1.2, 1.0, seed}).bgr, png));
    return {png.begin(), png.end()};
}

/// Sends a file as a phone does and says that it shows photo 1 in a second light.
nlohmann::json sentAsSecondLight(TrialWorkshop& trial, const std::string& bytes) {
    const std::string named = "sha256=" + sha256Hex(bytesOf(bytes)) +
                              "&size=" + std::to_string(bytes.size()) + "&place=pad";
    REQUIRE(answerPaired(
                *trial.workshop,
                {"POST", trial.at("/upload"), web::fieldsOf(named + "&from=0"), {}, bytes, "1"})
                .status == 200);
    const web::Answer answer =
        trial.post(trial.at("/photo"), named + "&file=right.png&of=1&as=second-light");
    INFO(answer.body);
    REQUIRE(answer.status == 200);
    return nlohmann::json::parse(answer.body);
}

} // namespace

// Source: drawn; bars that are dark in one photo and flash in the other.
TEST_CASE("a photo in a second light that comes through the pages is used and kept") {
    TrialWorkshop trial;
    const std::string first = photoUnderLamp(0.04, 1), second = photoUnderLamp(0.30, 2);
    const auto bytes = bytesOf(first);
    {
        Book book = Book::open(trial.book);
        REQUIRE(book.addPhoto(newPhoto(trial.visit), bytes, findingWithWindow(bytes)).photo.id ==
                1);
    }
    const nlohmann::json said = sentAsSecondLight(trial, second);
    INFO(said.dump());
    CHECK(said.at("photo") == 1);
    trial.workshop->book.read([&](const Book& book) {
        const StoredPhoto now = book.photo(1);
        REQUIRE(now.measurement.secondLight);
        INFO(now.measurement.secondLight->whyNot);
        CHECK(now.measurement.secondLight->used);
        CHECK(now.measurement.secondLight->piecesInBoth == 4);
        CHECK(now.measurement.debris->particles.size() == 4);
        for (const Particle& piece : now.measurement.debris->particles)
            CHECK(piece.twoLights.has_value());
        CHECK(book.originalBytes(sha256Hex(bytesOf(second))) == bytesOf(second));
        CHECK(book.photos(trial.visit).size() == 1); // it is kept beside the first one
    });
    CHECK_THAT(trial.get("/photo/1").body, !Contains("Photo in a second light"));
}
