// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_track_record.h"

#include "assess/assess.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "report/learned_cases.h"

#include <fmt/format.h>

#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

nlohmann::ordered_json json(const LearnedRow& row) {
    using nlohmann::ordered_json;
    return {{"suggestion", recommendationName(row.outcome)},
            {"pattern", row.pattern.empty() ? ordered_json(nullptr) : ordered_json(row.pattern)},
            {"held", row.held},
            {"cases", row.cases},
            {"not_known", row.notKnown},
            {"something_else_done", row.otherwise},
            {"missing", std::max(0L, fewestCases - row.cases)},
            {"share_95", row.share95 ? ordered_json{row.share95->low, row.share95->high}
                                     : ordered_json(nullptr)}};
}

std::string text(const std::vector<LearnedRow>& rows) {
    if (rows.empty())
        return "No visit in this book has an outcome yet. Type it in at the next contact: "
               "swarfbook "
               "observe --visit N outcome fixed.\n";
    std::string all = "How often our suggestions proved right, in this book:\n";
    for (const LearnedRow& row : rows) {
        if (row.pattern.empty())
            all += fmt::format("  {}, all together: {}\n", recommendationName(row.outcome),
                               learnedSentence(row));
        else
            all += fmt::format("  {} after {}: {}\n", recommendationName(row.outcome), row.pattern,
                               learnedSentence(row));
    }
    return all + "These figures change no rule. The interval is Wilson's, 95 %.\n";
}

class TrackRecordCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        add("json", "as JSON");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    void parse(const ParsedOptions& words) override {
        json_ = has(words, "json");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        const Book book = bookToRead(book_);
        const SuggestionModel model =
            loadSuggestionModel(dataFolder() / "models" / "suggestion.json");
        const std::vector<LearnedRow> rows = learn(learnedCases(book, model));
        if (!json_) {
            std::cout << text(rows);
            return done;
        }
        nlohmann::ordered_json list = nlohmann::ordered_json::array();
        for (const LearnedRow& row : rows)
            list.push_back(json(row));
        std::cout << nlohmann::ordered_json{{"format", "swarfbook learned 1"},
                                            {"fewest_cases", fewestCases},
                                            {"rows", list}}
                         .dump()
                  << "\n";
        return done;
    }

  private:
    bool json_ = false;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry trackRecordEntry() {
    return {"track-record", "Say how often the suggestions in this book proved right",
            "swarfbook track-record [--json] [--book DIR]",
            "swarfbook track-record --book trial-book",
            []() -> Command* { return new TrackRecordCommand; }};
}

} // namespace swarfbook::cli
