// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/embedded_files.h"
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <regex>

using namespace swarfbook;
using namespace swarfbook::test;
using namespace swarfbook::web;
using Catch::Matchers::Contains;

namespace {

/// The addresses that a page leads to, without what follows "?".
std::set<std::string> linksOf(const std::string& html) {
    static const std::regex link("(?:href|src|action)=\"([^\"?#]*)");
    std::set<std::string> links;
    for (std::sregex_iterator at(html.begin(), html.end(), link), end; at != end; ++at)
        links.insert((*at)[1].str());
    return links;
}

/// What a page shows, without its markup.
std::string visibleText(const std::string& html) {
    std::string text; // std::regex would go as deep as the longest drawing has characters
    for (std::size_t at = 0; at < html.size();) {
        const std::size_t markup = std::min(html.find('<', at), html.size());
        text += html.substr(at, markup - at) + " ";
        const std::size_t end = html.find('>', markup);
        at = end == std::string::npos ? html.size() : end + 1;
    }
    return text;
}

/// Commands and options of the command line that a page shows, but for those that it says to type
/// at the workshop's computer.
std::string commandsShown(const std::string& html) {
    static const std::regex command("swarfbook [a-z]|[ (]--[a-z]");
    const std::string text = visibleText(html), allowed = "At the workshop&#39;s computer: ";
    std::string found;
    for (std::sregex_iterator at(text.begin(), text.end(), command), end; at != end; ++at) {
        const auto place = static_cast<std::size_t>(at->position());
        const std::size_t said = text.rfind(allowed, place);
        if (said == std::string::npos ||
            text.substr(said, place - said).find(". ") != std::string::npos)
            found += text.substr(place, text.find_first_of(".<", place) - place) + "\n";
    }
    return found;
}

} // namespace

TEST_CASE("the first page lists the visits, a visit's page its photos and the work sheet") {
    TrialWorkshop trial;
    const Answer first = trial.get("/");
    CHECK(first.status == 200);
    CHECK_THAT(first.body, Contains("DEMO-01") && Contains("slips in 3") &&
                               Contains("href=\"" + trial.at("") + "\""));
    const Answer visit = trial.get(trial.at(""));
    CHECK_THAT(visit.body, Contains("No photo yet") && Contains("How it drives") &&
                               Contains("Solenoids") && Contains("After the repair"));
}

TEST_CASE("every page links only to pages that there are") {
    TrialWorkshop trial;
    const StoredPhoto photo = trial.addTrialPhoto();
    trial.post(trial.at("/flush"), "part=solenoid+A");
    std::set<std::string> seen{"/"}, open{"/"};
    while (!open.empty()) {
        const std::string page = *open.begin();
        open.erase(open.begin());
        INFO(page);
        const bool ofTheProgram =
            page.ends_with(".css") || page.ends_with(".js") || page.ends_with(".svg");
        // a trial photo's bytes are no picture, and a form's address is sent to, not read
        if (page.ends_with("/picture") || page.ends_with("/take-back") ||
            page.ends_with("/piece") || page.ends_with("/above") || page.ends_with("/again") ||
            page.ends_with("/withdraw") || page.ends_with("/elsewhere"))
            continue;
        if (ofTheProgram) {
            CHECK(answerAnybody(*trial.workshop, {"GET", page, {}, {}, "", ""}, false).has_value());
            continue;
        }
        const std::string query = page.ends_with("/step")   ? std::string("n=1")
                                  : page.ends_with("/row")  ? "name=gear%203&other=0&n=3"
                                  : page.ends_with("/pass") ? "flush=1"
                                  : page.ends_with("/second")
                                      ? "of=" + std::to_string(photo.id) + "&as=cleaned"
                                      : "";
        const Answer answer = trial.get(page, query);
        CHECK(answer.status == 200);
        if (answer.type.starts_with("text/html"))
            CHECK(commandsShown(answer.body).empty());
        for (const std::string& link : linksOf(answer.body))
            if (link.starts_with("/") && seen.insert(link).second)
                open.insert(link);
    }
    CHECK(seen.contains("/photo/" + std::to_string(photo.id)));
    CHECK(seen.contains("/devices"));
    CHECK(seen.contains(trial.at("/suggestion")));
    CHECK(seen.contains(trial.at("/report.pdf")));
}

TEST_CASE("pages say what to tap where the command line says what to type") {
    CHECK(commandsShown("<p>Type swarfbook add --visit 1.</p>") ==
          "swarfbook add --visit 1\n --visit 1\n");
    CHECK(commandsShown("<p>Use --sure.</p>") == " --sure\n");
    CHECK(commandsShown("<p>At the workshop&#39;s computer: swarfbook restore.</p>").empty());
    TrialWorkshop trial; // nothing in the visit: every page has something to advise
    for (const std::string& page :
         {trial.at("/suggestion"), trial.at("/report"), trial.at("/compare"), trial.at("/observed"),
          trial.at("/flush"), std::string("/visit/77"), std::string("/photo/9"),
          std::string("/vehicle/77"), std::string("/vehicles")})
        CHECK(commandsShown(trial.get(page).body).empty());
    for (const auto& [page, form] : std::vector<std::pair<std::string, std::string>>{
             {trial.at("/row"), "name=gear%203&other=0&n=3&f0=slip&f3t=900C"},
             {trial.at("/flush"), "part=solenoid+ZZ"},
             {"/new", "vehicle=NOBODY&date=today"},
             {"/new", "vehicle=DEMO-01&date=2020-01-01&odometer=500000"},
             {"/photo/9/piece", "number=1&is=lining"},
             {"/vehicle/1", "label="},
             {"/vehicle/1/withdraw", "why=twice"},
             {"/vehicle/1/back", ""},
             {"/vehicle/77/withdraw", "why=twice"},
             {trial.at("/take-back"), "number=9&why=x"}}) {
        const Answer answer = trial.post(page, form);
        INFO(page << "\n" << answer.body);
        CHECK(answer.status >= 400);
        CHECK(commandsShown(answer.body).empty());
    }
}

TEST_CASE("names in the book never become markup") {
    TrialWorkshop trial("<script>alert(1)</script>", "<img src=x onerror=alert(1)>");
    trial.workshop->devices.pair(trial.workshop->devices.newCode(), "<b>phone</b>");
    trial.post(trial.at("/row"),
               "name=complaint&other=0&n=3&f3t=%3Cscript%3Ealert(2)%3C/script%3E");
    trial.addTrialPhoto();
    for (const std::string& page :
         {std::string("/"), trial.at(""), trial.at("/observed"), trial.at("/suggestion"),
          trial.at("/report"), std::string("/devices"), std::string("/photo/1"),
          std::string("/vehicles"), std::string("/vehicle/1")}) {
        INFO(page);
        const std::string body = trial.get(page, "n=3").body;
        CHECK_THAT(body, !Contains("<script>") && !Contains("<img src=x") && !Contains("<b>"));
    }
    CHECK_THAT(trial.get("/").body, Contains("&lt;script&gt;"));
    const Answer wrong = trial.post("/new", "vehicle=%22%3E%3Cscript%3E&date=today");
    CHECK_THAT(wrong.body, !Contains("<script>"));
}

TEST_CASE("a row filled in on the page is in the book as if it were typed") {
    TrialWorkshop trial;
    const Answer kept =
        trial.post(trial.at("/row"), "name=gear%203&other=0&n=3&f0=slip&f2=firm&f3t=80C");
    INFO(kept.body);
    CHECK(kept.status == 303);
    CHECK(kept.headers.at("Location") == trial.at("/step?n=3"));
    const auto observed = trial.observed();
    REQUIRE(observed.size() == 1);
    CHECK(observed[0].kind == "complaint");
    const auto json = nlohmann::json::parse(observed[0].json);
    CHECK(json.at("gear") == "3");
    CHECK(json.at("symptom") == "slip");
    CHECK(json.at("load") == "firm");
    CHECK_THAT(trial.get(trial.at("/step"), "n=3").body, Contains("gear 3"));
}

TEST_CASE("what cannot be read is asked about, and nothing is kept") {
    TrialWorkshop trial;
    const Answer empty = trial.post(trial.at("/row"), "name=gear%203&other=0&n=3");
    CHECK(empty.status == 400);
    CHECK_THAT(empty.body, Contains("Nothing was filled in"));
    const Answer wrong =
        trial.post(trial.at("/row"), "name=gear%203&other=0&n=3&f0=slip&f3t=hello");
    CHECK(wrong.status == 400);
    CHECK_THAT(wrong.body, Contains("hello") && Contains("checked"));
    CHECK(trial.observed().empty());
    CHECK(trial.get(trial.at("/row"), "name=gear%2077&other=0&n=3").status == 400);
    CHECK(trial.get(trial.at("/step"), "n=99").status == 400);
}

TEST_CASE("not inspected is one tap, and what was observed can be taken back with a reason") {
    TrialWorkshop trial;
    CHECK(trial.post(trial.at("/row"), "name=finger&other=0&n=6&left-out=1").status == 303);
    REQUIRE(trial.observed().size() == 1);
    CHECK(trial.observed()[0].kind == "not-inspected");
    CHECK_THAT(trial.get(trial.at("/step"), "n=6").body, Contains("not inspected"));
    CHECK(trial.post(trial.at("/take-back"), "number=1&why=").status == 400);
    CHECK(trial.post(trial.at("/take-back"), "number=1&why=wrong+visit").status == 303);
    CHECK_THAT(trial.get(trial.at("/observed")).body, Contains("Nothing was observed yet"));
    CHECK(trial.observed().size() == 2); // both stay in the book
}

TEST_CASE("a visit starts on the page, of a vehicle that is there or new") {
    TrialWorkshop trial;
    const Answer there = trial.post("/new", "vehicle=demo-01&date=2025-06-01&odometer=125000");
    CHECK(there.headers.at("Location") == "/visit/2");
    const Answer unknown = trial.post("/new", "vehicle=DEMO-2&date=2025-06-01&odometer=1");
    CHECK(unknown.status == 400);
    CHECK_THAT(unknown.body, Contains("value=\"DEMO-2\"")); // what was typed is still there
    const Answer added =
        trial.post("/new", "vehicle=DEMO-2&new=1&unit=Demo+5&date=2025-06-01&odometer=50000mi");
    REQUIRE(added.headers.count("Location") == 1);
    const Visit visit = trial.workshop->book.read([](const Book& book) { return book.visit(3); });
    CHECK(visit.odometerKm.value() == Approx(50000 * 1.609344)); // international mile
    CHECK(trial.post("/new", "vehicle=X-9&new=1&date=2525-06-01").status == 400);
    CHECK_THAT(trial.get("/").body, !Contains("X-9")); // neither visit nor vehicle
}

TEST_CASE("a piece is shown where it lies, corrected by a tap, and as it was after undo") {
    TrialWorkshop trial;
    trial.addTrialPhoto();
    const auto marks = [&] { return nlohmann::json::parse(trial.get("/photo/1/marks").body); };
    REQUIRE(marks().at("pieces").size() == 2);
    CHECK(marks().at("width") == 4000);
    const auto said =
        nlohmann::json::parse(trial.post("/photo/1/piece", "number=1&is=lining").body);
    CHECK(said.at("pieces")[0].at("type") == "lining");
    CHECK(trial.workshop->book.read([](const Book& b) { return b.photo(1); }).corrected.size() ==
          1);
    CHECK(nlohmann::json::parse(trial.post("/photo/1/piece", "number=1&is=not+debris").body)
              .at("takenOut")
              .size() == 1);
    CHECK(marks().at("pieces").size() == 1);
    trial.post("/photo/1/piece", "number=1&is=");
    CHECK(marks().at("pieces").size() == 2);
    CHECK(trial.post("/photo/1/piece", "number=77&is=lining").status == 400);
    CHECK(trial.post("/photo/1/piece", "number=1&is=cheese").status == 400);
}

TEST_CASE(
    "two finds that a tap says are one count once, one that is two counts twice, until undo") {
    TrialWorkshop trial;
    trial.addTrialPhoto();
    const auto said = [&](const std::string& form) {
        return nlohmann::json::parse(trial.post("/photo/1/piece", form).body);
    };
    const nlohmann::json joined = said("number=2&is=one&with=1");
    REQUIRE(joined.at("pieces").size() == 1);
    CHECK(joined.at("pieces")[0].at("number") == 1);
    CHECK_THAT(joined.at("pieces")[0].at("regrouped").get<std::string>(),
               Contains("Pieces 1 and 2 are one piece"));
    CHECK_THAT(joined.at("finding").get<std::string>(), Contains("1 piece"));
    CHECK(said("number=1&is=as+found").at("pieces").size() == 2);
    const nlohmann::json divided = said("number=1&is=two");
    CHECK(divided.at("pieces").size() == 3);
    CHECK_THAT(divided.at("finding").get<std::string>(), Contains("3 pieces"));
    CHECK(said("number=3&is=two").at("pieces").size() == 4); // a part once more
    CHECK(said("number=4&is=as+found").at("pieces").size() == 3);
    CHECK(said("number=3&is=as+found").at("pieces").size() == 2);
    CHECK(trial.post("/photo/1/piece", "number=1&is=one&with=1").status == 400);
    CHECK(trial.post("/photo/1/piece", "number=1&is=one&with=77").status == 400);
    CHECK(trial.post("/photo/1/piece", "number=1&is=one").status == 400);
    CHECK(trial.post("/photo/1/piece", "number=1&is=as+found").status == 400);
}

TEST_CASE("a page that there is not is a plain page or, for a script, JSON") {
    TrialWorkshop trial;
    for (const char* path : {"/x", "/visit", "/visit/x", "/visit/1/x", "/visit/1/row/x", "/photo/9",
                             "/visit/9", "/photo/1/marks/x"}) {
        INFO(path);
        const Answer answer = trial.get(path);
        CHECK((answer.status == 404 || answer.status == 400));
        CHECK_THAT(answer.body, Contains("<h1>"));
    }
    CHECK(trial.post("/visit/1/report", "").status == 404);
    CHECK(trial.get("/photo/9/marks").type == "application/json");
}
