// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/repair_done.h"

#include "base/errors.h"
#include "base/text.h"
#include "entry/work_beside.h"
#include "entry/work_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>
#include <stdexcept>

namespace swarfbook {
namespace {

std::optional<Recommendation> outcomeNamed(const std::string& text) {
    std::string name = lowered(text);
    std::replace(name.begin(), name.end(), '-', ' ');
    for (int i = 0; i <= static_cast<int>(Recommendation::notEnoughEvidence); ++i)
        if (recommendationName(static_cast<Recommendation>(i)) == name)
            return static_cast<Recommendation>(i);
    return std::nullopt;
}

/// An outcome's name, however it is capitalised; UsageError listing all there are.
std::string outcomeAsNamed(const std::string& given) {
    if (const auto outcome = outcomeNamed(given))
        return std::string(recommendationName(*outcome));
    std::string all;
    for (int i = 0; i <= static_cast<int>(Recommendation::notEnoughEvidence); ++i)
        all += fmt::format("{}\"{}\"", i == 0 ? "" : ", ",
                           recommendationName(static_cast<Recommendation>(i)));
    throw UsageError(fmt::format("\"{}\" is not an outcome. Say one of: {}.", given, all));
}

bool saysNotDone(const std::string& phrase) {
    static const std::set<std::string> words{
        "not",   "never",  "no",          "without",   "except",  "should",   "must",   "needs",
        "need",  "needed", "recommended", "recommend", "advised", "to",       "due",    "declined",
        "later", "still",  "refused",     "ordered",   "next",    "tomorrow", "pending"};
    const std::vector<std::string> all = wordsOfPhrase(phrase);
    return std::any_of(all.begin(), all.end(),
                       [&](const std::string& word) { return words.contains(lowered(word)); });
}

constexpr const char* orSure =
    "If it is meant as it stands, type the same again with --sure: it is then kept in your words.";

[[noreturn]] void askWhatItMeans(const WorkPhrase& phrase) {
    if (phrase.part == nullptr)
        throw UsageError(fmt::format("\"{}\" names no part that is known here. Known are: {}; and "
                                     "fluid by its amount, level, codes, adaptation and road "
                                     "test. {}",
                                     phrase.typed, listOfParts(), orSure));
    throw UsageError(fmt::format("\"{}\" in \"{}\" is not understood. Say the part, its name and "
                                 "what was done to it: {}. {}",
                                 phrase.unknown, phrase.typed, listOfActions(), orSure));
}

/// Reads the phrases of a line one by one, then assigns common words to all their parts.
class LineOfWork {
  public:
    LineOfWork(WorkAsked asked, Sure sure) : asked_(asked), sure_(sure) {}

    WorkDone read(const std::string& line) {
        const KindOfPart* before = nullptr;
        for (const std::string& typed : phrasesOf(line))
            take(typed, before);
        shareActions();
        for (const std::string& implied : done_.alsoWork)
            phrases_.push_back(workPhrase(implied, nullptr));
        for (const WorkPhrase& phrase : phrases_)
            add(phrase);
        if (dearest_)
            done_.after.did = recommendationName(*dearest_);
        return std::move(done_);
    }

  private:
    void take(const std::string& typed, const KindOfPart*& before) {
        if (readBeside(typed, done_, sure_))
            return;
        if (saysNotDone(typed) && sure_ == Sure::ask)
            throw UsageError(fmt::format("\"{}\" says what was not done. Leave it out, or record "
                                         "it with: observe not-inspected WHAT. {}",
                                         typed, orSure));
        WorkPhrase phrase = workPhrase(typed, before);
        const bool actionsAlone = phrase.part == nullptr && phrase.unknown.empty() &&
                                  phrase.which.empty() && !phrase.actions.empty();
        if (actionsAlone && !phrases_.empty()) { // "cleaned and refitted"
            auto& actions = phrases_.back().actions;
            actions.insert(actions.end(), phrase.actions.begin(), phrase.actions.end());
            return;
        }
        if (phrase.part == nullptr || !phrase.unknown.empty()) {
            if (sure_ == Sure::ask)
                askWhatItMeans(phrase);
            phrase.part = nullptr;
        }
        if (phrase.part != nullptr && phrase.part->hasName && phrase.name.empty() &&
            phrase.which.empty() && sure_ == Sure::ask)
            throw UsageError(
                fmt::format("Which {0}? Say its name, \"{0} A\", or \"all\".", phrase.part->name));
        before = phrase.part;
        phrases_.push_back(std::move(phrase));
    }

    /// "filter and seal renewed", "renewed filter and seal": a word said once counts for both.
    void shareActions() {
        for (std::size_t i = phrases_.size(); i-- > 1;)
            if (phrases_[i - 1].actions.empty() && !phrases_[i].actionFirst)
                phrases_[i - 1].actions = phrases_[i].actions;
        for (std::size_t i = 1; i < phrases_.size(); ++i)
            if (phrases_[i].actions.empty() && phrases_[i - 1].actionFirst) {
                phrases_[i].actions = phrases_[i - 1].actions;
                phrases_[i].actionFirst = true;
            }
    }

    void add(const WorkPhrase& phrase) {
        if (phrase.part == nullptr) {
            done_.after.work.push_back(phrase.typed);
            return;
        }
        const bool levelAlone = phrase.part->name == "fluid level";
        if (phrase.actions.empty() && asked_ == WorkAsked::wholeWork && !levelAlone &&
            sure_ == Sure::ask)
            throw UsageError(
                fmt::format("What was done to \"{}\"? Say {}.", phrase.typed, listOfActions()));
        done_.after.work.push_back(inWords(phrase));
        count(phrase);
    }

    static std::string inWords(const WorkPhrase& phrase) {
        std::string text = phrase.which.empty() ? "" : phrase.which + " ";
        text += phrase.name.empty() ? phrase.partWord
                                    : std::string(phrase.part->name) + " " + phrase.name;
        std::string how;
        const bool several = phrase.actions.size() > 1;
        for (const WorkAction* action : phrase.actions)
            if (action->name != phrase.partWord && !(several && action->name == "fitted"))
                how += (how.empty() ? " " : " and ") + std::string(action->name);
        return text + how;
    }

    /// The outcome of the work, and the parts that count as repaired.
    void count(const WorkPhrase& phrase) {
        WorkDepth depth = phrase.actions.empty() ? WorkDepth::deep : WorkDepth::looked;
        for (const WorkAction* action : phrase.actions)
            depth = std::max(depth, action->depth);
        if (depth == WorkDepth::looked)
            return;
        const bool stays =
            depth == WorkDepth::light && phrase.part->rung > Recommendation::cleanAndRefit;
        const Recommendation rung = stays ? Recommendation::cleanAndRefit : phrase.part->rung;
        dearest_ = std::max(dearest_.value_or(rung), rung);
        if (!stays && !(phrase.part->hasName && phrase.name.empty()))
            done_.after.parts.push_back(std::string(phrase.part->name) +
                                        (phrase.name.empty() ? "" : " " + phrase.name));
    }

    WorkAsked asked_;
    Sure sure_;
    WorkDone done_;
    std::vector<WorkPhrase> phrases_;
    std::optional<Recommendation> dearest_;
};

std::vector<Observation> readOf(AfterRepair given, WorkAsked asked, Sure sure) {
    WorkDone done = workDone(given.did, asked, sure);
    given.did = done.after.did;
    given.parts = std::move(done.after.parts);
    given.work = std::move(done.after.work);
    if (given.adaptation == AdaptationDone::notSaid)
        given.adaptation = done.after.adaptation;
    given.selectorCycled = given.selectorCycled ? given.selectorCycled : done.after.selectorCycled;
    given.leaks = given.leaks ? given.leaks : done.after.leaks;
    std::vector<Observation> all;
    if (WorkDone{given, {}, {}}.anyAfter())
        all.emplace_back(given);
    all.insert(all.end(), done.others.begin(), done.others.end());
    return all;
}

} // namespace

bool WorkDone::anyAfter() const {
    return !after.did.empty() || !after.work.empty() || after.selectorCycled || after.leaks ||
           after.adaptation != AdaptationDone::notSaid || !after.note.empty();
}

WorkDone workDone(const std::string& line, WorkAsked asked, Sure sure) {
    WorkDone done;
    if (const auto outcome = outcomeNamed(line)) {
        done.after.did = recommendationName(*outcome);
        return done;
    }
    done = LineOfWork(asked, sure).read(line);
    if (!done.anyAfter() && done.others.empty())
        throw UsageError("Say what was done, such as \"filter and neck seal renewed\".");
    return done;
}

std::vector<Observation> withWorkRead(Observation observation, WorkAsked asked, Sure sure) {
    if (auto* overruled = std::get_if<Overruled>(&observation))
        overruled->outcome = outcomeAsNamed(overruled->outcome);
    if (const auto* after = std::get_if<AfterRepair>(&observation); after && !after->did.empty())
        return readOf(*after, asked, sure);
    if (auto* outcome = std::get_if<RepairResult>(&observation); outcome && !outcome->did.empty()) {
        const WorkDone done = workDone(outcome->did, WorkAsked::partsAlone, sure);
        if (!done.others.empty() || done.after.did.empty())
            throw UsageError(fmt::format(
                "\"{}\" says more than which parts: type it with observe did.", outcome->did));
        outcome->did = done.after.did;
        outcome->parts = done.after.parts;
    }
    return {observation};
}

} // namespace swarfbook
