// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_settings.h"

#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "record/book.h"

#include <fmt/format.h>

#include <algorithm>
#include <iostream>
#include <vector>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

/// One setting: its option, and the value used if it is not set, "" for none.
struct Settable {
    std::string name;
    std::string WorkshopSettings::*field;
    std::string unlessSet;
};
const std::vector<Settable>& settable() {
    static const std::vector<Settable> all{{"workshop", &WorkshopSettings::workshop, ""},
                                           {"address", &WorkshopSettings::address, ""},
                                           {"telephone", &WorkshopSettings::telephone, ""},
                                           {"paper", &WorkshopSettings::paper, "a4"},
                                           {"distance", &WorkshopSettings::distance, "km"},
                                           {"temperature", &WorkshopSettings::temperature, "C"},
                                           {"volume", &WorkshopSettings::volume, "l"},
                                           {"dates", &WorkshopSettings::dates, "year-first"}};
    return all;
}

class SettingsCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        add("workshop", text(), "the workshop's name, printed on every report");
        add("address", text(), "its address, in one line");
        add("telephone", text(), "its telephone");
        add("paper", text(), "of reports and work sheets: a4 or letter");
        add("distance", text(), "shown in km or mi; you may type either");
        add("temperature", text(), "shown in C or F");
        add("volume", text(), "of fluid, shown in l or qt (US quarts)");
        add("dates", text(),
            "year-first (2025-06-14), day-first (14 Jun 2025), month-first (Jun 14, 2025), or "
            "day first with german, french or spanish names of the months");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    void parse(const ParsedOptions& words) override {
        words_ = words;
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        const bool change = std::any_of(settable().begin(), settable().end(),
                                        [&](const Settable& one) { return has(words_, one.name); });
        if (!change)
            return print(bookToRead(book_).settings());
        Book book = bookToWrite(book_, IfNoBook::startOne);
        BookTransaction transaction = book.begin();
        WorkshopSettings settings = book.settings();
        for (const Settable& one : settable())
            settings.*one.field = maybeTextOf(words_, one.name).value_or(settings.*one.field);
        book.keepSettings(settings);
        transaction.commit();
        nowKept("The settings are in the book.");
        return print(book.settings());
    }

  private:
    static int print(const WorkshopSettings& settings) {
        for (const Settable& one : settable()) {
            const std::string& said = settings.*one.field;
            std::cout << fmt::format("{:<12} {}\n", one.name,
                                     !said.empty()           ? said
                                     : one.unlessSet.empty() ? "not set"
                                                             : one.unlessSet + " (not set)");
        }
        return done;
    }

    ParsedOptions words_;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry settingsEntry() {
    return {
        "settings", "Show or set the workshop's name, address, paper, units and dates",
        "swarfbook settings [--workshop NAME] [--address TEXT] [--telephone T] "
        "[--paper a4 | letter]\n"
        "       swarfbook settings [--distance km | mi] [--temperature C | F] [--volume l | qt] "
        "[--dates ORDER]",
        "swarfbook settings --workshop \"Kestrel Lane Transmissions\" --book trial-book",
        []() -> Command* { return new SettingsCommand; }};
}

} // namespace swarfbook::cli
