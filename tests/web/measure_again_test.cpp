// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "rendered/rendered_card.h"
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

/// A small photo of the white card with three bars, or of nothing.
std::string smallPhoto(bool ofCard) {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    for (const double x : {30.0, 44.0, 58.0})
        drawing.pieces.push_back({{x, 36.0}, 1.5, 0.8, 20.0});
    Camera camera;
    camera.size = {1400, 1050};
    camera.focal = 1050.0;
    const cv::Mat picture = ofCard ? photograph(drawing, camera, {1.0, 1.0, 1.2, 1.0, 1}).bgr
                                   : cv::Mat(1050, 1400, CV_8UC3, cv::Scalar::all(90));
    std::vector<unsigned char> png;
    REQUIRE(cv::imencode(".png", picture, png));
    return {png.begin(), png.end()};
}

/// Photo 1 of the trial's visit, with a finding of two pieces.
void addPhoto(const TrialWorkshop& trial, const std::string& file) {
    const auto bytes = bytesOf(file);
    Book book = Book::open(trial.book);
    REQUIRE(book.addPhoto(newPhoto(trial.visit), bytes, findingWithWindow(bytes)).photo.id == 1);
}

std::size_t piecesOfPhoto1(TrialWorkshop& trial) {
    return trial.workshop->book.read(
        [](const Book& book) { return book.photo(1).measurement.debris->particles.size(); });
}

} // namespace

// Source: drawn; three bars lie on the card.
TEST_CASE("a photo is measured again on its page, and the new finding counts") {
    TrialWorkshop trial;
    addPhoto(trial, smallPhoto(true));
    CHECK_THAT(trial.get("/photo/1").body, Contains("Measure again"));
    const web::Answer answer = trial.post("/photo/1/again", "");
    INFO(answer.body);
    CHECK(answer.status == 303);
    CHECK(answer.headers.at("Location") == "/photo/1");
    CHECK(piecesOfPhoto1(trial) == 3);
}

TEST_CASE("a photo that is refused when it is measured again keeps its finding") {
    TrialWorkshop trial;
    addPhoto(trial, smallPhoto(false));
    const std::size_t before = piecesOfPhoto1(trial);
    const web::Answer answer = trial.post("/photo/1/again", "");
    CHECK(answer.status == 409);
    CHECK_THAT(answer.body, Contains("The finding from before still counts."));
    CHECK(piecesOfPhoto1(trial) == before);
}
