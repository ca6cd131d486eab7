// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/page_words.h"

#include <catch2/catch.hpp>

using swarfbook::web::forPages;

TEST_CASE("a text without a command is told as it is") {
    for (const char* text :
         {"", "The card was not found. Come nearer.", "swarfbook could not read it.",
          "At 1.5 mm: A -- B. It is 3--4 long.", "Version of swarfbook 2. And so on."})
        CHECK(forPages(text) == text);
}

TEST_CASE("a page says what to tap where the command line names a command") {
    CHECK(forPages("Visit 3 has no photo of the pan. Add one: swarfbook add --visit 3 --place pan "
                   "PHOTO") ==
          "Visit 3 has no photo of the pan. Add one: tap Add photos on the visit's page.");
    CHECK(forPages("If you know it: swarfbook observe --visit 3 since-clean 30000km. From this "
                   "visit on it can be known.") ==
          "If you know it: fill in its row of the work sheet, on the visit's page. From this visit "
          "on it can be known.");
    CHECK(forPages("Photo 1 has no piece at 1.0, 2.0 mm. swarfbook piece --photo 1 lists its "
                   "pieces.") ==
          "Photo 1 has no piece at 1.0, 2.0 mm. Tap the piece on the photo.");
    CHECK(forPages("The finding is damaged. swarfbook visit measure 3 measures the photo again.") ==
          "The finding is damaged. Tap Measure again below the photo.");
    CHECK(forPages("Visit 3 was withdrawn. swarfbook visit withdraw 3 --undo brings it back.") ==
          "Visit 3 was withdrawn. The first page lists withdrawn visits.");
    CHECK(forPages("Or withdraw each: swarfbook visit withdraw 3 --why TEXT.") ==
          "Or withdraw each: tap Put this visit right on the visit's page.");
    CHECK(forPages("It was withdrawn. swarfbook vehicle withdraw \"DEMO-01\" --undo brings it "
                   "back.") == "It was withdrawn. The page Vehicles lists withdrawn ones.");
}

TEST_CASE("a page says where to tap another place for a photo") {
    CHECK(forPages("If it is whole, say place white-card: its debris is counted as the whole "
                   "sample.") ==
          "If it is whole, tap Other place or visit on the photo's page, then white card: its "
          "debris is counted as the whole sample.");
}

TEST_CASE("what no page can do is for the workshop's computer, with the command word for word") {
    CHECK(forPages("The book is damaged. swarfbook restore A B brings a backup back.") ==
          "The book is damaged. At the workshop's computer: swarfbook restore A B brings a backup "
          "back.");
    CHECK(forPages("Bring the book back with swarfbook restore.") ==
          "At the workshop's computer: Bring the book back with swarfbook restore.");
}

TEST_CASE(
    "an option that only shows an example is left out, a box is named as it stands on the page") {
    CHECK(forPages("Say why the photo is withdrawn: --why \"wrong vehicle\".") ==
          "Say why the photo is withdrawn: \"wrong vehicle\".");
    CHECK(forPages("Check the date; --earlier enters a visit from before.") ==
          "Check the date; \"It was before visits that are in the book already\", ticked, enters a "
          "visit from before.");
    CHECK(observationTitle("end-play") == "End play");
    CHECK(observationTitle("since-clean") == "Distance since the last clean");
}

TEST_CASE("options of the command line are told as what they ask") {
    CHECK(forPages("If it is really so, type the same again with --sure.") ==
          "If it is really so, tick \"It is so\" and tap Keep.");
    CHECK(forPages("The hot reading was colder: check --at and --hot-at.") ==
          "The hot reading was colder: check \"at\" and \"hot at\".");
    CHECK(forPages("(--by NAME) a--b -- c") == "(\"by\" NAME) a--b -- c");
}
