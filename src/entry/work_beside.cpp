// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/work_beside.h"

#include "base/errors.h"
#include "base/text.h"
#include "bench/typed_observation.h"
#include "entry/work_words.h"

#include <algorithm>
#include <optional>
#include <regex>
#include <set>

namespace swarfbook {
namespace {

using Texts = std::vector<std::string>;
using WordSet = std::set<std::string>;

/// The words of a phrase, as typed and in lower case.
struct Said {
    Texts typed, lower;
    explicit Said(const std::string& phrase) : typed(wordsOfPhrase(phrase)) {
        for (const std::string& word : typed)
            lower.push_back(lowered(word));
    }
    [[nodiscard]] bool any(const WordSet& words) const {
        return std::any_of(lower.begin(), lower.end(),
                           [&](const std::string& word) { return words.contains(word); });
    }
    /// The rest of the text without these words, as typed.
    [[nodiscard]] Texts without(const WordSet& words) const {
        Texts rest;
        for (std::size_t i = 0; i < typed.size(); ++i)
            if (!words.contains(lower[i]))
                rest.push_back(typed[i]);
        return rest;
    }
};

const WordSet renewal{"renewed", "replaced", "changed", "exchanged", "new", "fresh"};

/// A quantity cut out of a phrase.
struct CutOut {
    std::string quantity, rest;
};
std::optional<CutOut> cutOut(const std::string& phrase, const std::regex& pattern) {
    std::smatch found;
    if (!std::regex_search(phrase, found, pattern))
        return std::nullopt;
    return CutOut{found[2].str(), found.prefix().str() + " " + found.suffix().str()};
}

std::optional<CutOut> volumeIn(const std::string& phrase) {
    static const std::regex pattern(
        R"((^| )([0-9]+([.,][0-9]+)?( [0-9]+/[0-9]+)? ?(litres?|liters?|l|quarts?|qts?|pints?|pt|ml))(?= |$))",
        std::regex::icase);
    return cutOut(phrase, pattern);
}

std::optional<CutOut> temperatureIn(const std::string& phrase) {
    static const std::regex pattern(
        R"((^| )(-?[0-9]+([.,][0-9]+)? ?(\xC2\xB0 ?|deg(rees)? ?)?[CF])(?= |$))",
        std::regex::icase);
    return cutOut(phrase, pattern);
}

std::string joined(const Texts& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : " ") + word;
    return text;
}

Observation typedAs(const char* form, const Texts& values,
                    const std::map<std::string, std::string>& options, Sure sure) {
    TypedLine line;
    line.form = form;
    line.values = values;
    line.options = options;
    return observationTyped(line, sure);
}

/// "6.5 l of Demo fluid filled in".
bool readFluid(const std::string& phrase, WorkDone& done, Sure sure) {
    const auto amount = volumeIn(phrase);
    if (!amount)
        return false;
    const auto at = temperatureIn(amount->rest);
    const Said said(at ? at->rest : amount->rest);
    static const WordSet filling{
        "fluid",    "oil",     "of",    "in",    "filled",    "refilled", "with",  "renewed",
        "replaced", "changed", "new",   "fresh", "exchanged", "put",      "the",   "was",
        "topped",   "up",      "total", "at",    "by",        "level",    "added", "poured"};
    std::map<std::string, std::string> options;
    if (const std::string kind = joined(said.without(filling)); !kind.empty())
        options["kind-of-fluid"] = kind;
    if (at)
        options["at"] = at->quantity;
    done.others.push_back(typedAs("refill", {amount->quantity}, options, sure));
    const bool topped = said.any({"topped"});
    if (!topped && !said.any(renewal))
        return true;
    done.alsoWork.emplace_back(topped ? "fluid level topped up" : "fluid renewed");
    return true;
}

/// "level right at 40C"; a corrected level is work on a part.
bool readLevel(const std::string& phrase, WorkDone& done, Sure sure) {
    const auto at = temperatureIn(phrase);
    const Said said(at ? at->rest : phrase);
    if (!said.any({"level"}))
        return false;
    static const WordSet right{"right", "ok", "good", "correct", "checked", "set", "full"};
    static const WordSet filling{"fluid", "oil",     "level",   "at",   "the", "is",
                                 "was",   "to",      "checked", "set",  "ok",  "good",
                                 "right", "correct", "full",    "then", "with"};
    const bool low = said.any({"low"}), high = said.any({"high"});
    const Texts rest = said.without(filling);
    if (rest.size() > (low || high ? 1 : 0) || said.any({"put"}) ||
        (!at && !said.any(right) && !low && !high))
        return false;
    std::map<std::string, std::string> options;
    if (at)
        options["at"] = at->quantity;
    done.others.push_back(typedAs("level-check",
                                  {low    ? "low"
                                   : high ? "high"
                                          : "right"},
                                  options, sure));
    return true;
}

/// "codes cleared" is work, "no codes afterwards" a reading.
bool readCodes(const std::string& phrase, WorkDone& done) {
    const Said said(phrase);
    if (!said.any({"code", "codes", "dtc", "dtcs"}))
        return false;
    const bool cleared = said.any({"cleared", "erased", "deleted", "reset", "clear"});
    static const WordSet filling{"code",  "codes", "dtc",     "dtcs",   "fault",   "trouble",
                                 "all",   "the",   "cleared", "erased", "deleted", "reset",
                                 "clear", "were",  "stored",  "memory"};
    if (cleared && said.without(filling).empty()) {
        done.after.work.emplace_back("codes cleared");
        return true;
    }
    static const WordSet none{"no",    "none", "code",  "codes", "stored",  "afterwards",
                              "after", "dtcs", "again", "fault", "trouble", "read",
                              "came",  "back", "the",   "drive", "return",  "returned"};
    if (!cleared && said.any({"no", "none"}) && said.without(none).empty()) {
        Codes read;
        read.when = CodesWhen::after;
        done.others.emplace_back(read);
        return true;
    }
    return false;
}

bool readWord(const std::string& phrase, WorkDone& done) {
    const Said said(phrase);
    static const WordSet finished{"done", "reset", "relearned", "relearnt", "run", "cleared"};
    if (said.any({"adaptation", "adaptations", "adaptive"}) && said.any(finished) &&
        said.without({"adaptation", "adaptations", "adaptive", "values", "the", "done", "reset",
                      "relearned", "relearnt", "run", "cleared", "drive"})
            .empty()) {
        done.after.adaptation = AdaptationDone::done;
        return true;
    }
    if (said.any({"selector"}) && said.any({"cycled"})) {
        done.after.selectorCycled = true;
        return true;
    }
    if ((said.any({"no"}) && said.any({"leak", "leaks"}) &&
         said.without({"no", "leak", "leaks", "seen", "found", "once", "warm"}).empty()) ||
        said.lower == Texts{"leak-free"}) {
        done.after.leaks = false;
        return true;
    }
    return false;
}

/// "road test good", "road test 2-3 good hot firm".
bool readDrive(const std::string& phrase, WorkDone& done, Sure sure) {
    static const WordSet driving{"road",   "test",  "drive",  "test-drive", "road-test",
                                 "driven", "drove", "after",  "afterwards", "was",
                                 "the",    "it",    "drives", "then",       "on",
                                 "in",     "shift", "gear"};
    const Said said(phrase);
    const bool named = (said.any({"road"}) && said.any({"test"})) ||
                       (said.any({"test"}) && said.any({"drive"})) ||
                       said.any({"test-drive", "road-test", "driven", "drove", "drives"});
    if (!named)
        return false;
    const auto at = temperatureIn(phrase);
    std::map<std::string, std::string> options;
    if (at)
        options["at"] = at->quantity;
    Texts values;
    for (const std::string& word : Said(at ? at->rest : phrase).without(driving)) {
        const std::string lower = lowered(word);
        if (WordSet{"hot", "warm", "cold"}.contains(lower))
            options["warmth"] = lower;
        else if (WordSet{"light", "medium", "firm"}.contains(lower))
            options["load"] = lower;
        else if (lower != "load" && lower != "at")
            values.push_back(word);
    }
    if (values.empty())
        throw UsageError("How did it drive? Say good or what was felt: \"road test good\", "
                         "\"road test 2-3 flare firm hot\".");
    done.others.push_back(typedAs("road-test", values, options, sure));
    return true;
}

} // namespace

bool readBeside(const std::string& phrase, WorkDone& done, Sure sure) {
    return readDrive(phrase, done, sure) || readCodes(phrase, done) || readWord(phrase, done) ||
           readFluid(phrase, done, sure) || readLevel(phrase, done, sure);
}

} // namespace swarfbook
