// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/learned_cases.h"

#include "base/errors.h"
#include "base/sha256.h"
#include "bench/after_repair_fields.h"
#include "program_sources.h"
#include "record/evidence_of_visit.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <optional>
#include <span>
#include <utility>

namespace swarfbook {
namespace {

// Judged cases are kept in batches of this size, so a stopped command loses no more than this.
constexpr std::size_t keptAtOnce = 200;
// From this many on it takes a second, so the user is told. Our own experiment: 5 ms a visit.
constexpr std::size_t manyToJudge = 200;

/// Everything but the evidence that a judgement depends on.
std::string rulesOf(const SuggestionModel& model) {
    const std::string all = fmt::format("{}\n{}", programSources, model.sha256);
    return sha256Hex(std::as_bytes(std::span(all)));
}

JudgedCase judgedCase(std::int64_t visit, const LearnedCase& one) {
    return {visit, std::string(recommendationName(one.outcome)), one.pattern,
            std::string(wordOf(one.held)), one.asSuggested};
}

/// Nothing for words that the judgement does not use: this program did not write them.
std::optional<LearnedCase> learnedFrom(const JudgedCase& judged) {
    try {
        return LearnedCase{outcomeFromName(judged.outcome), judged.pattern,
                           fromWord<Held>(judged.held), judged.asSuggested};
    } catch (const std::exception&) {
        return std::nullopt;
    }
}

bool hasDamagedFinding(const VisitEvidence& visit) {
    return std::any_of(visit.samples.begin(), visit.samples.end(), [](const DebrisSample& sample) {
        return sample.refusal && sample.refusal->reason == RefusalReason::findingDamaged;
    });
}

/// Judges the cases that the book has not kept.
class Judging {
  public:
    Judging(const Book& book, const SuggestionModel& model, const JudgedCases& asked)
        : book_(book), model_(model), asked_(asked) {}

    std::vector<LearnedCase> run(const std::vector<std::int64_t>& visits) {
        for (const std::int64_t visit : visits) {
            judge(visit);
            if (toKeep_.size() == keptAtOnce)
                keep();
        }
        keep();
        return std::move(cases_);
    }

  private:
    void judge(std::int64_t visit) {
        // earlier visits do not change which step is suggested, only its reasons
        Evidence evidence;
        try {
            evidence.now = evidenceOfOneVisit(book_, book_.visit(visit));
        } catch (const ToolError& damaged) {
            book_.tell(std::string("A case to learn from was left out. ") + damaged.what());
            return;
        }
        const auto one = learnedCase(evidence, model_);
        if (one)
            cases_.push_back(*one);
        // A case without a step is kept as well, so that it need not be judged again. A case with a
        // damaged finding is reported at every reading, so it is not kept.
        if (!hasDamagedFinding(evidence.now))
            toKeep_.push_back(judgedCase(visit, one.value_or(LearnedCase())));
    }

    void keep() {
        if (!toKeep_.empty())
            book_.keepJudgedCases(asked_, toKeep_);
        toKeep_.clear();
    }

    const Book& book_;
    const SuggestionModel& model_;
    const JudgedCases& asked_;
    std::vector<LearnedCase> cases_;
    std::vector<JudgedCase> toKeep_;
};

} // namespace

std::vector<LearnedCase> learnedCases(const Book& book, const SuggestionModel& model) {
    const JudgedCases asked =
        book.judgedCases(std::string(fields::Of<RepairResult>::kind), rulesOf(model));
    std::vector<LearnedCase> cases;
    std::vector<std::int64_t> missing = asked.missing;
    for (const JudgedCase& judged : asked.kept) {
        const auto one = learnedFrom(judged);
        if (!one)
            missing.push_back(judged.visitId);
        else if (one->outcome != Recommendation::notEnoughEvidence)
            cases.push_back(*one);
    }
    if (missing.size() >= manyToJudge)
        book.tell(fmt::format("{} visits with an outcome are judged by the present rules, which "
                              "takes some seconds. A book that can be written keeps it, so that "
                              "the next command need not do it again.",
                              missing.size()));
    const std::vector<LearnedCase> anew = Judging(book, model, asked).run(missing);
    cases.insert(cases.end(), anew.begin(), anew.end());
    return cases;
}

} // namespace swarfbook
