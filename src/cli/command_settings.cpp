// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_settings.h"

#include "cli/open_book.h"
#include "cli/words.h"
#include "record/book.h"

#include <fmt/format.h>

#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

std::string orNotSet(const std::string& text) {
    return text.empty() ? "not set" : text;
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
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    void parse(const Words& words) override {
        words_ = words;
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        const bool change = has(words_, "workshop") || has(words_, "address") ||
                            has(words_, "telephone") || has(words_, "paper");
        if (!change)
            return print(bookToRead(book_).settings());
        Book book = bookToWrite(book_, IfNoBook::startOne);
        BookTransaction transaction = book.begin();
        WorkshopSettings settings = book.settings();
        settings.workshop = maybeTextOf(words_, "workshop").value_or(settings.workshop);
        settings.address = maybeTextOf(words_, "address").value_or(settings.address);
        settings.telephone = maybeTextOf(words_, "telephone").value_or(settings.telephone);
        settings.paper = maybeTextOf(words_, "paper").value_or(settings.paper);
        book.keepSettings(settings);
        transaction.commit();
        nowKept("The settings are in the book.");
        return print(book.settings());
    }

  private:
    static int print(const WorkshopSettings& settings) {
        std::cout << fmt::format("workshop   {}\naddress    {}\ntelephone  {}\npaper      {}\n",
                                 orNotSet(settings.workshop), orNotSet(settings.address),
                                 orNotSet(settings.telephone),
                                 settings.paper.empty() ? "a4 (not set)" : settings.paper);
        return done;
    }

    Words words_;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry settingsEntry() {
    return {"settings", "Show or set the workshop's name, address, telephone and paper",
            "swarfbook settings [--workshop NAME] [--address TEXT] [--telephone T] "
            "[--paper a4 | letter]",
            "swarfbook settings --workshop \"Kestrel Lane Transmissions\" --book trial-book",
            []() -> Command* { return new SettingsCommand; }};
}

} // namespace swarfbook::cli
