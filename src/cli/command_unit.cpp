// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_unit.h"

#include "assess/assess.h"
#include "base/errors.h"
#include "base/output_file.h"
#include "base/private_file.h"
#include "base/text.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/text_of_file.h"
#include "cli/unit_questions.h"
#include "cli/unit_text.h"
#include "record/book.h"
#include "record/entry_text.h"
#include "record/unit_charts.h"
#include "unit/chart_check.h"
#include "unit/unit_table.h"

#include <fmt/format.h>

#include <fstream>
#include <iostream>
#include <iterator>
#include <span>
#include <system_error>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

namespace fs = std::filesystem;

class UnitCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all(std::string(unitTableHelp()) + "\noptions", 100);
        auto add = all.add_options();
        add("action", po::value<std::string>(), "the first word: new, rename, check or show");
        add("name", po::value<std::string>(),
            "the second word: the unit's name; check and show take a chart's file too");
        add("new-name", po::value<std::string>(), "rename, the third word: its new name");
        add("from-table", po::value<std::string>(),
            "new: read this table instead of asking; - reads pasted text");
        add("replace", "new: replace the existing chart");
        add("json", "check, show: as JSON");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("action", 1).add("name", 1).add("new-name", 1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        action_ = textOf(words, "action");
        if (action_ == "new")
            allowOnly(words, "unit new", {"action", "name", "from-table", "replace", "book"});
        else if (action_ == "rename")
            allowOnly(words, "unit rename", {"action", "name", "new-name", "book"});
        else if (action_ == "check" || action_ == "show")
            allowOnly(words, "unit " + action_, {"action", "name", "json", "book"});
        else
            throw UsageError("Say what to do: swarfbook unit new NAME, unit rename NAME NEW, unit "
                             "check NAME or unit show [NAME].");
        name_ = checkedLine("The unit's name", textOf(words, "name"));
        if (name_.empty() && action_ != "show")
            throw UsageError(
                fmt::format("Which unit? Say its name: swarfbook unit {} \"Demo 5\".", action_));
        newName_ = checkedLine("The unit's new name", textOf(words, "new-name"));
        if (action_ == "rename" && newName_.empty())
            throw UsageError(
                fmt::format("Say the new name too: swarfbook unit rename \"{}\" NEW.", name_));
        table_ = maybeTextOf(words, "from-table");
        replace_ = has(words, "replace");
        json_ = has(words, "json");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        if (action_ == "new")
            return makeNew();
        if (action_ == "rename")
            return rename();
        if (name_.empty())
            return showNames();
        const ApplicationChart chart = loadApplicationChart(fileMeant());
        return action_ == "check" ? check(chart) : show(chart);
    }

  private:
    [[nodiscard]] ChartFolders folders() const {
        return {unitsFolder(bookFolder(book_)), dataFolder() / "models" / "units"};
    }

    int makeNew() {
        const Book book = bookToWrite(book_, IfNoBook::startOne);
        const fs::path file = unitsFolder(book.folder()) / chartFileName(name_);
        if (fs::exists(file) && !replace_)
            throw UsageError(fmt::format("There is a chart of {} already: {}. Look at it with "
                                         "swarfbook unit show \"{}\", or say --replace.",
                                         name_, file.string(), name_));
        makeUnitsFolder(file.parent_path());
        fs::path draft = file;
        draft.replace_extension(".unfinished");
        const ApplicationChart chart =
            table_ ? fromTable() : askForUnit(name_, draft, std::cin, std::cerr);
        const std::string text = toJson(chart).dump(2) + "\n";
        writeFile(file, std::as_bytes(std::span(text)),
                  replace_ ? IfThere::replace : IfThere::refuse);
        std::error_code ignored;
        if (!table_)
            fs::remove(draft, ignored);
        nowKept(fmt::format("The chart of {} is in {}.", name_, file.string()));
        std::cout << fmt::format("Saved the chart of {} in {}\n", name_, file.string());
        for (const std::string& wrong : inconsistencies(chart))
            std::cerr << "swarfbook: does not fit yet: " << wrong << "\n";
        return done;
    }

    /// The chart in the book gets another name, and so does the unit of every vehicle that has it.
    int rename() {
        Book book = bookToWrite(book_);
        const fs::path folder = unitsFolder(book.folder());
        const auto old = findChart({folder, {}}, name_);
        if (!old)
            throw UsageError(
                fmt::format("The book has no chart of its own of \"{}\": swarfbook unit "
                            "show names all charts. What comes with the program keeps "
                            "its name.",
                            name_));
        ApplicationChart chart = loadApplicationChart(*old);
        const std::string before = chart.unit;
        chart.unit = newName_;
        const fs::path file = folder / chartFileName(newName_);
        const std::string text = toJson(chart).dump(2) + "\n";
        std::error_code failed;
        const bool sameFile = fs::equivalent(file, *old, failed);
        BookTransaction transaction = book.begin();
        const std::string also = renameInVehicles(book, before);
        writeFile(file, std::as_bytes(std::span(text)),
                  sameFile ? IfThere::replace : IfThere::refuse);
        transaction.commit();
        failed.clear();
        if (!sameFile && !fs::remove(*old, failed))
            std::cerr << fmt::format("swarfbook: {} could not be removed: {}. Remove it by hand.\n",
                                     old->string(), failed.message());
        nowKept(fmt::format("The chart of {} is in {}.", newName_, file.string()));
        std::cout << fmt::format("The chart of {} is now called {}.{}\n", before, newName_, also);
        return done;
    }

    /// @return a sentence that names them; "" if no vehicle has that unit.
    [[nodiscard]] std::string renameInVehicles(Book& book, const std::string& before) const {
        std::string labels;
        std::vector<Vehicle> all = book.vehicles();
        for (const WithdrawnVehicle& one : book.withdrawnVehicles()) // it may come back
            all.push_back(one.vehicle);
        for (Vehicle& vehicle : all) {
            if (lowered(vehicle.unit) != lowered(before))
                continue;
            vehicle.unit = newName_;
            book.correctVehicle(vehicle, {"", "the chart of its unit was renamed"});
            labels += (labels.empty() ? "" : ", ") + vehicle.label;
        }
        return labels.empty() ? "" : " So is the unit of " + labels + ".";
    }

    static void makeUnitsFolder(const fs::path& folder) {
        try {
            makePrivateFolder(folder);
        } catch (const std::system_error& error) {
            throw ToolError(fmt::format("{} cannot be made: {}. Choose another folder for the book "
                                        "or make room.",
                                        folder.string(), error.code().message()));
        }
    }

    [[nodiscard]] ApplicationChart fromTable() const {
        const UnitTable table = unitFromTable(name_, textOfFile(*table_, "table"));
        for (const std::string& assumed : table.assumed)
            std::cerr << "swarfbook: " << assumed << "\n";
        return table.chart;
    }

    /// An existing file, else the chart of that name.
    [[nodiscard]] fs::path fileMeant() const {
        std::error_code ignored;
        if (name_.ends_with(".json") && fs::is_regular_file(name_, ignored))
            return name_;
        if (const auto found = findChart(folders(), name_))
            return *found;
        throw UsageError(fmt::format("There is no chart of \"{}\". swarfbook unit show names all "
                                     "charts; swarfbook unit new \"{}\" asks for it.",
                                     name_, name_));
    }

    int check(const ApplicationChart& chart) const {
        const std::vector<std::string> wrong = inconsistencies(chart), also = remarks(chart);
        if (json_) {
            std::cout << nlohmann::ordered_json{{"format", "swarfbook unit check 1"},
                                                {"unit", chart.unit},
                                                {"sound", wrong.empty()},
                                                {"does_not_fit", wrong},
                                                {"remarks", also}}
                             .dump()
                      << "\n";
            return wrong.empty() ? done : refused;
        }
        for (const std::string& sentence : wrong)
            std::cout << "does not fit: " << sentence << "\n";
        for (const std::string& sentence : also)
            std::cout << "note: " << sentence << "\n";
        std::cout << (wrong.empty()
                          ? fmt::format("The chart of {} is sound.\n", chart.unit)
                          : fmt::format("The chart of {} does not fit in {} point{}.\n", chart.unit,
                                        wrong.size(), wrong.size() == 1 ? "" : "s"));
        return wrong.empty() ? done : refused;
    }

    int show(const ApplicationChart& chart) const {
        std::cout << (json_ ? toJson(chart).dump() + "\n" : unitText(chart));
        return done;
    }

    int showNames() const {
        nlohmann::ordered_json names = nlohmann::ordered_json::array();
        for (const fs::path& file : allCharts(folders())) {
            try {
                names.push_back({{"unit", validUtf8(loadApplicationChart(file).unit)},
                                 {"file", validUtf8(file.string())}});
            } catch (const ToolError& wrong) {
                std::cerr << "swarfbook: " << wrong.what() << "\n";
            }
        }
        if (json_)
            std::cout << names.dump() << "\n";
        else
            for (const auto& one : names)
                std::cout << fmt::format("{}  {}\n", one.at("unit").get<std::string>(),
                                         one.at("file").get<std::string>());
        return done;
    }

    std::string action_, name_, newName_;
    std::optional<std::string> table_, book_;
    bool replace_ = false, json_ = false;
};

} // namespace

CommandEntry unitEntry() {
    return {"unit", "Type in or show which clutch and solenoid works in which gear",
            "swarfbook unit new NAME [--from-table FILE.csv|-] [--replace]\n"
            "       swarfbook unit rename NAME NEW\n"
            "       swarfbook unit check NAME|FILE [--json]\n"
            "       swarfbook unit show [NAME|FILE] [--json]",
            "swarfbook unit show \"Demo 5\" --book trial-book",
            []() -> Command* { return new UnitCommand; }};
}

} // namespace swarfbook::cli
