// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

Visit visitOf(TrialWorkshop& trial) {
    return trial.workshop->book.read([&](const Book& book) { return book.visit(trial.visit); });
}

/// The form of the page, with one field typed over.
std::string head(const std::string& name, const std::string& value) {
    std::string form;
    for (const auto& [field, stands] : {std::pair<std::string, std::string>{"vehicle", "DEMO-01"},
                                        {"date", "2025-03-14"},
                                        {"odometer", "120,000 km"},
                                        {"since-clean", ""},
                                        {"complaint", "slips in 3"},
                                        {"by", ""}})
        form += field + "=" + (field == name ? value : stands) + "&";
    return form;
}

} // namespace

TEST_CASE("the head of a visit is typed over on its page, and what it said before is kept") {
    TrialWorkshop trial;
    CHECK_THAT(trial.get(trial.at("")).body, Contains(trial.at("/correct")));
    CHECK_THAT(trial.get(trial.at("/correct")).body, Contains("value=\"120,000 km\""));
    CHECK(trial.post(trial.at("/correct"), head("odometer", "120500km")).status == 303);
    CHECK(visitOf(trial).odometerKm == 120500.0);
    CHECK(visitOf(trial).complaint == "slips in 3");
    CHECK(trial.workshop->book.read(
              [&](const Book& book) { return book.correctionsOfVisit(trial.visit).size(); }) == 1);
    const web::Answer wrong = trial.post(trial.at("/correct"), head("date", "14.13.2025"));
    CHECK(wrong.status == 400);
    CHECK_THAT(wrong.body, Contains("value=\"14.13.2025\"")); // nothing has to be typed again
    CHECK(visitOf(trial).date == "2025-03-14");
}

TEST_CASE("a visit of the wrong vehicle is moved on its page") {
    TrialWorkshop trial;
    trial.workshop->book.write([](Book& book) { book.addVehicle({0, "DEMO-02", "", "", "", ""}); });
    CHECK(trial.post(trial.at("/correct"), head("vehicle", "DEMO-02")).status == 303);
    CHECK_THAT(trial.get(trial.at("")).body, Contains("DEMO-02"));
    CHECK(trial.post(trial.at("/correct"), head("vehicle", "DEMO-99")).status == 400);
}

TEST_CASE("a distance that is left as it stands keeps its value to the last digit") {
    TrialWorkshop trial;
    trial.workshop->book.write([&](Book& book) {
        Visit visit = book.visit(trial.visit);
        visit.odometerKm = 120000.4;
        book.correctVisit(visit);
    });
    CHECK(trial.post(trial.at("/correct"), head("complaint", "slips in 4")).status == 303);
    CHECK(visitOf(trial).odometerKm == 120000.4);
}

TEST_CASE("a photo is withdrawn on its page with a reason, and brought back") {
    TrialWorkshop trial;
    const std::string photo = "/photo/" + std::to_string(trial.addTrialPhoto().id);
    CHECK_THAT(trial.get(photo).body, Contains("Withdraw this photo"));
    const web::Answer noReason = trial.post(photo + "/withdraw", "why=");
    CHECK(noReason.status == 400);
    CHECK_THAT(noReason.body, Contains("<html")); // a page, not what a script reads
    CHECK(trial.post(photo + "/withdraw", "why=thumb+on+the+card").status == 303);
    CHECK(trial.get(photo).status == 400);
    CHECK_THAT(trial.get(trial.at("/correct")).body, Contains("thumb on the card"));
    CHECK(trial.post(photo + "/back", "").status == 303);
    CHECK(trial.get(photo).status == 200);
}

TEST_CASE("a visit is withdrawn on its page, listed on the first page, and brought back") {
    TrialWorkshop trial;
    CHECK(trial.post(trial.at("/withdraw"), "why=").status == 400);
    CHECK(trial.post(trial.at("/withdraw"), "why=wrong+%3Cb%3Evehicle").status == 303);
    CHECK(trial.get(trial.at("")).status == 400);
    CHECK_THAT(trial.get("/").body, Contains("wrong &lt;b&gt;vehicle"));
    CHECK(trial.post(trial.at("/back"), "").status == 303);
    CHECK(trial.get(trial.at("")).status == 200);
    CHECK_THAT(trial.get("/").body, !Contains("Withdrawn"));
}
