// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_list.h"

#include "assess/text_or_null.h"
#include "base/errors.h"
#include "base/shown_units.h"
#include "base/text.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/terminal.h"
#include "cli/text_table.h"
#include "record/calendar.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <iostream>
#include <map>
#include <set>
#include <utility>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

using nlohmann::ordered_json;

constexpr std::size_t usualCount = 20;

struct Listed {
    Visit visit;
    const Vehicle* vehicle;
    std::size_t photos;
};

ordered_json kilometresOrNull(const std::optional<double>& km) {
    return km ? ordered_json(*km) : ordered_json(nullptr);
}

ordered_json json(const Listed& one) {
    return {{"number", one.visit.id},
            {"date", one.visit.date},
            {"vehicle", one.vehicle->label},
            {"unit", textOrNull(one.vehicle->unit)},
            {"odometer_km", kilometresOrNull(one.visit.odometerKm)},
            {"since_clean_km", kilometresOrNull(one.visit.sinceCleanKm)},
            {"looked_by", textOrNull(one.visit.lookedBy)},
            {"complaint", textOrNull(one.visit.complaint)},
            {"photos", one.photos}};
}

std::string text(const std::vector<Listed>& visits) {
    std::vector<std::vector<std::string>> rows{
        {"visit", "date", "vehicle", "unit", "odometer", "photos", "complaint"}};
    for (const Listed& one : visits)
        rows.push_back({fmt::format("{}", one.visit.id), one.visit.date, one.vehicle->label,
                        orDash(one.vehicle->unit),
                        one.visit.odometerKm ? distanceWords(*one.visit.odometerKm) : "not known",
                        fmt::format("{}", one.photos), orDash(one.visit.complaint)});
    return textTable(std::move(rows));
}

class ListCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        add("word", po::value<std::vector<std::string>>(),
            "what to search for: only visits are listed that have each of the words in the "
            "vehicle's label, unit, plate, VIN or note, the date, the complaint, who looked, or "
            "what was observed; also without --word");
        add("vehicle", po::value<std::string>(), "only visits of this vehicle");
        add("since", po::value<std::string>(), "only visits on this day or later");
        add("until", po::value<std::string>(), "only visits on this day or earlier");
        add("newest", po::value<std::string>(), "at most this many, the newest (else 20)");
        add("all", "all of them, however many there are");
        add("json", "as JSON, all of them unless --newest is given");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("word", -1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        if (words.count("word") > 0)
            for (const std::string& word : words["word"].as<std::vector<std::string>>())
                searched_.push_back(lowered(word));
        const std::string today = todayHere();
        if (has(words, "since"))
            since_ = checkedDate(textOf(words, "since"), today);
        if (has(words, "until"))
            until_ = checkedDate(textOf(words, "until"), today);
        if (has(words, "newest") && has(words, "all"))
            throw UsageError("--newest and --all contradict each other. Give one of them.");
        json_ = has(words, "json");
        most_ = has(words, "all") || json_ ? std::optional<std::size_t>() : usualCount;
        if (const auto count = numberOf(words, "newest", "50")) {
            if (*count < 1.0 || *count > 1e9 || *count != static_cast<double>(long(*count)))
                throw UsageError("--newest takes a whole number from 1 on, such as --newest 50.");
            most_ = static_cast<std::size_t>(*count);
        }
        vehicle_ = maybeTextOf(words, "vehicle");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        const Book book = bookToRead(book_);
        const std::vector<Listed> found = search(book);
        const std::size_t shownCount = std::min(most_.value_or(found.size()), found.size());
        const std::vector<Listed> shown(found.begin(),
                                        found.begin() + static_cast<std::ptrdiff_t>(shownCount));
        if (json_) {
            ordered_json::array_t list;
            for (const Listed& one : shown)
                list.push_back(json(one));
            ordered_json all{{"format", "swarfbook list 1"}, {"found", found.size()}};
            all["visits"] = std::move(list);
            std::cout << all.dump() << "\n";
            return done;
        }
        if (found.empty()) {
            std::cout << (searched_.empty() && !vehicle_ && since_.empty() && until_.empty()
                              ? "No visit is in this book yet. Add one with: swarfbook visit add "
                                "LABEL --date today --odometer KM\n"
                              : "No visit fits. Search for fewer or shorter words.\n");
            return done;
        }
        std::cout << text(shown);
        if (shown.size() < found.size())
            talk() << fmt::format("The newest {} of {} visits. --all lists them all.\n",
                                  shown.size(), found.size());
        return done;
    }

  private:
    std::vector<Listed> search(const Book& book) {
        for (Vehicle& vehicle : book.vehicles())
            vehicles_.emplace(vehicle.id, std::move(vehicle));
        // a vehicle's number is never 0
        const std::int64_t only = vehicle_ ? book.vehicleByLabel(*vehicle_).id : 0;
        for (const std::string& word : searched_)
            observed_.push_back(book.visitsWithObserved(word));
        const auto photos = book.photosOfVisits();
        std::vector<Listed> found;
        for (const Visit& visit : book.allVisits()) {
            if (!vehicles_.contains(visit.vehicleId))
                (void)book.vehicle(visit.vehicleId); // reports that a damaged book no longer has it
            const bool inTime = (since_.empty() || visit.date >= since_) &&
                                (until_.empty() || visit.date <= until_);
            if (!inTime || (only != 0 && visit.vehicleId != only) || !hasAllWords(visit))
                continue;
            const auto count = photos.find(visit.id);
            found.push_back(
                {visit, &vehicles_.at(visit.vehicleId), count == photos.end() ? 0 : count->second});
        }
        return found;
    }

    [[nodiscard]] bool hasAllWords(const Visit& visit) const {
        if (searched_.empty())
            return true;
        const Vehicle& v = vehicles_.at(visit.vehicleId);
        const std::string all =
            lowered(fmt::format("{}\n{}\n{}\n{}\n{}\n{}\n{}\n{}", v.label, v.unit, v.plate, v.vin,
                                v.note, visit.date, visit.complaint, visit.lookedBy));
        for (std::size_t i = 0; i < searched_.size(); ++i)
            if (all.find(searched_[i]) == std::string::npos && !observed_[i].contains(visit.id))
                return false;
        return true;
    }

    std::vector<std::string> searched_; ///< in lower case
    std::string since_, until_;         ///< "" for no limit
    std::optional<std::size_t> most_;
    std::optional<std::string> vehicle_, book_;
    bool json_ = false;
    std::map<std::int64_t, Vehicle> vehicles_;
    std::vector<std::set<std::int64_t>>
        observed_; ///< for each word: visits with an observation of it
};

} // namespace

CommandEntry listEntry() {
    return {"list", "List the visits of all vehicles, newest first, or search for some",
            "swarfbook list [WORD...] [--since DATE] [--until DATE] [--newest N|--all] [--json]",
            "swarfbook list DEMO --since 2020-01-01 --book trial-book",
            []() -> Command* { return new ListCommand; }};
}

} // namespace swarfbook::cli
