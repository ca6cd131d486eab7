// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "entry/check_bar.h"
#include "rendered/demo_photos.h"
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fstream>
#include <iterator>

using namespace swarfbook;
using namespace swarfbook::test;
using namespace swarfbook::web;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

std::string demoBytes(const char* name) {
    std::ifstream in(demoPhotos() / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// A phone that sends a photo.
struct Phone {
    TrialWorkshop& trial;
    std::string bytes;
    std::string sha256 = sha256Hex(bytesOf(bytes));
    std::string place = "pad";

    [[nodiscard]] std::string named() const {
        return "sha256=" + sha256 + "&size=" + std::to_string(bytes.size()) + "&place=" + place;
    }
    nlohmann::json state() {
        return nlohmann::json::parse(trial.get(trial.at("/upload"), named()).body);
    }
    Answer part(std::size_t from, std::size_t length) {
        return answerPaired(*trial.workshop, {"POST",
                                              trial.at("/upload"),
                                              fieldsOf(named() + "&from=" + std::to_string(from)),
                                              {},
                                              bytes.substr(from, length),
                                              "1"});
    }
    Answer finish(const std::string& more = "") {
        return trial.post(trial.at("/photo"), named() + "&file=IMG_1.jpg" + more);
    }
};

std::size_t halfReceived(const TrialWorkshop& trial) {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(pagesFolder(trial.book) / "incoming"), {}));
}

} // namespace

TEST_CASE("a photo that is broken off goes on where it stopped, is measured and kept once") {
    TrialWorkshop trial;
    Phone phone{trial, demoBytes("history-1.jpg")};
    REQUIRE(phone.bytes.size() > 1000);
    CHECK(phone.state().at("received") == 0);
    const std::size_t half = phone.bytes.size() / 2;
    CHECK(phone.part(0, half).status == 200);
    CHECK(phone.part(0, half).status == 200); // the answer was lost, the part came again
    CHECK(phone.state().at("received") == half);
    CHECK(phone.finish().status == 400); // not whole yet
    phone.part(half, phone.bytes.size());
    const auto said = nlohmann::json::parse(phone.finish("&sampling=wiped&bar=79.6").body);
    INFO(said.dump());
    REQUIRE(said.contains("photo"));
    CHECK(halfReceived(trial) == 0);
    const auto again = nlohmann::json::parse(phone.finish().body);
    CHECK(again.at("photo") == said.at("photo"));
    CHECK(phone.state().at("kept").at("photo") == said.at("photo"));
    trial.workshop->book.read([&](const Book& book) {
        const auto photos = book.photos(trial.visit);
        REQUIRE(photos.size() == 1);
        CHECK(photos[0].fileName == "IMG_1.jpg");
        CHECK(photos[0].sampling == "wiped");
        CHECK(book.originalBytes(phone.sha256) == bytesOf(phone.bytes)); // untouched
        CHECK(photos[0].measurement.debris.has_value());
    });
    // The same scene once more, as if a magnet had taken nothing: every piece is left, so none is
    // magnetic, and none is new. The bytes differ at their end, behind the picture (ITU-T T.81: a
    // decoder stops at the marker EOI).
    Phone after{trial, phone.bytes + "again"};
    after.part(0, after.bytes.size());
    const auto swept = nlohmann::json::parse(after.finish("&of=1&as=after-magnet").body);
    INFO(swept.dump());
    REQUIRE(swept.contains("photo"));
    CHECK(swept.at("photo") == said.at("photo"));
    CHECK(halfReceived(trial) == 0);
    trial.workshop->book.read([&](const Book& book) {
        const StoredPhoto now = book.photo(1);
        REQUIRE(now.measurement.afterMagnet);
        CHECK(book.originalBytes(after.sha256) == bytesOf(after.bytes));
        std::size_t left = 0;
        for (const Particle& piece : now.measurement.debris->particles) {
            CHECK(piece.ferrous != Ferrous::yes);
            left += piece.ferrous == Ferrous::no ? 1 : 0;
        }
        CHECK(left > 0);
        CHECK(book.photos(trial.visit).size() == 1); // it is kept beside the first one
    });
    Phone light{trial, phone.bytes + "other light"};
    light.part(0, light.bytes.size());
    const Answer both = light.finish("&of=1&as=second-light");
    CHECK(both.status == 400);
    CHECK_THAT(both.body, Contains("not both"));
    phone.place = "pan"; // it is of another place: that is told with the way to put it right
    for (const nlohmann::json& told :
         {nlohmann::json::parse(phone.finish().body), phone.state().at("kept")}) {
        CHECK_THAT(told.at("refused").get<std::string>(), Contains("place white card"));
        CHECK_THAT(told.at("advice").get<std::string>(), Contains("Other place or visit"));
        CHECK(told.at("href") == "/photo/1");
    }
    const Answer picture = trial.get("/photo/1/picture");
    CHECK(picture.type == "image/jpeg");
    CHECK(picture.body == phone.bytes);
    CHECK(trial.get("/photo/1/picture", "small=1").body.size() < phone.bytes.size());
    CHECK(nlohmann::json::parse(trial.get("/photo/1/marks").body).at("pieces").size() > 0);
}

TEST_CASE("a second photo goes with a measured one of its visit, and a file that is not a photo "
          "changes nothing") {
    TrialWorkshop trial;
    const StoredPhoto first = trial.addTrialPhoto();
    const std::string of = "&of=" + std::to_string(first.id);
    CHECK_THAT(trial.get(trial.at("/second"), of + "&as=after-magnet").body, Contains("magnet"));
    CHECK(trial.get(trial.at("/second"), of + "&as=x").status == 400);
    CHECK(trial.get("/visit/77/second", of + "&as=cleaned").status == 400);
    Phone phone{trial, "this is no photo"};
    phone.part(0, 100);
    const Answer answer = phone.finish(of + "&as=after-magnet");
    CHECK(answer.status == 409);
    CHECK_THAT(answer.body, Contains("after the magnet"));
    CHECK(halfReceived(trial) == 0);
    trial.workshop->book.read([&](const Book& book) {
        CHECK(book.findings(first.id).size() == 1);
        CHECK(book.photos(trial.visit).size() == 1);
    });
    phone.bytes = "x";
    phone.sha256 = first.sha256;
    CHECK(phone.finish(of + "&as=cleaned").status == 400); // the first one again
}

TEST_CASE("a file that is not a photo is refused with advice and not kept") {
    TrialWorkshop trial;
    Phone phone{trial, "this is no photo"};
    phone.part(0, 100);
    const auto said = nlohmann::json::parse(phone.finish().body);
    CHECK_FALSE(said.at("refused").get<std::string>().empty());
    CHECK_FALSE(said.at("advice").get<std::string>().empty());
    CHECK(halfReceived(trial) == 0);
    CHECK(trial.workshop->book.read([&](const Book& book) { return book.photos(trial.visit); })
              .empty());
}

TEST_CASE("bytes that were changed on their way are not taken") {
    TrialWorkshop trial;
    Phone phone{trial, "abcdef"};
    phone.sha256 = sha256Hex(bytesOf("another"));
    phone.part(0, 6);
    const Answer answer = phone.finish();
    CHECK(answer.status == 400);
    CHECK_THAT(answer.body, Contains("changed on its way"));
    CHECK(phone.state().at("received") == 0); // to be sent anew
}

TEST_CASE("names, sizes and places that cannot be are refused, and reach no other file") {
    TrialWorkshop trial;
    Uploads uploads(trial.folder / "pages");
    const std::vector<std::byte> part(10);
    const std::string sha256(64, 'a');
    for (const std::string& name : {std::string("../../book.db"), std::string(), std::string("A"),
                                    std::string(64, 'G'), sha256 + "/", std::string(65, 'a')})
        CHECK_THROWS_AS(uploads.add({name, 10}, 0, part), UsageError);
    CHECK_THROWS_AS(uploads.add({sha256, 0}, 0, {}), UsageError);
    CHECK_THROWS_AS(uploads.add({sha256, std::uint64_t{1} << 40U}, 0, part), UsageError);
    CHECK_THROWS_AS(uploads.add({sha256, 5}, 0, part), UsageError); // more than it holds
    CHECK(uploads.add({sha256, 20}, 3, part) == 0);                 // a gap
    CHECK(uploads.add({sha256, 20}, 0, part) == 10);
    Phone phone{trial, "abc"};
    phone.place = "moon";
    CHECK(phone.finish().status == 400);
    phone.place = "pad&size=x";
    CHECK(phone.finish().status == 400);
}

// 1 inch = 25.4 mm; the bars are 80 and 150 mm long as drawn (calibration/reference-card.json).
TEST_CASE("a check bar is typed with any unit, and a wrong one is told before a photo is sent") {
    TrialWorkshop trial;
    const auto stateWith = [&](const std::string& bar) {
        Phone phone{trial, "abc"};
        return trial.get(trial.at("/upload"), phone.named() + "&bar=" + encoded(bar)).status;
    };
    for (const char* bar : {"", " ", "79.6", "80.0 mm", "79,6", "3.15 in", "3.15\"", "149.5mm"})
        CHECK(stateWith(bar) == 200);
    for (const char* bar : {"x", "80 kg", "20 mm", "800", "-80", "0", "nan"})
        CHECK(stateWith(bar) == 400);
    CHECK(checkBarTyped("3.15 in").value() == Approx(80.01));
    CHECK(checkBarTyped("79,6").value() == Approx(79.6));
}

TEST_CASE("no place is said before somebody taps one, and the buttons stand above the rest") {
    TrialWorkshop trial;
    const std::string body = trial.get(trial.at("/shoot")).body;
    const std::size_t places = body.find("name=\"place\""), button = body.find("id=\"camera\"");
    REQUIRE(places != std::string::npos);
    REQUIRE(button != std::string::npos);
    CHECK(body.substr(places, body.find("</fieldset>", places) - places).find("checked") ==
          std::string::npos);
    CHECK(places < button);
    CHECK(button < body.find("name=\"sampling\""));
    CHECK(button < body.find("class=\"hold\""));
    Phone phone{trial, "abc"};
    phone.place = "";
    CHECK(phone.finish().status == 400);
}

TEST_CASE("a photo that nobody finished is removed after a day") {
    const TemporaryFolder folder;
    const std::vector<std::byte> part(10);
    const std::string left(64, 'a'), fresh(64, 'b');
    {
        Uploads uploads(folder.path());
        uploads.add({left, 20}, 0, part);
        uploads.add({fresh, 20}, 0, part);
    }
    fs::last_write_time(folder.path() / "incoming" / (left + ".part"),
                        fs::file_time_type::clock::now() - std::chrono::hours(25));
    const Uploads again(folder.path());
    CHECK(again.received({left, 20}) == 0);
    CHECK(again.received({fresh, 20}) == 10);
}
