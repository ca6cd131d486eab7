// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/observe_kinds.h"

#include "base/errors.h"

#include <fmt/format.h>

namespace swarfbook::cli {

std::string ObserveWords::value(std::size_t n, std::string_view what) const {
    if (n >= values_.size())
        throw UsageError(fmt::format("Say {}.", what));
    return values_[n];
}

std::optional<std::string> ObserveWords::maybeValue(std::size_t n) const {
    return n < values_.size() ? std::optional(values_[n]) : std::nullopt;
}

std::string ObserveWords::valuesFrom(std::size_t n, std::string_view what) const {
    std::string all = value(n, what);
    for (std::size_t i = n + 1; i < values_.size(); ++i)
        all += " " + values_[i];
    return all;
}

void ObserveWords::atMost(std::size_t count) const {
    if (values_.size() > count)
        throw UsageError(fmt::format("\"{}\" is one word too many; put a name of several words in "
                                     "quotation marks.",
                                     values_[count]));
}

std::optional<bool> ObserveWords::yesNo(const std::string& option) const {
    const auto given = text(option);
    if (!given)
        return std::nullopt;
    const std::string word = wordAsTyped(*given);
    if (word == "yes" || word == "y" || word == "true")
        return true;
    if (word == "no" || word == "n" || word == "false")
        return false;
    if (word == "not-inspected" || word == "not-known" || word == "unknown")
        return std::nullopt;
    throw UsageError(fmt::format("--{} takes yes or no, not \"{}\".", option, *given));
}

std::vector<std::string> ObserveWords::list(const std::string& option) const {
    std::vector<std::string> items(1);
    for (const char c : text(option).value_or("")) {
        if (c != ',' && c != ' ')
            items.back() += c;
        else if (!items.back().empty())
            items.emplace_back();
    }
    if (items.back().empty())
        items.pop_back();
    return items;
}

const std::vector<ObserveKind>& observeKinds() {
    static const std::vector<ObserveKind> all = [] {
        std::vector<ObserveKind> kinds = driveKinds();
        for (const auto& more : {debrisKinds(), benchKinds(), afterKinds()})
            kinds.insert(kinds.end(), more.begin(), more.end());
        return kinds;
    }();
    return all;
}

const std::set<std::string>& observeFlags() {
    static const std::set<std::string> flags{
        "first-opening", "wiped",       "after", "machined-face", "paper-texture", "burnt",
        "left-over",     "seen-before", "sure",  "at-pins",       "at-connector"};
    return flags;
}

namespace {

const std::vector<std::pair<std::string, std::string>> optionsWithHelp{
    {"sure", "an unusual value that was questioned is really meant"},
    {"by", "who observed it, when it was not whoever looked at the visit"},
    {"corrects", "the number of an earlier entry that this one replaces; both stay"},
    {"first-opening", "history: the pan was never off before"},
    {"wiped", "history: cleaned lately, nobody wrote down what was found"},
    {"rebuilt", "history: distance since a rebuild"},
    {"cooler-flushed", "history: yes or no"},
    {"magnets-changed", "history: yes or no"},
    {"after", "codes: read after the repair"},
    {"only-hot", "codes: yes or no"},
    {"text", "codes: the maker's own text"},
    {"gear", "complaint, pressure: 1, 2, ... R, or all"},
    {"shift", "complaint: such as 2-3"},
    {"load", "complaint: " + wordList<Load>()},
    {"warmth", "complaint: " + wordList<Warmth>()},
    {"at", "temperature: of the fluid, the coil, the level check"},
    {"obtained", "complaint wrong-gear: the gear obtained"},
    {"brake-tap", "complaint: stops or goes-on when the brake is tapped"},
    {"manual-range", "complaint: good or bad when picked by hand"},
    {"note", "a remark"},
    {"heard", "noise: gears, such as 1,R"},
    {"quiet", "noise: gears"},
    {"colour", "fluid: in your words"},
    {"smell", "fluid: " + wordList<Smell>()},
    {"milky", "fluid: yes or no"},
    {"glitter", "fluid: " + wordList<Glitter>()},
    {"drained", "fluid: how much came out, such as 4.2l"},
    {"leak", "level: where"},
    {"volts", "outside: measured there"},
    {"detail", "outside: what was found"},
    {"type", "solenoid: " + wordList<SolenoidKind>() + "; fluid: right or wrong"},
    {"ohm", "solenoid: resistance, or open, or short"},
    {"band", "solenoid: the maker's at 20 C, such as 11-15"},
    {"hot", "solenoid: resistance hot, or open, or holds"},
    {"hot-at", "solenoid: temperature of the hot reading"},
    {"leak-off", "solenoid: " + wordList<LeakSeen>()},
    {"leak-on", "solenoid: " + wordList<LeakSeen>()},
    {"pull-in", "solenoid: voltage"},
    {"drop-out", "solenoid: voltage"},
    {"current", "solenoid: such as 0.9A"},
    {"frequency", "solenoid: such as 200Hz"},
    {"command", "solenoid: " + wordList<Movement>()},
    {"hot-command", "solenoid: the same, hot"},
    {"swap", "solenoid: the fault " + wordList<SwapResult>()},
    {"flushed", "solenoid, cooler: yes or no"},
    {"demagnetised", "solenoid: yes or no"},
    {"siblings", "solenoid: " + wordList<AgainstSiblings>()},
    {"vacuum", "bore: lowest reading, such as 12inHg"},
    {"open", "bore: the stand with its hose open"},
    {"blocked", "bore: the stand with its hose blocked"},
    {"jet", "bore: the stand's fixed jet today"},
    {"jet-usual", "bore: what that jet always reads"},
    {"new-valve", "bore: with a new valve"},
    {"good-unit", "bore: the same bore of a known good unit"},
    {"film", "bore: wet or dry"},
    {"wet-air", "bore: " + wordList<WetAir>()},
    {"scored", "bore, valve-body: yes or no"},
    {"reamed", "bore, valve-body: yes or no"},
    {"concerns", "bore: gear, shift, solenoid or converter"},
    {"place", "finger, magnet-test, squeeze: where the debris came from"},
    {"pieces", "finger, magnet-test, squeeze: which pieces, such as \"the largest\""},
    {"at-pins", "solenoid: the coil was read at its own pins"},
    {"at-connector", "solenoid: the coil was read at the case connector"},
    {"reading", "pressure: such as 60psi"},
    {"makers", "pressure: the maker's, such as 60-90psi"},
    {"gears", "air-check: gears the element serves"},
    {"size", "debris: " + wordList<TradeSize>()},
    {"coat", "debris: of the magnet, " + wordList<Coat>()},
    {"amount", "debris: one, few, plenty"},
    {"magnetic", "debris: yes or no"},
    {"machined-face", "debris: a machined face, needle or tooth form"},
    {"paper-texture", "debris: lining with paper texture"},
    {"burnt", "debris: burnt or melted edge"},
    {"left-over", "debris: left from assembly"},
    {"seen-before", "debris: the same came out before"},
    {"share", "magnet-test: of the bright pieces, one, few, plenty"},
    {"seal", "filter-neck: " + wordList<SealFound>()},
    {"repaired", "bore: reading after the repair"},
    {"kind-of-fluid", "refill: as the can says"},
    {"window", "level-check: the maker's temperatures, such as 35-45C"},
    {"total", "level-check: what the unit holds, such as 9l"},
    {"selector-cycled", "level-check, after-repair: through every position, yes or no"},
    {"did",
     "after-repair, outcome: what was done, when it was not as suggested, such as \"solenoid "
     "A replaced\""},
    {"adaptation", "after-repair: " + wordList<AdaptationDone>()},
    {"leaks", "after-repair: any seen once warm, yes or no"},
    {"after-distance", "outcome: driven since the repair, such as 1200km"},
    {"in", "cooler: such as 30s"},
    {"result", "cooler: good or fault, by the maker's figure"},
    {"drain", "converter: good or fault"},
    {"hub", "converter: good or fault"},
    {"blued", "converter: yes or no"},
    {"coolant", "converter: yes or no"},
    {"cracked", "valve-body: yes or no"},
    {"warped", "valve-body: yes or no"},
    {"electronics", "valve-body: built in, yes or no"},
    {"repair-costs-more", "valve-body: than another body, yes or no"},
};

} // namespace

const std::vector<std::pair<std::string, std::string>>& observeOptions() {
    return optionsWithHelp;
}

} // namespace swarfbook::cli
