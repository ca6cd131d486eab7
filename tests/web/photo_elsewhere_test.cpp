// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/drawn_photo.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

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
    addPhoto(trial, smallPhoto(true));
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
    addPhoto(trial, smallPhoto(true));
    const std::string visit = std::to_string(trial.visit);
    CHECK(trial.post("/photo/1/elsewhere", "place=filter&side=clean&volume=x&visit=" + visit)
              .status == 303);
    CHECK(photo1(trial).measurement.basis.side == FilterSide::clean);
    CHECK(trial.post("/photo/1/elsewhere", "place=filter&side=dirty&visit=" + visit).status == 303);
    CHECK(photo1(trial).measurement.basis.side == FilterSide::dirty);
    CHECK(Book::open(trial.book).correctionsOfPhoto(1).size() == 1); // it was put elsewhere once
}
