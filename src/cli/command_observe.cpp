// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_observe.h"

#include "assess/assess.h"
#include "base/errors.h"
#include "bench/cautions.h"
#include "bench/sibling_question.h"
#include "cli/free_text.h"
#include "cli/observe_kinds.h"
#include "cli/open_book.h"
#include "record/book.h"
#include "record/evidence_of_visit.h"
#include "record/unit_charts.h"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <map>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

const std::set<std::string> everyKindsOptions{"visit", "words",    "json", "book",
                                              "by",    "corrects", "sure"};

const ObserveKind& kindOf(const std::string& name) {
    const auto& all = observeKinds();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const ObserveKind& k) { return k.name == name; });
    if (found != all.end())
        return *found;
    std::string names;
    for (const ObserveKind& kind : all)
        names += (names.empty() ? "" : ", ") + kind.name;
    throw UsageError(fmt::format("\"{}\" is no kind of observation. Say one of: {}. "
                                 "swarfbook observe --help gives an example of each.",
                                 name, names));
}

/// One line for each kind, then its example.
std::string kindsHelp() {
    std::string text = "kinds, each with an example:\n";
    for (const ObserveKind& kind : observeKinds())
        text += fmt::format("\n  {} {}\n      {}\n      swarfbook observe --visit 4 {}\n",
                            kind.name, kind.usage, kind.help, kind.example);
    return text +
           "\nSeveral observations of one solenoid or bore add up; of anything else the "
           "latest counts.\nNothing is overwritten: --corrects NUMBER puts a new entry in the "
           "place of an earlier one,\nand both stay. KIND not-inspected says that it was not "
           "looked at. Without a kind, all\nobservations of the visit are shown with their "
           "numbers.\n\noptions";
}

/// "filter", "solenoid C": what is said to be not inspected; nothing when that is not said.
std::optional<std::string> leftOut(std::vector<std::string> values) {
    if (values.front() == "not-inspected")
        return std::nullopt;
    std::string last = wordAsTyped(values.back());
    if (last == "inspected" && values.size() > 2 &&
        wordAsTyped(values[values.size() - 2]) == "not") {
        values.pop_back();
        last = "not-inspected";
    }
    if (values.size() < 2 || (last != "not-inspected" && last != "not-looked-at"))
        return std::nullopt;
    values.pop_back();
    std::string what;
    for (const std::string& word : values)
        what += (what.empty() ? "" : " ") + word;
    return what;
}

std::int64_t observationNumber(const std::string& text) {
    try {
        return visitNumber(text);
    } catch (const UsageError&) {
        throw UsageError(
            fmt::format("\"{}\" is no observation's number. swarfbook observe --visit N "
                        "without a kind shows them.",
                        text));
    }
}

bool firstOfItsKind(const std::vector<StoredObservation>& all, const std::string& kind) {
    return std::none_of(all.begin(), all.end(), [&](const auto& one) { return one.kind == kind; });
}

void questionDistance(const SinceClean& since, const Visit& visit) {
    if (since.distance && visit.odometerKm && since.distance->value.value() > *visit.odometerKm &&
        !visit.odometerReplaced)
        throw UsageError(
            fmt::format("{} since the last clean is more than the odometer shows at this visit "
                        "({:.0f} km): check the digits and the unit. If it is really so, type the "
                        "same again with --sure.",
                        since.distance->typed, *visit.odometerKm));
}

/// Window and volume of the unit's chart, where they were not typed in.
void fillFromChart(const Book& book, const Visit& visit, LevelCheck& check) {
    const ChartFolders folders{unitsFolder(book.folder()), dataFolder() / "models" / "units"};
    const UnitAtHand unit = unitAtHand(folders, book.vehicle(visit.vehicleId).unit);
    if (!unit.chart)
        return;
    const auto celsius = [](Celsius t) {
        return Typed<Celsius>{t, fmt::format("{:g}C", t.value())};
    };
    const ApplicationChart& chart = *unit.chart;
    if (!check.windowLow && chart.levelFrom && chart.levelTo) {
        check.windowLow = celsius(*chart.levelFrom);
        check.windowHigh = celsius(*chart.levelTo);
    }
    if (!check.total && chart.fluidTotal)
        check.total =
            Typed<Litres>{*chart.fluidTotal, fmt::format("{:g} l", chart.fluidTotal->value())};
}

class ObserveCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all(kindsHelp(), 100);
        auto add = all.add_options();
        add("visit", po::value<std::string>(), "the visit's number");
        add("words", po::value<std::vector<std::string>>(), "the kind, and what belongs to it");
        for (const auto& [name, help] : observeOptions()) {
            if (observeFlags().contains(name))
                add(name.c_str(), help.c_str());
            else
                add(name.c_str(), po::value<std::string>(), help.c_str());
        }
        add("json", "as JSON");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("words", -1);
        return words;
    }

    void parse(const Words& words) override {
        book_ = maybeTextOf(words, "book");
        json_ = has(words, "json");
        if (!has(words, "visit"))
            throw UsageError("Which visit? Say it: swarfbook observe --visit 4 codes P0733.");
        visit_ = visitNumber(textOf(words, "visit"));
        std::vector<std::string> values;
        if (has(words, "words"))
            values = words["words"].as<std::vector<std::string>>();
        by_ = textOf(words, "by");
        sure_ = has(words, "sure") ? Sure::meant : Sure::ask;
        if (has(words, "corrects"))
            corrects_ = observationNumber(textOf(words, "corrects"));
        if (values.empty()) {
            allowOnly(words, "observe", {"visit", "json", "book"});
            return;
        }
        readKind(words, std::move(values));
    }

    int run() override {
        if (!observation_)
            return showAll(bookToRead(book_));
        Book book = bookToWrite(book_);
        BookTransaction transaction = book.begin(); // what is asked below stays true in it
        const Visit visit = book.visit(visit_);
        questionAgainst(book, visit);
        if (auto* check = std::get_if<LevelCheck>(&*observation_))
            fillFromChart(book, visit, *check);
        StoredObservation stored;
        stored.visitId = visit.id;
        stored.kind = observationKind(*observation_);
        stored.json = toJson(*observation_).dump();
        stored.by = by_;
        stored.corrects = corrects_;
        const bool first = firstOfItsKind(book.observations(visit.id), stored.kind);
        stored = book.addObservation(stored);
        transaction.commit();
        nowKept(fmt::format("The observation is in the book, number {} of visit {}.", stored.id,
                            visit_));
        print(*observation_, stored, "");
        remark(first);
        return done;
    }

  private:
    void readKind(const Words& words, std::vector<std::string> values) {
        std::set<std::string> allowed = everyKindsOptions;
        const ObserveKind& kind = kindOf(values.front());
        if (const auto what = leftOut(values)) {
            allowOnly(words, "observe " + kind.name + " not-inspected", allowed);
            observation_ = NotInspected{*what};
            return;
        }
        allowed.insert(kind.options.begin(), kind.options.end());
        allowOnly(words, "observe " + kind.name, allowed);
        if (kind.name != "overrule" && kind.name != "take-back")
            questionNote(textOf(words, "note"), sure_);
        values.erase(values.begin());
        try {
            observation_ = kind.read(ObserveWords(words, std::move(values)));
        } catch (const UsageError& wrong) {
            throw UsageError(fmt::format("{} Example: swarfbook observe --visit {} {}",
                                         wrong.what(), visit_, kind.example));
        }
    }

    /// What the visit and its other readings make unlikely.
    void questionAgainst(const Book& book, const Visit& visit) {
        if (sure_ == Sure::meant)
            return;
        if (const auto* since = std::get_if<SinceClean>(&*observation_))
            questionDistance(*since, visit);
        if (const auto* solenoid = std::get_if<SolenoidReadings>(&*observation_))
            questionAgainstSiblings(*solenoid, evidenceOfOneVisit(book, visit).observations);
    }

    /// Cautions at the first step of a kind, and what the reading still lacks.
    void remark(bool first) const {
        if (first)
            for (const std::string_view caution : cautionsAt(observationKind(*observation_)))
                std::cerr << "swarfbook: caution: " << caution << "\n";
        if (const auto* s = std::get_if<SolenoidReadings>(&*observation_);
            s && s->resistance && !s->at)
            std::cerr << "swarfbook: a resistance without its temperature proves little: add --at "
                         "20C, or what it was.\n";
    }

    void print(const Observation& observation, const StoredObservation& stored,
               const std::string& remarks) const {
        if (json_)
            std::cout << nlohmann::ordered_json{{"format", "swarfbook observation 1"},
                                                {"visit", visit_},
                                                {"number", stored.id},
                                                {"kind", stored.kind},
                                                {"recorded_at", stored.recordedAt},
                                                {"by", stored.by},
                                                {"corrects", stored.corrects
                                                                 ? nlohmann::json(*stored.corrects)
                                                                 : nlohmann::json(nullptr)},
                                                {"stands", remarks.empty()},
                                                {"observation", toJson(observation)},
                                                {"text", describe(observation)}}
                             .dump()
                      << "\n";
        else
            std::cout << fmt::format(
                "visit {}: {} (number {}{}{}{})\n", visit_, describe(observation), stored.id,
                stored.by.empty() ? "" : ", by " + stored.by,
                stored.corrects ? fmt::format(", corrects {}", *stored.corrects) : "",
                remarks.empty() ? "" : ", " + remarks);
    }

    int showAll(const Book& book) const {
        const std::vector<StoredObservation> all = book.observations(book.visit(visit_).id);
        if (all.empty() && !json_)
            std::cout << fmt::format("visit {}: nothing observed yet\n", visit_);
        std::map<std::int64_t, std::int64_t> replacedBy;
        for (const StoredObservation& one : all)
            if (one.corrects)
                replacedBy.emplace(*one.corrects, one.id);
        for (const StoredObservation& one : all) {
            const auto later = replacedBy.find(one.id);
            if (const auto observation = observationIfReadable(book, one))
                print(*observation, one,
                      later == replacedBy.end() ? ""
                                                : fmt::format("replaced by {}", later->second));
        }
        return done;
    }

    std::int64_t visit_ = 0;
    bool json_ = false;
    std::optional<std::string> book_;
    std::optional<Observation> observation_;
    std::string by_;
    std::optional<std::int64_t> corrects_;
    Sure sure_ = Sure::ask;
};

} // namespace

CommandEntry observeEntry() {
    return {"observe", "Type in what was seen and tested by hand",
            "swarfbook observe --visit N KIND ... [options]",
            "swarfbook observe --visit 1 codes P0733 P0735 --book trial-book",
            []() -> Command* { return new ObserveCommand; }};
}

} // namespace swarfbook::cli
