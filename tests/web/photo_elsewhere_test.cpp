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

/// A drawn photo of the white card with three bars, at the trial's visit as one of the pan.
void addDrawnPhoto(const TrialWorkshop& trial) {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    for (const double x : {30.0, 44.0, 58.0})
        drawing.pieces.push_back({{x, 36.0}, 1.5, 0.8, 20.0});
    Camera camera;
    camera.size = {1400, 1050};
    camera.focal = 1050.0;
    std::vector<unsigned char> png;
    REQUIRE(cv::imencode(".png", photograph(drawing, camera, {1.0, 1.0, 1.2, 1.0, 1}).bgr, png));
    const auto bytes = bytesOf(std::string(png.begin(), png.end()));
    Book book = Book::open(trial.book);
    REQUIRE(book.addPhoto(newPhoto(trial.visit), bytes, findingWithWindow(bytes)).photo.id == 1);
}

StoredPhoto photo1(TrialWorkshop& trial) {
    return trial.workshop->book.read([](const Book& book) { return book.photo(1); });
}

std::int64_t laterVisit(const TrialWorkshop& trial) {
    Book book = Book::open(trial.book);
    return book.addVisit(visitOn(book.visit(trial.visit).vehicleId, "2025-06-14")).id;
}

} // namespace

// Source: drawn; three bars lie on the white card.
TEST_CASE("a photo of the wrong visit and place is put right on its page and measured as there") {
    TrialWorkshop trial;
    addDrawnPhoto(trial);
    const std::int64_t later = laterVisit(trial);
    const std::string page = trial.get("/photo/1").body;
    CHECK_THAT(page, Contains("Other place or visit") && Contains("value=\"pan\" checked") &&
                         Contains("DEMO-01, visit " + std::to_string(later)));
    const web::Answer answer =
        trial.post("/photo/1/elsewhere", "place=pad&visit=" + std::to_string(later));
    INFO(answer.body);
    CHECK(answer.status == 303);
    CHECK(answer.headers.at("Location") == "/photo/1");
    const StoredPhoto now = photo1(trial);
    CHECK(now.visitId == later);
    CHECK(now.place == Place::pad);
    CHECK(now.measurement.place == Place::pad);
    CHECK(now.measurement.debris->onWhiteCard);
    CHECK(now.measurement.debris->particles.size() == 3);
    CHECK(Book::open(trial.book).correctionsOfPhoto(1).size() == 1);
}

TEST_CASE("a photo that cannot be measured where it is put stays where it was") {
    TrialWorkshop trial;
    trial.addTrialPhoto(); // its bytes are no photo
    for (const char* form : {"place=pad&visit=1", "place=pan&visit=1", "place=&visit=1",
                             "place=pad&visit=77", "place=pad", "place=moon&visit=1"}) {
        INFO(form);
        CHECK(trial.post("/photo/1/elsewhere", form).status >= 400);
    }
    CHECK(photo1(trial).place == Place::pan);
    CHECK(photo1(trial).measurement.debris->particles.size() == 2);
    CHECK(Book::open(trial.book).correctionsOfPhoto(1).empty());
}

TEST_CASE("the side of a filter can be said afterwards") {
    TrialWorkshop trial;
    addDrawnPhoto(trial);
    const std::string visit = std::to_string(trial.visit);
    CHECK(trial.post("/photo/1/elsewhere", "place=filter&side=clean&volume=x&visit=" + visit)
              .status == 303);
    CHECK(photo1(trial).measurement.basis.side == FilterSide::clean);
    CHECK(trial.post("/photo/1/elsewhere", "place=filter&side=dirty&visit=" + visit).status == 303);
    CHECK(photo1(trial).measurement.basis.side == FilterSide::dirty);
    CHECK(Book::open(trial.book).correctionsOfPhoto(1).size() == 1); // it was put elsewhere once
}
