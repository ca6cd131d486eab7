// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/customer_words.h"
#include "report/hand_made.h"
#include "report/report_words.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace swarfbook;
using namespace swarfbook::test;

TEST_CASE("every suggestion states the risk of waiting, and says whether driving on is allowed") {
    std::set<std::string> all;
    for (int i = 0; i <= static_cast<int>(swarfbook::Recommendation::notEnoughEvidence); ++i) {
        Suggestion suggestion;
        suggestion.outcome = static_cast<swarfbook::Recommendation>(i);
        const std::string sentence = waitingSentence(suggestion);
        CHECK(sentence.size() > 40);
        CHECK(sentence.back() == '.');
        all.insert(sentence);
    }
    CHECK(all.size() == 5); // three repairs of the control share one
    Suggestion open;
    open.outcome = swarfbook::Recommendation::openTheTransmission;
    open.doNotDrive = true;
    CHECK(waitingSentence(open).find("stop driving without") != std::string::npos);
    CHECK(waitingSentence(std::nullopt).empty());
}

TEST_CASE("after a repair that held, no sentence reads as if it were still to be done") {
    Suggestion suggestion;
    suggestion.outcome = swarfbook::Recommendation::openTheTransmission;
    suggestion.doNotDrive = true;
    suggestion.heldRepair = "clutch P";
    CHECK(waitingSentence(suggestion) ==
          "The repair has held. Come back soon if the complaint does.");
    CHECK(verdictSentence(suggestion) ==
          "The repair was done and has held (clutch P). The evidence from before it pointed to: " +
              std::string(recommendationName(suggestion.outcome)) + ".");
    CHECK(suggestionSentences(suggestion).front().find("Before the repair: ") == 0);
    suggestion.outcome = swarfbook::Recommendation::notEnoughEvidence;
    CHECK(verdictSentence(suggestion) ==
          "The repair was done and has held (clutch P). The evidence "
          "from before it was not enough for a verdict.");
}

TEST_CASE("the quote has a line for the work, for each item of it and for the sum") {
    Suggestion suggestion;
    suggestion.outcome = swarfbook::Recommendation::cleanAndRefit;
    suggestion.scope = {"Filter, pan seal and fluid: renew them."};
    suggestion.coolerAsOption = true;
    suggestion.doNotDrive = true; // advice, no work: it has no price
    const std::vector<std::string> lines = priceLines(suggestion);
    CHECK(lines.at(0) == "Clean, new filter and seals, refit.");
    CHECK(lines.at(1) == "Filter, pan seal and fluid: renew them.");
    CHECK(lines.at(2) == "Option: cooler.");
    CHECK(lines.back() == "Total, tax included");
    CHECK(std::none_of(lines.begin(), lines.end(), [](const std::string& line) {
        return line.find_first_of("0123456789") != std::string::npos; // prices are left open
    }));
}

TEST_CASE("the reasons end with the evidence against") {
    const ReportModel model = handMadeModel();
    CHECK(reasonSentences(model).back() ==
          "Evidence against this: Yellow metal was seen, if only a few specks.");
    CHECK(photoSentences(model).size() == model.samples.size());
}

// A tray's photo counts threads and pieces at the window's edge, its flush does not (ISO 16232):
// one page must not show both counts.
TEST_CASE("what a flush tells pass by pass is not told photo by photo as well") {
    ReportModel model = handMadeModel();
    const std::size_t all = model.samples.size();
    model.samples.push_back(model.samples.front());
    model.samples.back().ofFlush = true;
    CHECK(photoSentences(model).size() == all);
}
