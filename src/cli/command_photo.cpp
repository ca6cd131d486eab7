// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_photo.h"

#include "base/errors.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "record/book.h"

#include <fmt/format.h>

#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

class PhotoCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        add("action", text(), "the first word: withdraw");
        add("number", text(), "the second word: the photo's number in visit show");
        add("why", text(), "why it is withdrawn");
        add("by", text(), "who withdraws it");
        add("undo", "bring it back");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("action", 1).add("number", 1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        if (textOf(words, "action") != "withdraw")
            throw UsageError("Say what to do: swarfbook photo withdraw N --why TEXT. A photo of "
                             "another visit or place is taken over by swarfbook add --move.");
        const std::string number = textOf(words, "number");
        if (number.empty())
            throw UsageError("Which photo? swarfbook visit show N shows the photos' numbers: "
                             "swarfbook photo withdraw 3 --why \"a thumb on the card\".");
        const bool digits = number.size() <= 9 && // longer texts are not a photo's number
                            number.find_first_not_of("0123456789") == std::string::npos;
        if (!digits)
            throw UsageError(fmt::format("\"{}\" is not a photo number. swarfbook visit show N "
                                         "shows the numbers.",
                                         number));
        number_ = std::stoll(number);
        reason_ = {textOf(words, "by"), textOf(words, "why")};
        undo_ = has(words, "undo");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        Book book = bookToWrite(book_);
        if (undo_)
            book.bringBackPhoto(number_, reason_);
        else
            book.withdrawPhoto(number_, reason_);
        const std::string said =
            undo_ ? fmt::format("Photo {} is back in every count.", number_)
                  : fmt::format("Photo {0} is withdrawn: it stays in the book and counts nowhere. "
                                "swarfbook photo withdraw {0} --undo brings it back.",
                                number_);
        nowKept(said);
        std::cout << said << "\n";
        return done;
    }

  private:
    std::int64_t number_ = 0;
    ChangeReason reason_;
    bool undo_ = false;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry photoEntry() {
    return {"photo", "Withdraw a photo from every count, or bring it back",
            "swarfbook photo withdraw N --why TEXT [--by WHO]\n"
            "       swarfbook photo withdraw N --undo",
            "swarfbook photo withdraw 1 --why \"a thumb on the card\" --book trial-book\n"
            "swarfbook photo withdraw 1 --undo --book trial-book",
            []() -> Command* { return new PhotoCommand; }};
}

} // namespace swarfbook::cli
