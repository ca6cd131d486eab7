// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_restore.h"

#include "base/errors.h"
#include "cli/parsed_options.h"
#include "record/restore_book.h"

#include <fmt/format.h>

#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

class RestoreCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        add("backup", po::value<std::string>(),
            "the folder that swarfbook backup made; also without --backup");
        add("book", po::value<std::string>(),
            "the folder for the book, new or empty (else "
            "$SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("backup", 1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        backup_ = textOf(words, "backup");
        if (backup_.empty())
            throw UsageError("Which backup? Name its folder: swarfbook restore book-copy --book "
                             "book-again.");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        const auto folder = bookFolder(book_);
        const Book::Copied back = restoreBook(backup_, folder);
        nowKept(fmt::format("The book is in {}.", folder.string()));
        std::cout << fmt::format(
            "The backup in {} is a book again in {}: {} photo{}, {} chart{}.\n", backup_,
            folder.string(), back.photos, back.photos == 1 ? "" : "s", back.charts,
            back.charts == 1 ? "" : "s");
        for (const std::string& trouble : back.troubles)
            std::cerr << "swarfbook: " << trouble << "\n";
        if (back.troubles.empty())
            return done;
        std::cerr << "swarfbook: The backup is not whole. All else in it came back.\n";
        return failed;
    }

  private:
    std::string backup_;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry restoreEntry() {
    return {"restore", "Bring a backup back as a book, in a folder that is new or empty",
            "swarfbook restore BACKUP [--book DIR]",
            "swarfbook restore trial-book-copy --book trial-book-again",
            []() -> Command* { return new RestoreCommand; }};
}

} // namespace swarfbook::cli
