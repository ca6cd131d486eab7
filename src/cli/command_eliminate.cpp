// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_eliminate.h"

#include "assess/assess.h"
#include "base/errors.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/text_table.h"
#include "cli/visit_meant.h"
#include "judgement/judge_visit.h"
#include "record/unit_charts.h"
#include "report/elimination_table.h"

#include <fmt/format.h>

#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

std::string lines(std::string_view title, const std::vector<std::string>& sentences) {
    std::string text;
    for (const std::string& sentence : sentences)
        text += "  " + sentence + "\n";
    return text.empty() ? "" : fmt::format("{}\n{}\n", title, text);
}

std::string testsText(const Elimination& e, bool all) {
    if (e.tests.empty())
        return "";
    std::vector<std::string> sentences;
    for (const TestChoice& test : e.tests)
        if (all || sentences.empty())
            sentences.push_back(testInWords(test));
    return lines(all ? "Tests that would help, the most useful per minute first:"
                     : "The next test:",
                 sentences);
}

class EliminateCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        addVisitOptions(all);
        auto add = all.add_options();
        add("unit", po::value<std::string>(),
            "the chart to use (else that of the vehicle's transmission)");
        add("tests", "every test that would help, with its time, not only the next one");
        add("json", "as JSON");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    void parse(const ParsedOptions& words) override {
        allowOnly(words, "eliminate", {"visit", "vehicle", "unit", "tests", "json", "book"});
        asked_ = visitAsked(words);
        unit_ = maybeTextOf(words, "unit");
        tests_ = has(words, "tests");
        json_ = has(words, "json");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        const Book book = bookToRead(book_);
        visit_ = visitMeant(book, asked_).id;
        const auto models = dataFolder() / "models";
        const Evidence evidence = unit_ ? evidenceWithUnit(book, visit_, models, *unit_)
                                        : evidenceWithUnit(book, visit_, models);
        if (!evidence.unit)
            throw EvidenceRefused(evidence.noUnit + " Or name another one with --unit.");
        const Judgement judgement = judgeVisit(evidence, loadJudgementModels(models), {});
        const auto& found = judgement.elimination;
        if (!found)
            throw EvidenceRefused(fmt::format(
                "Nothing faulty was recorded for visit {0} by gear, shift or code, so there is "
                "nothing to "
                "eliminate by. Say how it drives: swarfbook observe --visit {0} gear 3 slip.",
                visit_));
        if (json_) {
            auto document = toJson(*found);
            document["visit"] = visit_;
            std::cout << document.dump() << "\n";
            return done;
        }
        print(*found, judgement.suggestion.cautions);
        return done;
    }

  private:
    void print(const Elimination& e, const std::vector<std::string>& cautions) const {
        std::cout << fmt::format("Visit {}, {}. {}\n\n", visit_, e.unit, e.summary)
                  << textTable(eliminationRows(e)) << "\n"
                  << eliminationLegend() << "\n\n"
                  << lines("Why:", eliminationSentences(e)) << testsText(e, tests_)
                  << lines("Also note:", e.notes) << lines("Cautions:", cautions) << standingLine()
                  << "\n";
    }

    VisitAsked asked_;
    std::int64_t visit_ = 0;
    std::optional<std::string> unit_, book_;
    bool tests_ = false, json_ = false;
};

} // namespace

CommandEntry eliminateEntry() {
    return {"eliminate", "Say which parts a visit's gears, codes and tests leave suspect",
            "swarfbook eliminate [--visit N] [--unit NAME] [--tests] [--json]",
            "swarfbook observe --visit 1 gear 3 slip --book trial-book\n"
            "swarfbook eliminate --visit 1 --book trial-book",
            []() -> Command* { return new EliminateCommand; }};
}

} // namespace swarfbook::cli
