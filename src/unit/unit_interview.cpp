// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/unit_interview.h"

#include "base/errors.h"
#include "base/text.h"
#include "unit/chart_words.h"
#include "unit/interview_answers.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// The interview stops here: there is no answer yet, or the answer is refused.
struct Stop {
    std::string question, wrong;
};

class Interview {
  public:
    explicit Interview(const std::vector<std::string>& answers) : answers_(answers) {}

    std::size_t taken() const { return at_; }

    void run(ApplicationChart& chart) {
        ask("Where do you read it from (manual and page)?",
            [&](const std::string& answer) { chart.source = sourceTyped(answer); });
        askGears(chart);
        askElements(chart);
        askSolenoids(chart);
        askBores(chart);
        askFluid(chart);
    }

  private:
    template <class Take> void ask(const std::string& question, const Take& take) {
        if (at_ == answers_.size())
            throw Stop{question, ""};
        try {
            take(answers_[at_]);
        } catch (const UsageError& wrong) {
            throw Stop{question, wrong.what()};
        }
        ++at_;
    }

    /// A list of names, none of them twice.
    template <class Part, class Read>
    static std::vector<Part> distinct(const std::string& answer, const Read& read) {
        std::vector<Part> parts;
        for (const std::string& word : listTyped(answer)) {
            Part part = read(word);
            if (std::any_of(parts.begin(), parts.end(),
                            [&](const Part& other) { return other.name == part.name; }))
                throw UsageError(fmt::format("{} is there twice.", part.name));
            parts.push_back(std::move(part));
        }
        return parts;
    }

    void askGears(ApplicationChart& chart) {
        ask("Which gears does the table have, in its order? Such as: R, 1, 1 by hand, 2, 3 "
            "(by hand: the manual range)",
            [&](const std::string& answer) {
                chart.gears = distinct<ApplicationChart::Gear>(answer, [](const auto& word) {
                    ApplicationChart::Gear gear;
                    gear.name = nameTyped("A gear", word);
                    return gear;
                });
                if (chart.gears.size() < 2)
                    throw UsageError("A unit has at least two gears. Say them with commas between, "
                                     "such as R, 1, 2, 3.");
                markManualRanges(chart);
            });
    }

    void askElements(ApplicationChart& chart) {
        ask("Which elements hold them? Each with its kind, such as: clutch P, brake X, one-way W",
            [&](const std::string& answer) {
                const std::string commas = answer.find(',') == std::string::npos
                                               ? answer + "," // one element, two words
                                               : answer;
                chart.elements = distinct<ApplicationChart::Element>(
                    commas, [](const auto& word) { return elementTyped(word); });
                if (chart.elements.empty())
                    throw UsageError("Enter at least one clutch or brake, such as: clutch P, brake "
                                     "X.");
            });
        for (ApplicationChart::Gear& gear : chart.gears)
            ask(fmt::format("What holds gear {}? Such as: {}; in brackets what is applied without "
                            "torque, such as ({})",
                            gear.name, chart.elements.front().name, chart.elements.back().name),
                [&](const std::string& answer) { takeHolders(chart, answer, gear); });
    }

    void askSolenoids(ApplicationChart& chart) {
        ask("Which solenoids does the table have, in its order? Such as: A, B, line, converter",
            [&](const std::string& answer) {
                chart.solenoids =
                    isWord(answer, "none")
                        ? std::vector<ApplicationChart::Solenoid>{}
                        : distinct<ApplicationChart::Solenoid>(answer, [](const auto& word) {
                              ApplicationChart::Solenoid solenoid;
                              solenoid.name = nameTyped("A solenoid", word);
                              return solenoid;
                          });
                if (chart.solenoids.empty() && !isWord(answer, "none"))
                    throw UsageError("Say the solenoids' names, or none.");
            });
        for (ApplicationChart::Solenoid& solenoid : chart.solenoids)
            askSolenoid(chart, solenoid);
        if (!chart.solenoids.empty())
            askStates(chart);
    }

    void askSolenoid(const ApplicationChart& chart, ApplicationChart::Solenoid& s) {
        ask(fmt::format("Solenoid {}: its kind? on-off, pwm, linear, converter or unknown", s.name),
            [&](const std::string& answer) { s.type = solenoidKindTyped(answer); });
        ask(fmt::format("Solenoid {}: its resistance at 20 C, ohm? Such as 11-15, or unknown",
                        s.name),
            [&](const std::string& answer) {
                if (isWord(answer, "unknown"))
                    return;
                const auto [low, high] = bandTyped(answer);
                s.bandLow = low;
                s.bandHigh = high;
            });
        ask(fmt::format("Solenoid {}: what does it feed? Such as +{}; - where pressure falls with "
                        "current; common + or common - for line pressure or converter; or unknown",
                        s.name, chart.elements.front().name),
            [&](const std::string& answer) { feedsTyped(answer, chart, s); });
        ask(fmt::format("Solenoid {}: the name of its group of identical ones, none, or calibrated "
                        "where it carries data of its own",
                        s.name),
            [&](const std::string& answer) {
                s.calibrated = isWord(answer, "calibrated");
                s.siblings =
                    s.calibrated || isWord(answer, "none") ? "" : nameTyped("A group", answer);
            });
        ask(fmt::format(
                "Solenoid {}: what do codes call it? Such as shift A or pressure B, or same",
                s.name),
            [&](const std::string& answer) {
                s.code = isWord(answer, "same") ? "" : codeNameTyped(answer);
            });
    }

    void askStates(ApplicationChart& chart) {
        const std::string names = namesOf(chart);
        for (ApplicationChart::Gear& gear : chart.gears)
            ask(fmt::format("Gear {}: the states of {}? on, off, mod or any, one for each",
                            gear.name, names),
                [&](const std::string& answer) { gear.solenoids = statesTyped(chart, answer); });
        ask(fmt::format("With current removed: the states of {}? Or unknown", names),
            [&](const std::string& answer) {
                if (!isWord(answer, "unknown"))
                    chart.currentRemoved = statesTyped(chart, answer);
            });
    }

    void askBores(ApplicationChart& chart) {
        ask("Which valve-body bores do you test? Names with commas between, or none",
            [&](const std::string& answer) {
                if (isWord(answer, "none"))
                    return;
                const std::string commas = answer.find(',') == std::string::npos
                                               ? answer + "," // one name of several words
                                               : answer;
                chart.bores = distinct<ApplicationChart::Bore>(commas, [](const auto& word) {
                    return ApplicationChart::Bore{nameTyped("A bore", word), {}, "", {}};
                });
                if (chart.bores.empty())
                    throw UsageError("Say the bores' names, or none.");
            });
        for (ApplicationChart::Bore& bore : chart.bores)
            askBore(chart, bore);
    }

    void askBore(const ApplicationChart& chart, ApplicationChart::Bore& bore) {
        ask(fmt::format("Bore {}: which gears does it serve? Such as 2, 3; all; or none",
                        bore.name),
            [&](const std::string& answer) {
                std::vector<std::string> gears;
                if (isWord(answer, "all"))
                    for (const ApplicationChart::Gear& gear : chart.gears)
                        gears.push_back(gear.name);
                else if (!isWord(answer, "none"))
                    gears = listTyped(answer);
                for (const std::string& gear : gears)
                    if (chart.gear(gear) == nullptr)
                        throw UsageError(
                            fmt::format("\"{}\" is not one of the gears you named.", gear));
                bore.gears = std::move(gears);
            });
        ask(fmt::format("Bore {}: which solenoid moves it? Its name, or none", bore.name),
            [&](const std::string& answer) {
                const std::string name = isWord(answer, "none") ? "" : trimmed(answer);
                if (!name.empty() && chart.solenoid(name) == nullptr)
                    throw UsageError(
                        fmt::format("\"{}\" is not one of the solenoids you named.", name));
                bore.solenoid = name;
            });
        ask(fmt::format("Bore {}: which elements does it feed? Names, or none", bore.name),
            [&](const std::string& answer) {
                const auto names =
                    isWord(answer, "none") ? std::vector<std::string>{} : listTyped(answer);
                for (const std::string& name : names)
                    if (chart.element(name) == nullptr)
                        throw UsageError(
                            fmt::format("\"{}\" is not one of the elements you named.", name));
                bore.feeds = names;
            });
    }

    void askFluid(ApplicationChart& chart) {
        ask("How much fluid does it hold in all? Such as 9.0l, or unknown",
            [&](const std::string& answer) {
                if (!isWord(answer, "unknown"))
                    chart.fluidTotal = parseVolume(answer).value;
            });
        ask("How much does a pan service take? Such as 4.2l, or unknown",
            [&](const std::string& answer) {
                if (isWord(answer, "unknown"))
                    return;
                const Litres service = parseVolume(answer).value;
                if (chart.fluidTotal && *chart.fluidTotal < service)
                    throw UsageError("That is more than the whole unit holds.");
                chart.fluidPanService = service;
            });
        ask("Between which fluid temperatures is the level valid? Such as 35-45C, or unknown",
            [&](const std::string& answer) {
                if (isWord(answer, "unknown"))
                    return;
                const auto [low, high] = windowTyped(answer);
                chart.levelFrom = low;
                chart.levelTo = high;
            });
    }

    const std::vector<std::string>& answers_;
    std::size_t at_ = 0;
};

} // namespace

InterviewStep interview(const std::string& unit, const std::vector<std::string>& answers) {
    InterviewStep step;
    step.chart.unit = unit;
    Interview interview(answers);
    try {
        interview.run(step.chart);
        step.finished = true;
    } catch (const Stop& stop) {
        step.question = stop.question;
        step.wrong = stop.wrong;
    }
    step.taken = interview.taken();
    return step;
}

} // namespace swarfbook
