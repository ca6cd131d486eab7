// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/sha256.h"
#include "bench/observation.h"
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

std::string fileOfGrey(int grey) {
    std::vector<unsigned char> png;
    REQUIRE(cv::imencode(".png", cv::Mat(300, 400, CV_8UC3, cv::Scalar::all(grey)), png));
    return {png.begin(), png.end()};
}

std::int64_t observed(TrialWorkshop& trial, const Observation& observation) {
    Book book = Book::open(trial.book);
    return book
        .addObservation({0, trial.visit, std::string(observationKind(observation)),
                         toJson(observation).dump(), ""})
        .id;
}

std::string nameOf(const std::string& bytes, std::int64_t work) {
    return "sha256=" + sha256Hex(bytesOf(bytes)) + "&size=" + std::to_string(bytes.size()) +
           "&work=" + std::to_string(work);
}

/// Sends a file as a phone does; what the program answers to its end.
web::Answer sent(TrialWorkshop& trial, const std::string& bytes, const std::string& named,
                 const std::string& more) {
    REQUIRE(answerPaired(
                *trial.workshop,
                {"POST", trial.at("/upload"), web::fieldsOf(named + "&from=0"), {}, bytes, "1"})
                .status == 200);
    return trial.post(trial.at("/photo"), named + more);
}

std::vector<WorkPhoto> kept(TrialWorkshop& trial) {
    return trial.workshop->book.read(
        [&](const Book& book) { return book.workPhotos(trial.visit); });
}

} // namespace

TEST_CASE("photos of work come in through the pages, before and after, and are kept as they are") {
    TrialWorkshop trial;
    const std::int64_t work = observed(trial, AfterRepair{});
    const std::string page = trial.at("/work");
    CHECK_THAT(trial.get(page, "work=" + std::to_string(work)).body,
               Contains("before the work") && Contains("shoot.js"));
    CHECK_THAT(trial.get(trial.at("/observed")).body, Contains("Photos of this work"));

    const std::string bytes = fileOfGrey(90), named = nameOf(bytes, work);
    const auto said =
        nlohmann::json::parse(sent(trial, bytes, named, "&file=drain.png&moment=after").body);
    INFO(said.dump());
    CHECK_THAT(said.at("said").get<std::string>(), Contains("after"));
    const std::vector<WorkPhoto> photos = kept(trial);
    REQUIRE(photos.size() == 1);
    CHECK(photos[0].moment == WorkMoment::after);
    CHECK(photos[0].observationId == work);
    trial.workshop->book.read([&](const Book& book) {
        CHECK(book.originalBytes(photos[0].sha256) == bytesOf(bytes));
        CHECK(book.photos(trial.visit).empty());
    });
    CHECK_THAT(trial.get(trial.at("/observed")).body, Contains("photos: after drain.png"));
    CHECK(sent(trial, bytes, named, "&file=drain.png&moment=after").status == 200);
    CHECK(kept(trial).size() == 1); // the same once more
}

TEST_CASE("photos of work that belong nowhere, or are no photos, are refused and not kept") {
    TrialWorkshop trial;
    const std::int64_t work = observed(trial, AfterRepair{});
    const std::int64_t other = observed(trial, NotInspected{"filter"});
    CHECK(trial.get(trial.at("/work"), "work=" + std::to_string(other)).status == 400);
    CHECK(trial.get(trial.at("/work"), "work=77").status == 400);
    const std::string bytes = fileOfGrey(120);
    CHECK(sent(trial, bytes, nameOf(bytes, work), "&file=a.png").status == 400);
    CHECK(sent(trial, bytes, nameOf(bytes, other), "&file=a.png&moment=before").status == 400);
    const std::string none = "this is no photo";
    const auto said = nlohmann::json::parse(
        sent(trial, none, nameOf(none, work), "&file=a.txt&moment=before").body);
    CHECK_FALSE(said.at("refused").get<std::string>().empty());
    CHECK(kept(trial).empty());
}

// The phone asks how much has arrived before it goes on with the next part.
TEST_CASE("a photo of work that was broken off goes on where it stopped") {
    TrialWorkshop trial;
    const std::int64_t work = observed(trial, AfterRepair{});
    const std::string bytes = fileOfGrey(150), named = nameOf(bytes, work);
    const std::size_t half = bytes.size() / 2;
    const auto part = [&](std::size_t from, const std::string& some) {
        return answerPaired(*trial.workshop,
                            {"POST",
                             trial.at("/upload"),
                             web::fieldsOf(named + "&from=" + std::to_string(from)),
                             {},
                             some,
                             "1"})
            .status;
    };
    CHECK(part(0, bytes.substr(0, half)) == 200);
    const auto state = nlohmann::json::parse(trial.get(trial.at("/upload"), named).body);
    CHECK(state.at("received") == half);
    CHECK(part(half, bytes.substr(half)) == 200);
    CHECK(trial.post(trial.at("/photo"), named + "&file=b.png&moment=before").status == 200);
    CHECK(kept(trial).size() == 1);
}
