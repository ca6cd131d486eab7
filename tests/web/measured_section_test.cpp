// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/trial_workshop.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

nlohmann::json marks(TrialWorkshop& trial) {
    return nlohmann::json::parse(trial.get("/photo/1/marks").body);
}

void add(const TrialWorkshop& trial, const Measurement& finding) {
    Book book = Book::open(trial.book);
    REQUIRE(book.addPhoto(newPhoto(trial.visit, finding.place), photoBytes(1), finding).photo.id ==
            1);
}

} // namespace

// The expected figures are worked out by hand from the numbers put in: a half-width of 95 % is 1.96
// standard uncertainties.
TEST_CASE("a photo's page shows all that was measured, and it follows a correction") {
    TrialWorkshop trial;
    trial.addTrialPhoto(); // pieces of 0.90 and 0.45 mm, standard uncertainty 0.03 mm
    const std::string body = trial.get("/photo/1").body;
    CHECK_THAT(body, Contains("complete down to 0.21 mm") && Contains("Largest pieces") &&
                         Contains("0.90 ± 0.06 mm") && Contains("0.45 ± 0.06 mm") &&
                         Contains("0.9950 ± 0.0020, from the check bar"));
    const auto said =
        nlohmann::json::parse(trial.post("/photo/1/piece", "number=1&is=lining").body);
    const std::string measured = said.at("measured");
    CHECK_THAT(measured,
               Contains("<small>1 lining</small>") && Contains("<small>1 unidentified</small>"));
    CHECK_THAT(measured, Contains("95 % interval"));
    CHECK_THAT(trial.get("/photo/1").body, Contains(measured));
}

TEST_CASE("a piece at the window's edge is at least as long as what is seen of it") {
    TrialWorkshop trial;
    Measurement finding = findingWithWindow(photoBytes(1));
    finding.debris->particles[0].atEdge = true;
    add(trial, finding);
    const nlohmann::json pieces = marks(trial).at("pieces");
    CHECK(pieces[0].at("size") == "at least 0.90 ± 0.06 mm");
    CHECK_THAT(pieces[0].at("mind").get<std::string>(), Contains("window's edge"));
    CHECK(pieces[1].at("size") == "0.45 ± 0.06 mm");
    CHECK(pieces[1].at("mind") == "");
}

// The colour of bright metal is that of report/type_marks.cpp, 0 to 1, times 255.
TEST_CASE("pieces have the letters and colours of the annotated photo, a magnet its rim") {
    TrialWorkshop trial;
    Measurement finding = findingWithWindow(photoBytes(1));
    finding.place = Place::magnet;
    finding.debris->particles[0].type = ParticleType::brightMetal;
    finding.magnet.emplace();
    finding.magnet->coveredShare = {Share(0.3), Share(0.02)};
    finding.magnet->overhangUncertainty = Millimetres(0.1);
    finding.magnet->outlines = {{{30.0, 20.0}, {50.0, 20.0}, {50.0, 40.0}}};
    finding.magnet->slivers = {finding.debris->particles[1]};
    add(trial, finding);
    const nlohmann::json all = marks(trial);
    CHECK(all.at("pieces")[0].at("letter") == "B");
    CHECK(all.at("kinds")[0].at("letter") == "B");
    CHECK(all.at("kinds")[0].at("core") == "rgba(5, 33, 107, 1.00)");
    CHECK(all.at("magnet").at("outlines").size() == 1);
    CHECK(all.at("magnet").at("slivers")[0].at("letter") == "S");
    CHECK_THAT(trial.get("/photo/1").body,
               Contains("30 ± 4 % of the magnet&#39;s face is under fuzz") &&
                   Contains("1 shiny sliver in the fuzz") && Contains("In the trade&#39;s words"));
}
