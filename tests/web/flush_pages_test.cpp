// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using namespace swarfbook::web;
using Catch::Matchers::Contains;

namespace {

/// Sends bytes as a photo of the visit's flush.
Answer sentPass(TrialWorkshop& trial, const std::vector<std::byte>& bytes,
                const std::string& more) {
    const std::string body(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    const std::string named = "sha256=" + sha256Hex(bytes) +
                              "&size=" + std::to_string(bytes.size()) + "&place=tray" + more;
    answerPaired(*trial.workshop,
                 {"POST", trial.at("/upload"), fieldsOf(named + "&from=0"), {}, body, "1"});
    return trial.post(trial.at("/photo"), named + "&file=tray.jpg");
}

} // namespace

TEST_CASE("a flush is begun on the pages, and a pass with a measured photo of the tray joins it") {
    TrialWorkshop trial;
    CHECK_THAT(trial.get(trial.at("")).body, Contains(trial.at("/flush")));
    CHECK(trial.post(trial.at("/flush"), "part=").status == 400);
    const Answer odd = trial.post(trial.at("/flush"), "part=solenoid+ZZ");
    CHECK(odd.status == 400); // the chart of Demo 5 has no such part
    CHECK_THAT(odd.body, Contains("It is so") && !Contains("--sure"));
    const Answer begun = trial.post(trial.at("/flush"), "part=solenoid+A");
    CHECK(begun.status == 303);
    CHECK(begun.headers.at("Location") == trial.at("/pass?flush=1"));
    CHECK_THAT(trial.get(trial.at("/pass"), "flush=1").body,
               Contains("pass 1") && Contains("demagnetised"));
    CHECK_THAT(trial.get(trial.at("/flush")).body,
               Contains("solenoid A") && Contains("No pass was photographed yet"));
    { // a photo that the book has of the tray is not measured anew
        Book book = Book::open(trial.book);
        book.addPhoto(newPhoto(trial.visit, Place::tray), photoBytes(1),
                      inWindow(findingOf(photoBytes(1), Place::tray)));
    }
    CHECK(sentPass(trial, photoBytes(1), "&flush=1&step=rinse").status == 400);
    const Answer kept = sentPass(trial, photoBytes(1), "&flush=1&step=wash");
    INFO(kept.body);
    REQUIRE(kept.status == 200);
    const auto told = nlohmann::json::parse(kept.body);
    CHECK(told.at("photo") == 1);
    CHECK_THAT(told.at("said").get<std::string>(), Contains("Flush of solenoid A"));
    trial.workshop->book.read([&](const Book& book) {
        REQUIRE(book.flush(1).passes.size() == 1);
        CHECK(book.flush(1).passes[0].step == FlushStep::wash);
        CHECK(book.photos(trial.visit).size() == 1);
    });
    CHECK_THAT(trial.get(trial.at("/flush")).body, // the largest count has the whole bar
               Contains("<rect width=\"100.0\"") && Contains("</svg>Pass 1, wash: 2 pieces") &&
                   !Contains("#######"));
}

TEST_CASE("a flush without a pass is withdrawn on the page of flushes, and brought back") {
    TrialWorkshop trial;
    trial.post(trial.at("/flush"), "part=solenoid+A");
    CHECK_THAT(trial.get(trial.at("/flush")).body, Contains("action=\"/flush/1/withdraw\""));
    CHECK(trial.post("/flush/1/withdraw", "why=").status == 400);
    const Answer withdrawn = trial.post("/flush/1/withdraw", "why=%3Cb%3Ewrong+part");
    CHECK(withdrawn.status == 303);
    CHECK(withdrawn.headers.at("Location") == trial.at("/flush"));
    CHECK_THAT(trial.get(trial.at("/flush")).body, Contains("Flush 1: &lt;b&gt;wrong part") &&
                                                       Contains("action=\"/flush/1/back\"") &&
                                                       !Contains("Photo of a pass"));
    const Answer gone = trial.get(trial.at("/pass"), "flush=1");
    CHECK(gone.status == 400);
    CHECK_THAT(gone.body, Contains("Tap Flush a part on the visit&#39;s page."));
    CHECK(trial.get("/flush/1/back").status == 404);
    CHECK(trial.post("/flush/1/back", "").headers.at("Location") == trial.at("/flush"));
    CHECK_THAT(trial.get(trial.at("/flush")).body,
               Contains("Photo of a pass") && !Contains("Withdrawn flushes"));
    const StoredPhoto photo = trial.addTrialPhoto();
    trial.workshop->book.write([&](Book& book) {
        book.movePhoto(photo.sha256, trial.visit, Place::tray);
        book.addFlushPass(1, photo.id, FlushStep::wash);
    });
    CHECK_THAT(trial.get(trial.at("/flush")).body, !Contains("Withdraw this flush"));
    const Answer refused = trial.post("/flush/1/withdraw", "why=wrong");
    CHECK(refused.status == 400);
    CHECK_THAT(refused.body, Contains("while it has passes"));
}

TEST_CASE("what is no pass of this visit is refused, and a clean tray has to be a photo") {
    TrialWorkshop trial;
    trial.post(trial.at("/flush"), "part=solenoid+A");
    CHECK(trial.get(trial.at("/pass"), "flush=9").status == 400);
    CHECK(trial.get("/visit/77/pass", "flush=1").status == 400);
    CHECK(trial.post(trial.at("/flush"), "part=solenoid+A&tray=photo").headers.at("Location") ==
          trial.at("/tray?part=solenoid%20A"));
    CHECK_THAT(trial.get(trial.at("/tray"), "part=solenoid+A").body, Contains("Wipe the tray"));
    CHECK(trial.get(trial.at("/tray")).status == 400);
    const std::vector<std::byte> noPhoto(20);
    const Answer refused = sentPass(trial, noPhoto, "&flush=new&part=solenoid+A");
    CHECK(refused.status == 409);
    CHECK_THAT(refused.body, Contains("The photo of the clean tray cannot be measured"));
    CHECK(sentPass(trial, noPhoto, "&flush=1&step=wash").status == 409);
    trial.workshop->book.read([&](const Book& book) {
        CHECK(book.flushes(trial.visit).size() == 1);
        CHECK(book.flush(1).passes.empty());
        CHECK(book.photos(trial.visit).empty());
    });
}
