// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/drawn_photo.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

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
