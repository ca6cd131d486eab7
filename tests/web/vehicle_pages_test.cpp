// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

std::int64_t addVehicle(TrialWorkshop& trial, const std::string& label) {
    return trial.workshop->book.write(
        [&](Book& book) { return book.addVehicle(labelled(label)).id; });
}

Vehicle vehicleOf(TrialWorkshop& trial, std::int64_t number) {
    return trial.workshop->book.read([&](const Book& book) { return book.vehicle(number); });
}

} // namespace

TEST_CASE("all vehicles are listed, also those without a visit, and lead to their pages") {
    TrialWorkshop trial;
    const std::int64_t other = addVehicle(trial, "<b>DEMO-02");
    CHECK_THAT(trial.get("/").body, Contains("href=\"/vehicles\""));
    CHECK_THAT(trial.get(trial.at("")).body, Contains("href=\"/vehicle/1\""));
    const std::string list = trial.get("/vehicles").body;
    CHECK_THAT(list, Contains("href=\"/vehicle/1\"") && Contains("1 visit, the last on") &&
                         Contains(fmt::format("href=\"/vehicle/{}\"", other)) &&
                         Contains("&lt;b&gt;DEMO-02") && Contains("no visit"));
    const std::string page = trial.get("/vehicle/1").body;
    CHECK_THAT(page, Contains("href=\"" + trial.at("") + "\"") && Contains("value=\"Demo 5\""));
    CHECK(trial.get("/vehicle/77").status == 400);
    CHECK(trial.get("/vehicle/1/nothing").status == 404);
    CHECK(trial.post("/vehicle/1/nothing", "").status == 404);
    const std::string found = trial.get("/vehicles", "label=emo-01").body;
    CHECK_THAT(found, Contains("/vehicle/1\"") && !Contains("DEMO-02"));
    CHECK_THAT(trial.get("/vehicles", "label=nobody").body, Contains("no such vehicle"));
}

TEST_CASE("a long list of vehicles says how many there are and takes a part of the label") {
    TrialWorkshop trial;
    CHECK_THAT(trial.get("/vehicles").body, !Contains("name=\"label\""));
    trial.workshop->book.write([](Book& book) {
        BookTransaction transaction = book.begin();
        for (int i = 0; i < 100; ++i)
            book.addVehicle(labelled(fmt::format("DEMO-2{:02}", i)));
        transaction.commit();
    });
    const std::string list = trial.get("/vehicles").body;
    CHECK_THAT(list, Contains("The first 100 of 101 vehicles") && Contains("name=\"label\""));
    CHECK_THAT(list, !Contains("DEMO-299"));
    CHECK_THAT(trial.get("/vehicles", "label=299").body, Contains("DEMO-299"));
}

TEST_CASE("what a vehicle says is typed over on its page, and what it said before is kept") {
    TrialWorkshop trial;
    CHECK(trial
              .post("/vehicle/1", "label=DEMO-10&unit=Demo+6&plate=INVENTED+1&vin=NOVIN&note="
                                  "towed+in%0D%0Aonce")
              .status == 303);
    const Vehicle now = vehicleOf(trial, 1);
    CHECK(now.label == "DEMO-10");
    CHECK(now.unit == "Demo 6");
    CHECK(now.plate == "INVENTED 1");
    CHECK(now.vin == "NOVIN");
    CHECK(now.note == "towed in\nonce");
    CHECK(trial.workshop->book.read(
              [](const Book& book) { return book.correctionsOfVehicle(1).size(); }) == 1);
    addVehicle(trial, "DEMO-11");
    const web::Answer taken = trial.post("/vehicle/1", "label=DEMO-11&unit=Demo+7&note=%3C");
    CHECK(taken.status == 400);
    CHECK_THAT(taken.body, Contains("already has a vehicle DEMO-11") &&
                               Contains("value=\"Demo 7\"") && // nothing has to be typed again
                               Contains(">&lt;</textarea>"));
    CHECK(vehicleOf(trial, 1).label == "DEMO-10");
}

TEST_CASE("a vehicle is withdrawn on its page, listed among the withdrawn, and brought back") {
    TrialWorkshop trial;
    const std::int64_t number = addVehicle(trial, "DEMO-02");
    const std::string at = fmt::format("/vehicle/{}", number);
    CHECK_THAT(trial.get(at).body, Contains("Withdraw this vehicle"));
    CHECK(trial.post(at + "/withdraw", "why=").status == 400);
    const web::Answer withdrawn = trial.post(at + "/withdraw", "why=added+%3Cb%3Etwice");
    CHECK(withdrawn.status == 303);
    CHECK(withdrawn.headers.at("Location") == "/vehicles");
    const std::string list = trial.get("/vehicles").body;
    CHECK_THAT(list, Contains("added &lt;b&gt;twice") && Contains("Bring DEMO-02 back") &&
                         !Contains("href=\"" + at + "\""));
    const web::Answer page = trial.get(at);
    CHECK(page.status == 400);
    CHECK_THAT(page.body, Contains("The page Vehicles lists withdrawn ones."));
    const web::Answer again = trial.post("/new", "vehicle=DEMO-02&new=1&date=2025-04-01");
    CHECK(again.status == 400);
    CHECK_THAT(again.body, Contains("already has that label") &&
                               Contains("The page Vehicles lists withdrawn ones."));
    CHECK(trial.post(at + "/back", "").status == 303);
    CHECK(trial.get(at).status == 200);
    CHECK_THAT(trial.get("/vehicles").body, !Contains("Withdrawn"));
}

TEST_CASE("a vehicle with a visit that counts stays, and its page says what to do") {
    TrialWorkshop trial;
    CHECK_THAT(trial.get("/vehicle/1").body,
               Contains("Move each visit") && !Contains("Withdraw this vehicle"));
    const web::Answer refused = trial.post("/vehicle/1/withdraw", "why=twice");
    CHECK(refused.status == 400);
    CHECK_THAT(refused.body, Contains("tap Put this visit right"));
    CHECK(trial.post(trial.at("/withdraw"), "why=twice").status == 303);
    CHECK(trial.post("/vehicle/1/withdraw", "why=twice").status == 303);
    const web::Answer visitFirst = trial.post(trial.at("/back"), "");
    CHECK(visitFirst.status == 400);
    CHECK_THAT(visitFirst.body, Contains("which is withdrawn"));
    CHECK(trial.post("/vehicle/1/back", "").status == 303);
    CHECK(trial.post(trial.at("/back"), "").status == 303);
}
