// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_walk.h"

#include "cli/open_book.h"
#include "cli/visit_meant.h"
#include "cli/walk_questions.h"
#include "record/book.h"

#include <fmt/format.h>

#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

class WalkCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        addVisitOptions(all);
        auto add = all.add_options();
        add("after-repair", "ask the step that follows the repair");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    void parse(const ParsedOptions& words) override {
        asked_ = visitAsked(words);
        afterRepair_ = has(words, "after-repair");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        Book book = bookToWrite(book_);
        const Visit visit = visitMeant(book, asked_);
        Walk walk(book, visit, std::cin, std::cerr);
        WorkSheetJob job;
        job.names = walk.names();
        std::cerr << walkHelp();
        const WalkEnd end = walk.ask(job, afterRepair_);
        nowKept(fmt::format("{} observation{} of visit {} in the book.", end.kept,
                            end.kept == 1 ? " is" : "s are", visit.id));
        std::cerr << fmt::format("\n{} observed, {} not inspected.\n", end.kept, end.left);
        if (end.stopped)
            std::cerr << fmt::format("Stopped at: {}\nGo on any time with: swarfbook walk --visit "
                                     "{}{}\n",
                                     end.at, visit.id, afterRepair_ ? " --after-repair" : "");
        else if (afterRepair_)
            std::cerr << "The sheet is done.\n";
        else
            std::cerr << fmt::format(
                "See what it points to: swarfbook suggest --visit {0}\nAfter the "
                "repair: swarfbook walk --visit {0} --after-repair\n",
                visit.id);
        return done;
    }

  private:
    VisitAsked asked_;
    bool afterRepair_ = false;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry walkEntry() {
    return {"walk", "Ask the work sheet's questions one by one and keep the answers",
            "swarfbook walk [--visit N] [--after-repair]",
            "echo stop | swarfbook walk --visit 1 --book trial-book",
            []() -> Command* { return new WalkCommand; }};
}

} // namespace swarfbook::cli
