// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/text.h"
#include "cli/observe_kinds.h"
#include "judgement/suggestion.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace swarfbook::cli {
namespace {

void questionDebris(const DebrisSeen& d) {
    if (d.what == DebrisKind::clean &&
        (d.size || d.amount != Amount::notSaid || d.machinedFace || d.burnt))
        throw UsageError("A clean place has no size and no amount: say what lay there instead.");
    if (d.coat && d.place != Where::magnet)
        throw UsageError("Only the magnet has a coat: debris magnet paste --coat F2.");
}

Observation readDebris(const ObserveWords& words) {
    words.atMost(2);
    DebrisSeen d;
    d.place = fromWord<Where>(words.value(0, "where: " + wordList<Where>()));
    d.what = fromWord<DebrisKind>(words.value(1, "what: " + wordList<DebrisKind>()));
    if (const auto size = words.text("size"))
        d.size = fromWord<TradeSize>(*size);
    if (const auto coat = words.text("coat"))
        d.coat = fromWord<Coat>(*coat);
    words.word("amount", d.amount);
    words.word("magnetic", d.magnetic);
    d.machinedFace = words.flag("machined-face");
    d.paperTexture = words.flag("paper-texture");
    d.burnt = words.flag("burnt");
    d.assemblyLeftOver = words.flag("left-over");
    d.seenBefore = words.flag("seen-before");
    questionDebris(d);
    return d;
}

/// Which debris a hand test was made of.
template <class Test> Observation ofDebris(const ObserveWords& words, Test test) {
    if (const auto place = words.text("place"))
        test.place = fromWord<Where>(*place);
    test.pieces = words.text("pieces").value_or("");
    return test;
}

Observation readFinger(const ObserveWords& words) {
    words.atMost(1);
    return ofDebris(
        words, FingerTest{fromWord<Feel>(words.value(0, "what is felt: " + wordList<Feel>()))});
}

Observation readMagnetTest(const ObserveWords& words) {
    words.atMost(1);
    MagnetTest test;
    test.result =
        fromWord<MagnetMoves>(words.value(0, "what the debris does: " + wordList<MagnetMoves>()));
    words.word("share", test.share);
    return ofDebris(words, test);
}

Observation readSqueeze(const ObserveWords& words) {
    words.atMost(1);
    return ofDebris(words, SqueezeTest{fromWord<Squeezed>(
                               words.value(0, "what the flake does: " + wordList<Squeezed>()))});
}

Observation readFilterNeck(const ObserveWords& words) {
    words.atMost(1);
    FilterNeckSeen seen;
    if (const auto neck = words.maybeValue(0))
        seen.neck = fromWord<Checked>(*neck);
    words.word("seal", seen.seal);
    seen.note = words.text("note").value_or("");
    if (!seen.neck && seen.seal == SealFound::notLooked)
        throw UsageError("Say how the neck is, good or fault, or the seal with --seal.");
    return seen;
}

Observation readNotInspected(const ObserveWords& words) {
    static_cast<void>(words.value(0, "what was not inspected"));
    std::string what;
    for (const std::string& word : words.values())
        what += (what.empty() ? "" : " ") + word;
    return NotInspected{what};
}

Observation readOverrule(const ObserveWords& words) {
    words.atMost(1);
    Overruled overruled;
    overruled.outcome =
        outcomeAsNamed(words.value(0, "the outcome you decide for, in quotation marks"));
    overruled.note = words.text("note").value_or("");
    if (overruled.note.empty())
        throw UsageError("Say why with --note: both stay in the book.");
    return overruled;
}

const std::vector<ObserveKind> byEyeAndHand{
    {"debris",
     "debris by eye, by place; clean says that nothing lay there",
     "PLACE WHAT [options]",
     "debris pan yellow-metal --size S1 --amount few",
     {"size", "coat", "amount", "magnetic", "machined-face", "paper-texture", "burnt", "left-over",
      "seen-before"},
     readDebris},
    {"finger",
     "debris rubbed between gloved fingers or through paper",
     "smears|not-felt|grit|felt [options]",
     "finger smears --place magnet",
     {"place", "pieces"},
     readFinger},
    {"magnet-test",
     "dry debris, a magnet under the paper",
     "moves|stays [options]",
     "magnet-test moves --share few",
     {"share", "place", "pieces"},
     readMagnetTest},
    {"squeeze",
     "a flake squeezed in the pliers",
     "bends|breaks|crumbles [options]",
     "squeeze bends --place pan --pieces \"the largest\"",
     {"place", "pieces"},
     readSqueeze},
    {"filter-neck",
     "the filter's neck and its seal, which the pump draws through",
     "[good|fault] [options]",
     "filter-neck good --seal hard",
     {"seal", "note"},
     readFilterNeck},
    {"not-inspected",
     "something deliberately recorded as not looked at",
     "WHAT",
     "not-inspected filter",
     {},
     readNotInspected},
    {"overrule",
     "you decide otherwise than suggested; both stay in the book",
     "OUTCOME --note TEXT",
     "overrule \"clean and refit\" --note \"customer sells the car\"",
     {"note"},
     readOverrule},
};

} // namespace

std::string outcomeAsNamed(const std::string& given) {
    std::string name = lowered(given);
    std::replace(name.begin(), name.end(), '-', ' ');
    try {
        return std::string(outcomeName(outcomeFromName(name)));
    } catch (const std::invalid_argument&) {
        std::string all;
        for (int i = 0; i <= static_cast<int>(Outcome::notEnoughEvidence); ++i)
            all +=
                fmt::format("{}\"{}\"", i == 0 ? "" : ", ", outcomeName(static_cast<Outcome>(i)));
        throw UsageError(fmt::format("\"{}\" is no outcome. Say one of: {}.", given, all));
    }
}

std::vector<ObserveKind> debrisKinds() {
    return byEyeAndHand;
}

} // namespace swarfbook::cli
