// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/typed_observation.h"
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using namespace swarfbook::web;
using Catch::Matchers::Contains;

TEST_CASE("every kind of observation that can be typed can be filled in on a page") {
    TrialWorkshop trial;
    const std::string list = trial.get(trial.at("/observe")).body;
    for (const ObservationForm& form : observationForms()) {
        INFO(form.name);
        if (form.name == "take-back") // a button of the page All observations
            continue;
        CHECK_THAT(list, Contains("kind=" + form.name + "\""));
        const Answer page = trial.get(trial.at("/observe"), "kind=" + form.name);
        CHECK(page.status == 200);
        for (std::size_t i = 0; i < form.options().size(); ++i)
            CHECK_THAT(page.body, Contains(fmt::format("name=\"o{}", i)));
    }
}

TEST_CASE("what is filled in is kept as the command line keeps it") {
    TrialWorkshop trial;
    CHECK(trial.post(trial.at("/observe"), "kind=end-play&w0t=0.7+mm&o0t=0.2-0.6mm").status < 400);
    CHECK(trial.post(trial.at("/observe"), "kind=gear&w0t=3&w1=slip&o0=firm").status < 400);
    const std::string all = trial.get(trial.at("/observed")).body;
    CHECK_THAT(all, Contains("0.7 mm") && Contains("slip in 3, load firm"));
    // a slip in gear 3 leads back to the form of a gear
    CHECK_THAT(all, Contains("kind=end-play&amp;corrects=1"));
    CHECK_THAT(all, Contains("kind=gear&amp;corrects=2"));
}

TEST_CASE("a kept observation is put right by its number") {
    TrialWorkshop trial;
    trial.post(trial.at("/observe"), "kind=end-play&w0t=0.7+mm");
    const std::string form = trial.get(trial.at("/observe"), "kind=end-play&corrects=1").body;
    CHECK_THAT(form, Contains("This puts right"));
    CHECK(trial.post(trial.at("/observe"), "kind=end-play&corrects=1&w0t=0.4+mm").status < 400);
    const std::string all = trial.get(trial.at("/observed")).body;
    CHECK_THAT(all, Contains("0.4 mm") && !Contains("0.7 mm"));
    const Answer gone = trial.get(trial.at("/observe"), "kind=end-play&corrects=1");
    CHECK(gone.status == 400);
    CHECK_THAT(gone.body, Contains("does not stand any more"));
}

TEST_CASE("what is missing or cannot be read is said, and what was typed stays in the form") {
    TrialWorkshop trial;
    const Answer nothing = trial.post(trial.at("/observe"), "kind=solenoid");
    CHECK(nothing.status == 400);
    CHECK_THAT(nothing.body, Contains("Nothing was filled in"));
    const Answer second = trial.post(trial.at("/observe"), "kind=gear&w1=slip");
    CHECK(second.status == 400);
    CHECK_THAT(second.body, Contains("Fill in") && Contains("gear"));
    const Answer wrong = trial.post(trial.at("/observe"), "kind=solenoid&w0t=A&o1t=warm");
    CHECK(wrong.status == 400);
    CHECK_THAT(wrong.body, Contains("value=\"warm\"") && Contains("It is so"));
}

TEST_CASE(
    "the suggestion's page shows the parts by gear, the report's the whole text and the sheet") {
    TrialWorkshop trial;
    trial.post(trial.at("/observe"), "kind=gear&w0t=3&w1=slip&o0=firm");
    trial.post(trial.at("/observe"), "kind=gear&w0t=4&w1=good&o0=firm");
    const std::string page = trial.get(trial.at("/suggestion")).body;
    CHECK_THAT(page,
               Contains("Parts by gear") && Contains("<th>") && Contains("Suspect and cleared"));
    const Answer shortText = trial.get(trial.at("/report.txt"));
    const Answer whole = trial.get(trial.at("/report.txt"), "full=1");
    CHECK(whole.body.size() > 2 * shortText.body.size());
    CHECK_THAT(trial.get(trial.at("/sheet.pdf")).body, Catch::StartsWith("%PDF"));
}

TEST_CASE("visits beyond the newest sixty are listed on further pages") {
    TrialWorkshop trial;
    {
        Book book = Book::open(trial.book);
        Visit one = book.visit(trial.visit);
        one.id = 0;
        for (int i = 0; i < 65; ++i) {
            one.odometerKm = *one.odometerKm + 10.0;
            one.complaint = "number " + std::to_string(i);
            book.addVisit(one);
        }
    }
    const std::string first = trial.get("/").body;
    CHECK_THAT(first, Contains("number 64.") && !Contains("slips in 3") && Contains("/?from=60"));
    const std::string second = trial.get("/", "from=60").body;
    CHECK_THAT(second, Contains("slips in 3") && !Contains("number 64.") && !Contains("from=120"));
}
