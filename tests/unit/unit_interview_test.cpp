// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/chart_check.h"
#include "unit/unit_interview.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using Catch::Contains;
using Answers = std::vector<std::string>;

namespace {

/// A whole interview on an invented unit with three forward gears.
Answers whole() {
    const Answers elements{"invented manual, page 12",
                           "R, 1, 1 by hand, 2, 3",
                           "clutch P, clutch Q, brake X, brake Y, one-way W",
                           "Q Y",
                           "P W",
                           "P W Y",
                           "P X",
                           "P Q (X)"};
    const Answers solenoids{"A, B, line", "on-off",   "11-15",      "+P -Q",
                            "shift",      "shift B",  "on-off",     "11 to 15 ohm",
                            "X Y",        "shift",    "same",       "linear",
                            "unknown",    "common -", "calibrated", "pressure A"};
    const Answers states{"off on mod", "on off mod", "on, off, mod",
                         "on on mod",  "0 1 any",    "off off off"};
    const Answers rest{"1-2 valve, main regulator",
                       "1, 2",
                       "B",
                       "X",
                       "all",
                       "line",
                       "none",
                       "9.0l",
                       "4.2l",
                       "35-45C"};
    Answers all;
    for (const Answers& part : {elements, solenoids, states, rest})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

/// The answers so far, then one more.
Answers with(std::size_t kept, const std::string& next) {
    Answers answers = whole();
    answers.resize(kept);
    answers.push_back(next);
    return answers;
}

} // namespace

TEST_CASE("a whole interview gives the chart that was read out") {
    const InterviewStep step = interview("Trial 3", whole());
    INFO(step.question << " / " << step.wrong);
    REQUIRE(step.finished);
    const ApplicationChart& chart = step.chart;
    CHECK(chart.unit == "Trial 3");
    CHECK(chart.gears.size() == 5);
    CHECK(chart.gear("1 by hand")->manualRange);
    CHECK_FALSE(chart.gear("1")->manualRange);
    CHECK(chart.gear("3")->elements.at("X") == Applied::idle);
    CHECK(chart.element("W")->kind == ElementKind::oneWayClutch);
    const auto& a = *chart.solenoid("A");
    CHECK(a.bandLow->value() == 11.0);
    CHECK(a.feeds.size() == 2);
    CHECK(a.feeds[0].risesWhenOn);
    CHECK_FALSE(a.feeds[1].risesWhenOn);
    CHECK(a.code == "shift B");
    CHECK(chart.solenoid("line")->common);
    CHECK_FALSE(chart.solenoid("line")->pressureRisesWhenOn);
    CHECK(chart.solenoid("line")->calibrated);
    CHECK(chart.gear("3")->solenoids.at("line") == SolenoidCommand::any);
    CHECK(chart.currentRemoved.at("B") == SolenoidCommand::off);
    CHECK(chart.bores[1].gears.size() == 5);
    CHECK(chart.fluidTotal->value() == Approx(9.0).margin(1e-9));
    CHECK(chart.levelTo->value() == Approx(45.0).margin(1e-9));
    CHECK(inconsistencies(chart).empty());
}

TEST_CASE("the questions come in the order of a manual, none before its time") {
    Answers answers;
    std::string before;
    for (const std::string& answer : whole()) {
        const InterviewStep step = interview("Trial 3", answers);
        CHECK_FALSE(step.finished);
        CHECK(step.wrong.empty());
        CHECK(step.taken == answers.size());
        CHECK(step.question != before);
        before = step.question;
        answers.push_back(answer);
    }
    CHECK_THAT(interview("T", {}).question, Contains("Where do you read"));
    CHECK_THAT(interview("T", with(0, "manual")).question, Contains("Which gears"));
}

TEST_CASE("a bad answer is refused, and the same question comes again with what to type instead") {
    const auto refused = [](std::size_t kept, const std::string& answer, const std::string& says) {
        const InterviewStep step = interview("T", with(kept, answer));
        INFO(answer << " -> " << step.wrong);
        CHECK(step.taken == kept);
        CHECK_FALSE(step.finished);
        CHECK_THAT(step.wrong, Contains(says));
        Answers before = whole();
        before.resize(kept);
        CHECK(step.question == interview("T", before).question);
    };
    refused(0, "", "Say where it is read from");
    refused(1, "R", "at least two gears");
    refused(1, "R, 1, 1", "1 is there twice");
    refused(2, "P, Q", "does not say what it is");
    refused(2, "clutch P, brake P", "P is there twice");
    refused(3, "Z", "not one of the elements");
    refused(3, "nothing", "Something must hold gear R");
    refused(3, "(Q)", "Something must hold gear R");
    refused(9, "sprocket", "is not a known kind of solenoid");
    refused(10, "15-11", "upside down");
    refused(10, "11", "is not a range");
    refused(10, "11-15000000", "15000000");
    refused(11, "+Z", "not an element");
    refused(13, "third from the left", "shift or pressure and a letter");
    refused(24, "off on", "2 states were given for 3 solenoids (A, B, line)");
    refused(24, "off on maybe", "on, off, mod or any");
    refused(31, "7", "not one of the gears");
    refused(32, "C", "not one of the solenoids");
    refused(33, "Z", "not one of the elements");
    refused(37, "900l", "900");
    refused(38, "9.5l", "more than the whole unit");
    refused(39, "45-35C", "upside down");
}
