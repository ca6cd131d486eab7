// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_vehicle.h"

#include "base/errors.h"
#include "cli/book_output.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "record/book.h"

#include <fmt/format.h>

#include <iostream>
#include <map>
#include <set>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

/// What each action takes beside --book.
const std::map<std::string, std::set<std::string>>& optionsOfVehicle() {
    static const std::map<std::string, std::set<std::string>> all{
        {"add", {"label", "unit", "plate", "vin", "note"}},
        {"unit", {"label", "unit"}},
        {"rename", {"label", "new-label", "by", "why"}},
        {"correct", {"label", "unit", "plate", "vin", "note", "by", "why"}},
        {"withdraw", {"label", "by", "why", "undo"}},
        {"list", {"json"}},
        {"show", {"label", "json"}}};
    return all;
}

class VehicleCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        add("action", po::value<std::string>(),
            "the first word: add, unit, rename, correct, withdraw, list or show");
        add("label", po::value<std::string>(), "the second word: what the vehicle is called here");
        add("new-label", po::value<std::string>(), "rename, the third word: its new label");
        add("unit", po::value<std::string>(),
            "add, unit, correct: its transmission, as the shop calls it");
        add("plate", po::value<std::string>(), "add, correct: its plate (private)");
        add("vin", po::value<std::string>(), "add, correct: its VIN (private)");
        add("note", po::value<std::string>(), "add, correct: anything worth knowing");
        add("by", po::value<std::string>(), "rename, correct, withdraw: who does it");
        add("why", po::value<std::string>(), "rename, correct, withdraw: why");
        add("undo", "withdraw: bring it back");
        add("json", "list, show: as JSON");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else "
            "swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("action", 1).add("label", 1).add("new-label", 1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        action_ = textOf(words, "action");
        const auto known = optionsOfVehicle().find(action_);
        if (known == optionsOfVehicle().end())
            throw UsageError("Say what to do: swarfbook vehicle add, unit, rename, correct, "
                             "withdraw or show LABEL, or swarfbook vehicle list.");
        std::set<std::string> allowed = known->second;
        allowed.insert({"action", "book"});
        allowOnly(words, "vehicle " + action_, allowed);
        if (action_ != "list" && !has(words, "label"))
            throw UsageError(fmt::format(
                "Which vehicle? Say its label: swarfbook vehicle {} DEMO-03.", action_));
        if (action_ == "rename" && textOf(words, "new-label").empty())
            throw UsageError(fmt::format("Say the new label too: swarfbook vehicle rename {} NEW.",
                                         textOf(words, "label")));
        words_ = words;
        vehicle_.label = textOf(words, "label");
        vehicle_.unit = textOf(words, "unit");
        vehicle_.plate = textOf(words, "plate");
        vehicle_.vin = textOf(words, "vin");
        vehicle_.note = textOf(words, "note");
        json_ = has(words, "json");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        if (action_ == "add") {
            const Vehicle added = bookToWrite(book_, IfNoBook::startOne).addVehicle(vehicle_);
            return tell(fmt::format("Vehicle {} is in the book in {}.", added.label,
                                    bookFolder(book_).string()));
        }
        if (action_ == "unit") {
            const Vehicle named = bookToWrite(book_).nameUnit(vehicle_.label, vehicle_.unit);
            return tell(fmt::format("Vehicle {} has the unit {}.", named.label, named.unit));
        }
        if (action_ == "rename" || action_ == "correct")
            return correct();
        if (action_ == "withdraw")
            return withdraw();
        const Book book = bookToRead(book_);
        if (action_ == "list") {
            std::cout << (json_ ? vehicleListJson(book).dump() + "\n" : vehicleListText(book));
            return done;
        }
        const Vehicle vehicle = book.vehicleByLabel(vehicle_.label);
        std::cout << (json_ ? vehicleJson(book, vehicle).dump() + "\n"
                            : vehicleText(book, vehicle));
        return done;
    }

  private:
    /// Takes over the given values and leaves the rest as it is.
    int correct() {
        Book book = bookToWrite(book_);
        BookTransaction transaction = book.begin();
        Vehicle vehicle = book.vehicleByLabel(vehicle_.label);
        const std::string before = vehicle.label;
        vehicle.label = maybeTextOf(words_, "new-label").value_or(vehicle.label);
        vehicle.unit = maybeTextOf(words_, "unit").value_or(vehicle.unit);
        vehicle.plate = maybeTextOf(words_, "plate").value_or(vehicle.plate);
        vehicle.vin = maybeTextOf(words_, "vin").value_or(vehicle.vin);
        vehicle.note = maybeTextOf(words_, "note").value_or(vehicle.note);
        const Vehicle now =
            book.correctVehicle(vehicle, {textOf(words_, "by"), textOf(words_, "why")});
        transaction.commit();
        return tell(action_ == "rename"
                        ? fmt::format("Vehicle {} is now called {}.", before, now.label)
                        : fmt::format("Vehicle {} is corrected. swarfbook vehicle show {} shows "
                                      "it.",
                                      now.label, now.label));
    }

    int withdraw() {
        Book book = bookToWrite(book_);
        BookTransaction transaction = book.begin();
        const std::int64_t number = book.vehicleNumber(vehicle_.label);
        const ChangeReason reason{textOf(words_, "by"), textOf(words_, "why")};
        const bool undo = has(words_, "undo");
        if (undo)
            book.bringBackVehicle(number, reason);
        else
            book.withdrawVehicle(number, reason);
        transaction.commit();
        return tell(undo ? fmt::format("Vehicle {} is back in every list.", vehicle_.label)
                         : fmt::format("Vehicle {0} is withdrawn: it stays in the book and counts "
                                       "nowhere. swarfbook vehicle withdraw \"{0}\" --undo brings "
                                       "it back.",
                                       vehicle_.label));
    }

    int tell(const std::string& kept) {
        nowKept(kept);
        std::cout << kept << "\n";
        return done;
    }

    std::string action_;
    ParsedOptions words_;
    Vehicle vehicle_;
    bool json_ = false;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry vehicleEntry() {
    return {
        "vehicle", "Add, rename, correct, withdraw, list or show vehicles",
        "swarfbook vehicle add LABEL [--unit NAME] [--plate P] [--vin V] [--note T]\n"
        "       swarfbook vehicle unit LABEL --unit NAME\n"
        "       swarfbook vehicle rename LABEL NEW [--by WHO] [--why TEXT]\n"
        "       swarfbook vehicle correct LABEL [--plate P] [--vin V] [--unit NAME] [--note T]\n"
        "       swarfbook vehicle withdraw LABEL --why TEXT [--by WHO] | --undo\n"
        "       swarfbook vehicle list [--json]\n"
        "       swarfbook vehicle show LABEL [--json]",
        "swarfbook vehicle add DEMO-03 --unit \"Demo 5\" --book trial-book",
        []() -> Command* { return new VehicleCommand; }};
}

} // namespace swarfbook::cli
