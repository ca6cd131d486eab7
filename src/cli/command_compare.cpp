// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_compare.h"

#include "assess/assess.h"
#include "base/errors.h"
#include "base/shown_units.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/text_table.h"
#include "judgement/coat_history.h"
#include "judgement/judge_visit.h"
#include "judgement/visit_samples.h"
#include "judgement/wear_trend.h"
#include "record/book.h"
#include "record/evidence_of_visit.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <iostream>

namespace po = boost::program_options;

namespace swarfbook::cli {
namespace {

std::string chanceWords(double p) {
    return p < 0.001 ? "under 0.001" : fmt::format("{:.3f}", p);
}

using nlohmann::ordered_json;

ordered_json finiteOrNull(double value) {
    return std::isfinite(value) ? ordered_json(value) : ordered_json(nullptr);
}

std::string typeWords(const TypeChange& change) {
    return change.type ? std::string(typeWord(*change.type)) : "all";
}

ordered_json changeJson(const TypeChange& change) {
    const RateComparison& c = change.comparison;
    return {{"type", typeWords(change)},
            {"before", {{"count", change.before.count}, {"over", change.before.exposure}}},
            {"after", {{"count", change.after.count}, {"over", change.after.exposure}}},
            {"ratio", c.ratio ? finiteOrNull(*c.ratio) : ordered_json(nullptr)},
            {"interval_95", {finiteOrNull(c.low), finiteOrNull(c.high)}},
            {"p_two_sided", c.pTwoSided},
            {"proven", change.proven}};
}

/// The trend's sentence, or why there is none.
std::string trendSentence(const std::vector<ScoredVisit>& scores) {
    try {
        return trendOf(trendPoints(scores)).sentence;
    } catch (const EvidenceRefused& no) {
        return no.what();
    }
}

ordered_json scoresJson(const std::vector<ScoredVisit>& scores) {
    ordered_json list = ordered_json::array();
    for (const ScoredVisit& v : scores)
        list.push_back({{"visit", v.visitId},
                        {"date", v.date},
                        {"odometer_km", v.odometer.value()},
                        {"wear_score", v.score.value},
                        {"interval_95", {v.score.low, v.score.high}}});
    return list;
}

ordered_json largestJson(const std::optional<LargestPiece>& piece) {
    if (!piece)
        return nullptr;
    return {{"longest_side_mm", piece->longestSide.value.value()},
            {"u_mm", piece->longestSide.standardUncertainty.value()},
            {"type", typeWord(piece->type)}};
}

/// What two visits show, and what all visits up to the later one do.
struct Compared {
    VisitComparison pieces;
    std::vector<ScoredVisit> scores;
    CoatHistory coats;
};

ordered_json asJson(const Compared& compared) {
    const auto& [c, scores, coats] = compared;
    ordered_json changes = ordered_json::array();
    for (const TypeChange& change : c.changes)
        changes.push_back(changeJson(change));
    return {{"format", "swarfbook comparison 3"},
            {"before", c.before},
            {"after", c.after},
            {"place", placeName(c.place)},
            {"size_floor_mm", c.detectionLimit.value()},
            {"over", c.perSample ? "samples x 10,000 km" : "100 cm2 x 10,000 km"},
            {"changes", changes},
            {"largest_before", largestJson(c.largestBefore)},
            {"largest_after", largestJson(c.largestAfter)},
            {"step_up_in_size", c.stepUpInSize},
            {"sentence", c.sentence},
            {"wear_scores", scoresJson(scores)},
            {"trend", trendSentence(scores)},
            {"magnet_coats", toJson(coats)}};
}

std::string ratioText(const RateComparison& c) {
    return c.ratio ? fmt::format("{:.2f}", *c.ratio) : std::string("none");
}

std::string limitsText(const RateComparison& c) {
    return std::isfinite(c.high) ? fmt::format("{:.2f} to {:.2f}", c.low, c.high)
                                 : fmt::format("from {:.2f}", c.low);
}

std::string asText(const Compared& compared) {
    const auto& [c, scores, coats] = compared;
    std::string text =
        fmt::format("Visit {} and visit {}, {}, pieces from {:.2f} mm up\n{}\n\n", c.before,
                    c.after, placeWord(c.place), c.detectionLimit.value(), c.sentence);
    std::vector<std::vector<std::string>> rows{
        {"type", "then", "now", "ratio of rates", "95 %", "chance", "proven"}};
    for (const TypeChange& change : c.changes)
        rows.push_back({change.type ? std::string(typeWord(*change.type)) : "all pieces",
                        fmt::format("{}", change.before.count),
                        fmt::format("{}", change.after.count), ratioText(change.comparison),
                        limitsText(change.comparison), chanceWords(change.comparison.pTwoSided),
                        change.proven ? "yes" : "no"});
    text += textTable(rows) + "\n";
    for (const ScoredVisit& v : scores)
        text += fmt::format("wear score at visit {} ({}, {}): {:.0f} (95 %: {:.0f} to "
                            "{:.0f})\n",
                            v.visitId, dateWords(v.date), distanceWords(v.odometer.value()),
                            v.score.value, v.score.low, v.score.high);
    text += "trend: " + trendSentence(scores) + "\n";
    if (!coats.sentence.empty())
        text += "fuzz on the magnet: " + coats.sentence + "\n";
    for (const std::string& line : coatLines(coats))
        text += "  " + line + "\n";
    return text;
}

class CompareCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        add("visit", po::value<std::string>(), "one visit's number");
        add("with", po::value<std::string>(), "the other visit's number, of the same vehicle");
        add("place", po::value<std::string>(),
            "pan, magnet, filter, tray, white-card or strained; else the first that both have");
        add("json", "as JSON");
        add("book", po::value<std::string>(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's data folder)");
        return all;
    }

    void parse(const ParsedOptions& words) override {
        allowOnly(words, "compare", {"visit", "with", "place", "json", "book"});
        if (!has(words, "visit") || !has(words, "with"))
            throw UsageError(
                "Say which two visits, for example: swarfbook compare --visit 4 --with 3.");
        visit_ = visitNumber(textOf(words, "visit"));
        with_ = visitNumber(textOf(words, "with"));
        if (visit_ == with_)
            throw UsageError("A visit cannot be compared with itself: say two numbers.");
        if (has(words, "place"))
            place_ = placeOf(words);
        json_ = has(words, "json");
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        const Book book = bookToRead(book_);
        const auto [earlier, later] = inOrder(book);
        const Evidence evidence = evidenceOfVisit(book, later);
        const auto before =
            std::find_if(evidence.earlier.begin(), evidence.earlier.end(),
                         [&, id = earlier](const auto& v) { return v.visitId == id; });
        const VisitComparison comparison = compareVisits(*before, evidence.now, place_);
        const JudgementModels models = loadJudgementModels(dataFolder() / "models");
        const Compared compared{comparison,
                                comparableScores(evidence, comparison.place, models.wear),
                                coatHistory(evidence, models.rules)};
        std::cout << (json_ ? asJson(compared).dump() + "\n" : asText(compared));
        return done;
    }

  private:
    /// The two visits, the earlier first. UsageError when they are of different vehicles.
    [[nodiscard]] std::pair<std::int64_t, std::int64_t> inOrder(const Book& book) const {
        const Visit one = book.visit(visit_), other = book.visit(with_);
        if (one.vehicleId != other.vehicleId)
            throw UsageError(fmt::format("Visit {} is of {}, visit {} of {}: only visits of one "
                                         "vehicle can be compared.",
                                         visit_, book.vehicle(one.vehicleId).label, with_,
                                         book.vehicle(other.vehicleId).label));
        for (const Visit& visit : book.visits(one.vehicleId))
            if (visit.id == visit_ || visit.id == with_)
                return {visit.id, visit.id == visit_ ? with_ : visit_};
        throw std::logic_error("a visit is not among its vehicle's visits");
    }

    std::int64_t visit_ = 0, with_ = 0;
    std::optional<Place> place_;
    bool json_ = false;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry compareEntry() {
    return {
        "compare", "Compare what the photos of two visits of a vehicle show",
        "swarfbook compare --visit A --with B [--place PLACE] [--json]",
        "swarfbook add --visit 1 demo-images/history-1.jpg --place white-card --sampling washed "
        "--book trial-book \\\n"
        "    && swarfbook visit add DEMO-03 --date today --odometer 150000 --since-clean 20000 "
        "--book trial-book \\\n"
        "    && swarfbook add --visit 2 demo-images/history-4.jpg --place white-card --sampling "
        "washed "
        "--book trial-book \\\n"
        "    && swarfbook compare --visit 2 --with 1 --place white-card --book trial-book",
        []() -> Command* { return new CompareCommand; }};
}

} // namespace swarfbook::cli
