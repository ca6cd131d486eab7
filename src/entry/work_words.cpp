// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/work_words.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <set>

namespace swarfbook {
namespace {

using Texts = std::vector<std::string>;

std::vector<KindOfPart> partsOfTheUnit() {
    using enum Recommendation;
    return {{"solenoid", {"solenoids", "solenoid"}, replaceSolenoids, true},
            {"bore", {"bores", "bore"}, repairBores, true},
            {"accumulator", {"accumulators", "accumulator"}, repairBores},
            {"valve body", {"valve body", "valve-body"}, replaceValveBody},
            {"clutch", {"clutches", "clutch"}, openTheTransmission, true},
            {"brake", {"brakes", "brake", "band"}, openTheTransmission, true},
            {"converter", {"torque converter", "converter"}, openTheTransmission},
            {"pump", {"pump", "oil pump"}, openTheTransmission}};
}

std::vector<KindOfPart> partsOutsideTheUnit() {
    using enum Recommendation;
    return {{"cooler", {"cooler", "oil cooler", "fluid cooler"}, outsideTheUnit},
            {"cooler lines", {"cooler lines", "cooler line"}, outsideTheUnit},
            {"fluid level", {"fluid level", "level", "topped up", "refilled"}, outsideTheUnit},
            {"connector",
             {"case connector", "connector", "plug", "connector seal", "connector O-ring",
              "connector O-rings"},
             outsideTheUnit},
            {"wiring strap",
             {"wiring strap", "wiring straps", "strap", "straps", "wiring clip", "wiring clips"},
             outsideTheUnit},
            {"harness", {"wiring harness", "harness", "wiring", "loom"}, outsideTheUnit},
            {"control unit", {"control unit", "control-unit"}, outsideTheUnit},
            {"supply", {"supply", "earth"}, outsideTheUnit},
            {"sensor",
             {"speed sensor", "speed sensors", "temperature sensor", "sensor", "sensors"},
             outsideTheUnit},
            {"breather", {"breather"}, outsideTheUnit},
            {"shaft seal",
             {"shaft seal", "shaft seals", "output seal", "output seals", "selector seal"},
             outsideTheUnit}};
}

/// Parts that come off and on again with the pan.
std::vector<KindOfPart> partsRefitted() {
    using enum Recommendation;
    return {
        {"filter", {"filter", "fluid filter", "oil filter", "strainer"}, cleanAndRefit},
        {"filter neck seal",
         {"filter neck seal", "neck seal", "filter seal", "neck O-ring"},
         cleanAndRefit},
        {"filter neck", {"filter neck", "neck"}, cleanAndRefit},
        {"pan seal", {"pan seal", "pan gasket", "gasket", "gaskets"}, cleanAndRefit},
        {"pan", {"pan", "oil pan", "sump", "pan bolts"}, cleanAndRefit},
        {"drain plug",
         {"drain plug", "drain plug seal", "drain seal", "filler plug", "filler plug seal",
          "sealing washer", "sealing washers"},
         cleanAndRefit},
        {"seals", {"seals", "seal", "sealing rings", "sealing ring"}, cleanAndRefit},
        {"O-rings", {"O-rings", "O-ring", "o rings", "o ring", "orings", "oring"}, cleanAndRefit},
        {"magnet", {"magnets", "magnet"}, cleanAndRefit},
        {"spacers",
         {"spacers", "spacer", "spacer sleeves", "spacer sleeve", "distance pieces",
          "distance piece"},
         cleanAndRefit},
        {"fluid", {"fluid", "oil"}, cleanAndRefit}};
}

/// In the order in which they are printed.
const std::vector<KindOfPart>& kindsOfPart() {
    static const std::vector<KindOfPart> kinds = [] {
        std::vector<KindOfPart> all = partsOfTheUnit();
        for (const auto& more : {partsOutsideTheUnit(), partsRefitted()})
            all.insert(all.end(), more.begin(), more.end());
        return all;
    }();
    return kinds;
}

const std::vector<WorkAction>& workActions() {
    using enum WorkDepth;
    static const std::vector<WorkAction> actions{
        {"renewed",
         {"renewed", "replaced", "exchanged", "new", "changed", "swapped", "renew", "replace",
          "exchange", "change"}},
        {"cleaned", {"cleaned", "clean", "washed", "wiped", "degreased"}, light},
        {"flushed", {"flushed", "flush", "rinsed"}, light},
        {"refitted",
         {"refitted", "refit", "re-fitted", "reinstalled", "reused", "put back"},
         light},
        {"put right", {"put right", "corrected", "right"}},
        {"adjusted", {"adjusted", "set"}},
        {"repaired", {"repaired", "mended", "reworked"}},
        {"sleeved", {"sleeved"}},
        {"reamed", {"reamed"}},
        {"soldered", {"soldered"}},
        {"rebuilt", {"rebuilt", "overhauled"}},
        {"tightened", {"tightened", "torqued"}, light},
        {"secured", {"secured", "fastened"}, light},
        {"demagnetised", {"demagnetised", "demagnetized"}, light},
        {"dried", {"dried"}, light},
        {"topped up", {"topped up", "topped-up"}},
        {"filled", {"filled", "refilled"}},
        {"checked", {"checked", "inspected", "tested"}, looked},
        {"fitted", {"fitted", "installed", "fit"}}};
    return actions;
}

bool isFilling(const std::string& word) {
    static const std::set<std::string> filling{"the", "a",    "an",   "was",   "were", "been",
                                               "has", "have", "with", "its",   "in",   "on",
                                               "of",  "also", "then", "again", "done"};
    return filling.contains(word);
}

/// Words that say which of several parts is meant; they stay in the text.
bool saysWhich(const std::string& word) {
    static const std::set<std::string> which{"all",  "both",  "each",  "one",   "two",   "three",
                                             "four", "five",  "six",   "inner", "outer", "front",
                                             "rear", "upper", "lower", "left",  "small", "large",
                                             "main", "used",  "shift", "every"};
    return which.contains(word) || word.find_first_not_of("0123456789x") == std::string::npos;
}

/// How many words these words take from `at` on.
std::size_t matched(const Texts& words, std::size_t at, std::string_view what) {
    const Texts wanted = wordsOfPhrase(lowered(what));
    if (at + wanted.size() > words.size())
        return 0;
    for (std::size_t i = 0; i < wanted.size(); ++i)
        if (lowered(words[at + i]) != wanted[i])
            return 0;
    return wanted.size();
}

template <class Entry> struct Match {
    const Entry* entry = nullptr;
    std::string_view word;
    std::size_t length = 0;
};
template <class Entry>
Match<Entry> longestMatch(const std::vector<Entry>& all, const Texts& words, std::size_t at) {
    Match<Entry> best;
    for (const Entry& entry : all)
        for (const std::string_view word : entry.words)
            if (const std::size_t length = matched(words, at, word); length > best.length)
                best = {&entry, word, length};
    return best;
}

void join(std::string& text, const std::string& word) {
    text += (text.empty() ? "" : " ") + word;
}

/// Splits one phrase, word after word.
class PhraseReader {
  public:
    explicit PhraseReader(const std::string& phrase) : words_(wordsOfPhrase(phrase)) {
        read_.typed = phrase;
    }

    WorkPhrase read(const KindOfPart* before) {
        for (std::size_t at = 0; at < words_.size();)
            at += take(at);
        giveNames(before);
        return read_;
    }

  private:
    std::size_t take(std::size_t at) {
        const auto part = longestMatch(kindsOfPart(), words_, at);
        const auto action = longestMatch(workActions(), words_, at);
        if (part.length > 0 && part.length >= action.length && takePart(part))
            return part.length;
        if (action.length > 0) {
            takeAction(*action.entry);
            return action.length;
        }
        const std::string word = lowered(words_[at]);
        const bool afterPart = read_.part != nullptr;
        const bool name = afterPart && read_.part->hasName && word.size() == 1; // "solenoid a"
        if (name || !isFilling(word))
            other_.push_back({words_[at], afterPart});
        return 1;
    }

    /// A second part in one phrase belongs to the name of the first, or is unknown.
    bool takePart(const Match<KindOfPart>& part) {
        if (read_.part != nullptr)
            return false;
        read_.part = part.entry;
        read_.partWord = part.word;
        return true;
    }

    void takeAction(const WorkAction& action) {
        read_.actionFirst =
            read_.actionFirst || (read_.part == nullptr && other_.empty() && read_.actions.empty());
        const auto same = std::find(read_.actions.begin(), read_.actions.end(), &action);
        if (same == read_.actions.end())
            read_.actions.push_back(&action);
    }

    void giveNames(const KindOfPart* before) {
        const bool taken = read_.part == nullptr && before != nullptr && before->hasName;
        if (taken && !other_.empty()) { // "solenoids A and B": the second has no kind of its own
            read_.part = before;
            read_.partWord = before->name;
            for (OtherWord& word : other_)
                word.afterPart = true;
        }
        const bool named = read_.part != nullptr && read_.part->hasName;
        const bool after = std::any_of(other_.begin(), other_.end(),
                                       [](const auto& word) { return word.afterPart; });
        for (const auto& [word, afterPart] : other_)
            if (named && afterPart)
                join(read_.name, word);
            else if (saysWhich(lowered(word)))
                join(read_.which, lowered(word));
            else
                join(named && !after ? read_.name : read_.unknown, word);
    }

    struct OtherWord {
        std::string word;
        bool afterPart = false;
    };
    Texts words_;
    WorkPhrase read_;
    std::vector<OtherWord> other_;
};

template <class Entry> std::string listOfFirst(const std::vector<Entry>& all) {
    std::string list;
    for (const Entry& entry : all)
        list += (list.empty() ? "" : ", ") + std::string(entry.name);
    return list;
}

} // namespace

std::vector<std::string> wordsOfPhrase(const std::string& phrase) {
    Texts words;
    std::string word;
    for (const char c : phrase + " ") {
        if (c != ' ' && c != '\t') {
            word += c;
            continue;
        }
        if (!word.empty())
            words.push_back(word);
        word.clear();
    }
    return words;
}

std::vector<std::string> phrasesOf(const std::string& line) {
    const auto isDigit = [&](std::size_t at) {
        return at < line.size() && line[at] >= '0' && line[at] <= '9';
    };
    std::string cut;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const bool decimal = line[i] == ',' && i > 0 && isDigit(i - 1) && isDigit(i + 1);
        const bool stop = line[i] == '.' && (i + 1 == line.size() || line[i + 1] == ' ');
        cut += ((line[i] == ',' && !decimal) || line[i] == ';' || stop) ? std::string(" ; ")
                                                                        : std::string(1, line[i]);
    }
    Texts phrases(1);
    for (const std::string& word : wordsOfPhrase(cut)) {
        constexpr std::array<std::string_view, 5> parting{";", "and", "+", "&", "then"};
        if (std::find(parting.begin(), parting.end(), lowered(word)) != parting.end())
            phrases.emplace_back();
        else
            join(phrases.back(), word);
    }
    std::erase(phrases, "");
    return phrases;
}

WorkPhrase workPhrase(const std::string& phrase, const KindOfPart* before) {
    return PhraseReader(phrase).read(before);
}

std::string listOfParts() {
    return listOfFirst(kindsOfPart());
}

std::string listOfActions() {
    return listOfFirst(workActions());
}

} // namespace swarfbook
