// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_suggest.h"

#include "assess/assess.h"
#include "base/errors.h"
#include "base/shown_units.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/visit_meant.h"
#include "cli/why_text.h"
#include "judgement/judge_visit.h"
#include "record/book.h"
#include "record/unit_charts.h"
#include "report/learned_cases.h"

#include <fmt/format.h>

#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

/// A paragraph of one line each, indented; nothing when there are none.
std::string paragraph(std::string_view title, const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines)
        if (!line.empty())
            text += "  " + line + "\n";
    return text.empty() ? "" : fmt::format("{}\n{}\n", title, text);
}

std::string additions(const Suggestion& s) {
    std::vector<std::string> lines;
    if (s.converter || s.converterAsOption)
        lines.push_back(fmt::format("{}: {}", s.converter ? "Converter" : "Converter, as an option",
                                    s.converterWhy));
    if (s.cooler || s.coolerAsOption)
        lines.push_back(
            fmt::format("{}: {}", s.cooler ? "Cooler" : "Cooler, to be decided", s.coolerWhy));
    return paragraph("Part of the job:", lines);
}

std::string wearLine(const WearScoreResult& wear) {
    if (const auto* none = std::get_if<NoWearScore>(&wear))
        return fmt::format("Wear score: none. {} {}\n\n", none->why, none->advice);
    const auto& score = std::get<WearScore>(wear);
    return fmt::format(
        "Wear score: {}{:.0f} of 100 (95 %: {:.0f} to {:.0f}). {} Compare it only with "
        "this vehicle's own visits.\n\n",
        score.atLeast ? "at least " : "", score.value, score.low, score.high, score.method);
}

std::string asText(std::int64_t visit, const Suggestion& s, const WearScoreResult& wear) {
    std::string text = fmt::format("Visit {}: {}.\n\n", visit, headline(s));
    if (!s.heldRepair.empty())
        text = fmt::format(
            "Visit {}: The repair held ({}). The evidence from before it says:\n{}.\n\n", visit,
            s.heldRepair, headline(s));
    if (!s.overruled.empty())
        text += fmt::format("The technician decides otherwise: {}\n\n", s.overruled);
    text += paragraph("Why:", s.strongestReasons);
    if (s.outcome != Recommendation::notEnoughEvidence || !s.strongestContrary.empty())
        text += paragraph("Evidence against:",
                          {s.strongestContrary.empty() ? "No evidence against it was recorded."
                                                       : s.strongestContrary});
    text +=
        paragraph(s.outcome == Recommendation::notEnoughEvidence ? "Next test:" : "Before the job:",
                  {s.nextTest});
    text += paragraph("What would change it:", {s.wouldChange});
    text += turnsText(s);
    text += bordersText(s);
    text += paragraph("Left by elimination (all parts: swarfbook eliminate):", s.suspects);
    text += paragraph("Track record:", s.learned);
    text += additions(s);
    text += paragraph("Inspected or renewed with it:", s.scope);
    text += paragraph("For the customer to sign:", {s.customersRisk});
    if (s.recheckAfter)
        text += fmt::format("Look again after {}.\n\n", distanceWords(s.recheckAfter->value()));
    text += wearLine(wear);
    text += paragraph("Not known:", s.notKnown);
    text += paragraph("Cautions:", s.cautions);
    return text;
}

class SuggestCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        addVisitOptions(all);
        auto add = all.add_options();
        add("why", "every reason with its rule, its limits and the observations it rests on");
        add("json", "as JSON");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    void parse(const ParsedOptions& words) override {
        allowOnly(words, "suggest", {"visit", "vehicle", "why", "json", "book"});
        asked_ = visitAsked(words);
        why_ = has(words, "why");
        json_ = has(words, "json");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        const Book book = bookToRead(book_);
        visit_ = visitMeant(book, asked_).id;
        const auto folder = dataFolder() / "models";
        const JudgementModels models = loadJudgementModels(folder);
        const Evidence evidence = evidenceWithUnit(book, visit_, folder);
        const Judgement judgement = judgeVisit(evidence, models, learnedCases(book, models.rules));
        const Suggestion& suggestion = judgement.suggestion;
        if (json_) {
            auto document = toJson(suggestion);
            addSources(document, suggestion, evidence.now, models.rules);
            document["visit"] = visit_;
            document["wear_score"] = toJson(judgement.wear);
            std::cout << document.dump() << "\n";
            return done;
        }
        std::cout << asText(visit_, suggestion, judgement.wear);
        if (why_)
            std::cout << whyText(suggestion, evidence.now, models.rules);
        std::cout << standingLine() << "\n";
        return done;
    }

  private:
    VisitAsked asked_;
    std::int64_t visit_ = 0;
    bool why_ = false;
    bool json_ = false;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry suggestEntry() {
    return {"suggest", "Say what the evidence of a visit points to, and why",
            "swarfbook suggest [--visit N] [--why] [--json]",
            "swarfbook suggest --visit 1 --book trial-book",
            []() -> Command* { return new SuggestCommand; }};
}

} // namespace swarfbook::cli
