// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_observe.h"

#include "base/errors.h"
#include "cli/observe_kinds.h"
#include "record/book.h"
#include "record/evidence_of_visit.h"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

const std::set<std::string> everyKindsOptions{"visit", "words", "json", "book"};

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
    return text + "\nSeveral observations of one solenoid or bore add up; of anything else the "
                  "latest counts.\nNothing is overwritten: a correction is a new observation. "
                  "Without a kind, all\nobservations of the visit are shown.\n\noptions";
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
        std::set<std::string> allowed = everyKindsOptions;
        if (values.empty()) {
            allowOnly(words, "observe", allowed);
            return;
        }
        const ObserveKind& kind = kindOf(values.front());
        allowed.insert(kind.options.begin(), kind.options.end());
        allowOnly(words, "observe " + kind.name, allowed);
        values.erase(values.begin());
        try {
            observation_ = kind.read(ObserveWords(words, std::move(values)));
        } catch (const UsageError& wrong) {
            throw UsageError(fmt::format("{} Example: swarfbook observe --visit {} {}",
                                         wrong.what(), visit_, kind.example));
        }
    }

    int run() override {
        Book book = Book::open(bookFolder(book_), IfNoBook::refuse);
        const Visit visit = book.visit(visit_);
        if (!observation_)
            return showAll(book, visit);
        questionAgainst(visit);
        BookTransaction transaction = book.begin();
        StoredObservation stored;
        stored.visitId = visit.id;
        stored.kind = observationKind(*observation_);
        stored.json = toJson(*observation_).dump();
        stored = book.addObservation(stored);
        transaction.commit();
        print(*observation_);
        if (const auto* s = std::get_if<SolenoidReadings>(&*observation_);
            s && s->resistance && !s->at)
            std::cerr << "swarfbook: a resistance without its temperature proves little: add --at "
                         "20C, or what it was.\n";
        return done;
    }

  private:
    /// What the visit itself makes impossible.
    void questionAgainst(const Visit& visit) const {
        const auto* since = std::get_if<SinceClean>(&*observation_);
        if (since != nullptr && since->distance && visit.odometerKm &&
            since->distance->value.value() > *visit.odometerKm && !visit.odometerReplaced)
            throw UsageError(
                fmt::format("{} since the last clean is more than the odometer shows "
                            "at this visit ({:.0f} km): check the digits and the unit.",
                            since->distance->typed, *visit.odometerKm));
    }

    void print(const Observation& observation) const {
        if (json_)
            std::cout << nlohmann::ordered_json{{"format", "swarfbook observation 1"},
                                                {"visit", visit_},
                                                {"kind", observationKind(observation)},
                                                {"observation", toJson(observation)},
                                                {"text", describe(observation)}}
                             .dump()
                      << "\n";
        else
            std::cout << fmt::format("visit {}: {}\n", visit_, describe(observation));
    }

    int showAll(const Book& book, const Visit& visit) const {
        const VisitEvidence evidence = evidenceOfOneVisit(book, visit);
        if (evidence.observations.empty() && !json_)
            std::cout << fmt::format("visit {}: nothing observed yet\n", visit_);
        for (const Observation& observation : evidence.observations)
            print(observation);
        return done;
    }

    std::int64_t visit_ = 0;
    bool json_ = false;
    std::optional<std::string> book_;
    std::optional<Observation> observation_;
};

} // namespace

CommandEntry observeEntry() {
    return {"observe", "Type in what was seen and tested by hand",
            "swarfbook observe --visit N KIND ... [options]",
            "swarfbook observe --visit 1 codes P0733 P0735 --book trial-book",
            []() -> Command* { return new ObserveCommand; }};
}

} // namespace swarfbook::cli
