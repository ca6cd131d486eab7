// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_visit.h"

#include "base/errors.h"
#include "base/shown_units.h"
#include "cli/book_output.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "record/book.h"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <map>
#include <utility>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

const std::map<std::string, std::set<std::string>>& optionsOfActions() {
    static const std::map<std::string, std::set<std::string>> all{
        {"correct",
         {"vehicle", "date", "odometer", "miles", "complaint", "by", "since-clean", "last-clean",
          "earlier", "odometer-replaced", "json"}},
        {"add",
         {"date", "odometer", "miles", "complaint", "by", "since-clean", "last-clean", "earlier",
          "odometer-replaced", "json"}},
        {"list", {"json"}},
        {"show", {"json"}},
        {"withdraw", {"by", "why", "undo"}},
        {"measure", {}}};
    return all;
}

class VisitCommand : public Command {
  public:
    explicit VisitCommand(MeasureVisit measure) : measure_(std::move(measure)) {}
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        add("action", text(), "the first word: add, list, show, correct, withdraw or measure");
        add("which", text(), "the second word: a vehicle's label (add, list) or a visit's number");
        add("vehicle", text(), "correct: the label of the vehicle that the visit belongs to");
        add("date", text(), "of the visit: year-month-day, 12.05.2025, today or yesterday");
        add("odometer", text(), "what the odometer shows: km, or with its unit as in 75000mi");
        add("miles", "the odometer and --since-clean are in miles where no unit is typed");
        add("odometer-replaced", "the odometer started again from zero since the last visit");
        add("complaint", text(), "in the customer's words");
        add("by", text(), "who looked; withdraw: who withdraws it");
        add("why", text(), "withdraw: why");
        add("undo", "withdraw: bring it back");
        add("since-clean", text(), "km since pan, magnet and filter were last cleaned");
        add("last-clean", text(),
            "the day of that clean, or unknown; when it was a visit in the "
            "book, the distance is worked out");
        add("earlier", "the visit was before others that are in the book already");
        add("json", "as JSON");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's "
            "data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("action", 1).add("which", 1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        action_ = textOf(words, "action");
        const auto known = optionsOfActions().find(action_);
        if (known == optionsOfActions().end())
            throw UsageError("Say what to do: swarfbook visit add LABEL, swarfbook visit list "
                             "LABEL, or swarfbook visit show, correct, withdraw or measure N.");
        std::set<std::string> allowed = known->second;
        allowed.insert({"action", "which", "book"});
        allowOnly(words, "visit " + action_, allowed);
        which_ = textOf(words, "which");
        json_ = has(words, "json");
        book_ = maybeTextOf(words, "book");
        const bool byLabel = action_ == "add" || action_ == "list";
        if (which_.empty())
            throw UsageError(fmt::format("Say which {}, for example: swarfbook visit {} {}.",
                                         byLabel ? "vehicle" : "visit", action_,
                                         byLabel ? "DEMO-03" : "1"));
        if (!byLabel)
            number_ = visitNumber(which_);
        if (action_ == "add" && !has(words, "date"))
            throw UsageError("When was it? Say --date today, or a day such as --date 2025-03-14.");
        words_ = words;
        applyTo(visit_); // a word that is not a number is refused before the book is opened
        earlier_ = has(words, "earlier");
    }

    int run() override {
        if (action_ == "measure")
            return measure();
        if (action_ == "correct")
            return correct();
        if (action_ == "withdraw")
            return withdraw();
        if (action_ == "add")
            return addTo();
        const Book book = bookToRead(book_);
        if (action_ == "show")
            return print(book, book.visit(number_));
        const Vehicle vehicle = book.vehicleByLabel(which_);
        std::cout << (json_ ? visitListJson(book, vehicle).dump() + "\n"
                            : visitListText(book, vehicle));
        return done;
    }

  private:
    /// Puts the given values into the visit and leaves the rest as it is.
    void applyTo(Visit& visit) const {
        const bool miles = has(words_, "miles");
        const auto text = [&](const std::string& name, std::string& field) {
            field = maybeTextOf(words_, name).value_or(field);
        };
        const auto distance = [&](const std::string& name, std::optional<double>& field) {
            if (const auto value = kilometresOf(words_, name, miles, "120000"))
                field = *value;
        };
        text("date", visit.date);
        text("complaint", visit.complaint);
        text("by", visit.lookedBy);
        text("last-clean", visit.lastClean);
        distance("odometer", visit.odometerKm);
        visit.odometerReplaced = visit.odometerReplaced || has(words_, "odometer-replaced");
        const bool unknownClean = visit.lastClean == "unknown";
        if (unknownClean && has(words_, "since-clean"))
            throw UsageError("--last-clean unknown and --since-clean contradict each other. Give "
                             "the one that is true.");
        if (unknownClean) {
            visit.lastClean.clear();
            visit.sinceCleanKm.reset();
        }
        distance("since-clean", visit.sinceCleanKm);
    }

    int measure() {
        Book book = bookToMeasureFor(book_);
        const MeasuredVisit measured = measure_(book, number_);
        nowKept(fmt::format("The new findings of visit {} are in the book.", number_));
        std::cout << measured.told;
        return measured.code;
    }

    int correct() {
        Book book = bookToWrite(book_);
        BookTransaction transaction = book.begin();
        const Visit before = book.visit(number_);
        Visit visit = before;
        applyTo(visit);
        if (has(words_, "vehicle"))
            visit.vehicleId = book.vehicleByLabel(textOf(words_, "vehicle")).id;
        const auto visits = book.visits(visit.vehicleId);
        // A distance worked out from two odometers is updated with them.
        const bool fromVisit = std::any_of(visits.begin(), visits.end(), [&](const Visit& other) {
            return other.date == visit.lastClean && other.id != visit.id;
        });
        if (fromVisit && !has(words_, "since-clean"))
            visit.sinceCleanKm.reset();
        const Visit corrected = book.correctVisit(visit, earlier_);
        transaction.commit();
        nowKept(fmt::format("The correction of visit {} is in the book.", number_));
        return print(book, corrected);
    }

    int withdraw() {
        Book book = bookToWrite(book_);
        const ChangeReason reason{textOf(words_, "by"), textOf(words_, "why")};
        const bool undo = has(words_, "undo");
        if (undo)
            book.bringBackVisit(number_, reason);
        else
            book.withdrawVisit(number_, reason);
        const std::string said =
            undo ? fmt::format("Visit {} is back in every count.", number_)
                 : fmt::format("Visit {0} is withdrawn: it stays in the book and counts nowhere. "
                               "swarfbook visit withdraw {0} --undo brings it back.",
                               number_);
        nowKept(said);
        std::cout << said << "\n";
        return done;
    }

    int print(const Book& book, const Visit& visit) const {
        std::cout << (json_ ? visitJson(book, visit).dump() + "\n" : visitText(book, visit));
        return done;
    }

    int addTo() {
        Book book = bookToWrite(book_);
        const Vehicle vehicle = book.vehicleByLabel(which_);
        visit_.vehicleId = vehicle.id;
        const Visit added = book.addVisit(visit_, earlier_);
        nowKept(fmt::format("Visit {} of {} is in the book.", added.id, vehicle.label));
        if (json_)
            return print(book, added);
        std::cout << fmt::format("Visit {}: {} on {}", added.id, vehicle.label,
                                 dateWords(added.date));
        if (added.odometerKm)
            std::cout << fmt::format(" at {}", distanceWords(*added.odometerKm));
        if (added.sinceCleanKm)
            std::cout << fmt::format(", {} since the last clean",
                                     distanceWords(*added.sinceCleanKm));
        std::cout << "\n";
        if (!added.sinceCleanKm)
            std::cerr
                << "The distance since the last clean is not known, so no wear score can be "
                   "given for this visit. Give it with --since-clean KM or --last-clean DATE.\n";
        return done;
    }

    MeasureVisit measure_;
    std::string action_, which_;
    std::int64_t number_ = 0;
    ParsedOptions words_;
    Visit visit_;
    bool earlier_ = false;
    bool json_ = false;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry visitEntry(MeasureVisit measure) {
    return {
        "visit", "Add, list, show, correct or withdraw visits, or measure one again",
        "swarfbook visit add LABEL --date D --odometer KM [--since-clean KM] [options]\n"
        "       swarfbook visit list LABEL [--json]\n"
        "       swarfbook visit show N [--json]\n"
        "       swarfbook visit correct N [--vehicle LABEL] [--date D] [--odometer KM] [options]\n"
        "       swarfbook visit withdraw N --why TEXT [--by WHO] | --undo\n"
        "       swarfbook visit measure N",
        "swarfbook visit add DEMO-03 --date today --odometer 120500 --since-clean 30000 "
        "--book trial-book",
        [measure = std::move(measure)]() -> Command* { return new VisitCommand(measure); }};
}

} // namespace swarfbook::cli
