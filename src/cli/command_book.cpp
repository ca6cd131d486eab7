// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_book.h"

#include "base/errors.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "record/book.h"
#include "record/verify_book.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

using nlohmann::ordered_json;

std::string counted(std::size_t count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string stateText(const BookState& state, const std::string& folder) {
    const std::string read = fmt::format(
        "{}, {}, {} and {}", counted(state.photos, "photo"), counted(state.findings, "finding"),
        counted(state.observations, "observation"), counted(state.charts, "chart"));
    if (state.sound())
        return fmt::format("The book in {} is whole: {} were read, and every photo is the one that "
                           "was put in.\n",
                           folder, read);
    const bool onlyNotRead = std::all_of(state.faults.begin(), state.faults.end(),
                                         [](const BookFault& fault) { return fault.notRead; });
    std::string text =
        onlyNotRead ? fmt::format("Not all of the book in {} could be read, so it is not known "
                                  "whether it is whole:\n",
                                  folder)
                    : fmt::format("The book in {} is not whole. {} were read; wrong {}:\n", folder,
                                  read, state.faults.size() == 1 ? "is" : "are");
    for (const BookFault& fault : state.faults)
        text += fmt::format("- {} {}\n", fault.what, fault.advice);
    return text;
}

ordered_json stateJson(const BookState& state, const std::string& folder,
                       const std::vector<std::string>& mended) {
    ordered_json wrong = ordered_json::array();
    for (const BookFault& fault : state.faults)
        wrong.push_back({{"what", fault.what}, {"advice", fault.advice}});
    return {{"format", "swarfbook book check 1"},
            {"book", folder},
            {"whole", state.sound()},
            {"photos", state.photos},
            {"findings", state.findings},
            {"observations", state.observations},
            {"charts", state.charts},
            {"wrong", wrong},
            {"mended", mended}};
}

class BookCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        add("action", po::value<std::string>(), "the first word: check");
        add("mend", "remove what stopped commands left, and move photos that no entry names to "
                    "the folder set-aside in the book");
        add("json", "as JSON");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("action", 1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        if (textOf(words, "action") != "check")
            throw UsageError("Say what to do with the book: swarfbook book check.");
        mend_ = has(words, "mend");
        json_ = has(words, "json");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        const auto folder = bookFolder(book_);
        BookState state;
        std::vector<std::string> mended;
        try {
            Book book = mend_ ? bookToWrite(book_) : bookToRead(book_);
            if (mend_)
                mended = book.mend();
            if (!mended.empty())
                nowKept("What --mend has put in order stays in order.");
            state = book.check();
        } catch (const ToolError& error) {
            if (!json_)
                throw;
            state.faults.push_back({error.what(), ""});
        }
        if (json_)
            std::cout << stateJson(state, folder.string(), mended)
                             .dump(-1, ' ', false, ordered_json::error_handler_t::replace)
                      << "\n";
        else
            print(mended, stateText(state, folder.string()));
        return state.sound() ? done : failed;
    }

  private:
    static void print(const std::vector<std::string>& mended, const std::string& text) {
        for (const std::string& sentence : mended)
            std::cout << sentence << "\n";
        std::cout << text;
    }

    bool mend_ = false, json_ = false;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry bookEntry() {
    return {"book", "Check that the book is whole, and put it in order",
            "swarfbook book check [--mend] [--json] [--book DIR]",
            "swarfbook book check --book trial-book", []() -> Command* { return new BookCommand; }};
}

} // namespace swarfbook::cli
