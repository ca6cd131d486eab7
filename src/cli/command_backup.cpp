// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_backup.h"

#include "base/errors.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "record/book.h"

#include <fmt/format.h>

#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

class BackupCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        add("out", po::value<std::string>(),
            "the new folder; it becomes a book itself; also without --out");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else "
            "swarfbook in the user's data folder)");
        return all;
    }

    [[nodiscard]] po::positional_options_description positionals() const override {
        po::positional_options_description words;
        words.add("out", 1);
        return words;
    }

    void parse(const ParsedOptions& words) override {
        out_ = textOf(words, "out");
        if (out_.empty())
            throw UsageError("Name the new folder for the copy: swarfbook backup book-copy.");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        Book book = bookToRead(book_);
        const Book::Copied copied = book.backUp(out_);
        nowKept(fmt::format("The backup is in {}.", out_));
        std::cout << fmt::format("The book in {} was copied to {}, with {} photo{} and {} "
                                 "chart{}.\n",
                                 book.folder().string(), out_, copied.photos,
                                 copied.photos == 1 ? "" : "s", copied.charts,
                                 copied.charts == 1 ? "" : "s");
        for (const std::string& trouble : copied.troubles)
            std::cerr << "swarfbook: " << trouble << "\n";
        if (copied.troubles.empty())
            return done;
        std::cerr << "swarfbook: The backup is not whole. The rest of the book is in it.\n";
        return failed;
    }

  private:
    std::string out_;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry backupEntry() {
    return {"backup", "Back up the book to a new folder, and check the copy",
            "swarfbook backup FOLDER [--book DIR]",
            "swarfbook backup trial-book-copy --book trial-book",
            []() -> Command* { return new BackupCommand; }};
}

} // namespace swarfbook::cli
