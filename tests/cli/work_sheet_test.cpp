// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/cautions.h"
#include "bench/work_sheet.h"
#include "cli/typed_bench.h"

#include <set>

using namespace swarfbook;
using namespace swarfbook::test;

TEST_CASE("the work sheet asks in the order in which observations are typed in") {
    std::vector<std::string> onSheet, typed;
    for (const SheetSection& section : workSheetSections({}))
        for (const std::string& form : section.forms())
            onSheet.push_back(form);
    for (const ObservationForm& form : observationForms())
        if (std::find(onSheet.begin(), onSheet.end(), form.name) != onSheet.end())
            typed.push_back(form.name);
    CHECK(onSheet == typed);
    // the rest are not boxes to fill: left-out parts are entered in their own step, and the work in
    // a box of after-repair
    const std::set<std::string> none{"not-inspected", "overrule", "take-back", "did"};
    CHECK(onSheet.size() + none.size() == observationForms().size());
}

TEST_CASE("the work sheet carries each caution once, at the step that needs it") {
    const std::string text = workSheetText({});
    for (const Hazard hazard : allHazards()) {
        if (hazard == Hazard::drivingOn || hazard == Hazard::untestedMetal ||
            hazard == Hazard::towing)
            continue; // of the answer, not of a step
        const std::string_view sentence = cautionSentence(hazard);
        INFO(sentence);
        const std::size_t at = text.find(sentence);
        REQUIRE(at != std::string::npos);
        CHECK(text.find(sentence, at + 1) == std::string::npos);
    }
    CHECK_THAT(text, Catch::EndsWith(std::string(standingLine()) + "\n"));
}

TEST_CASE("the work sheet is written for a visit, or without one") {
    const Bench bench;
    const auto file = bench.folder() / "sheet.pdf";
    CHECK(bench.run({"report", "--work-sheet", "--out", file.string()}).exit == 0);
    CHECK(contentOf(file).starts_with("%PDF-1.5"));
    const ProgramResult text = bench.run({"report", "--work-sheet", "--visit", "1", "--text"});
    CHECK_THAT(text.out, Catch::Contains("DEMO-03") && Catch::Contains("Demo 5"));
    // rows of the unit's own chart: five gears, their shifts, solenoids, bores and clutches
    CHECK_THAT(text.out, Catch::Contains("\n5 | []") && Catch::Contains("\n4-5 | []") &&
                             !Catch::Contains("\n6 | []") && Catch::Contains("\nconverter | ") &&
                             Catch::Contains("\n2-3 shift valve | ") &&
                             Catch::Contains("air check one way clutch W"));
    CHECK(bench.run({"report", "--work-sheet", "--json"}).exit == 2);
    CHECK(bench.run({"report", "--work-sheet", "--visit", "9", "--text"}).exit == 2);
}
