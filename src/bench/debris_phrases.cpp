// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/typed_observation.h"

#include <algorithm>
#include <array>
#include <optional>
#include <sstream>
#include <stdexcept>

namespace swarfbook {
namespace {

/// A word for a shape or a metal, with the facts it adds to the kind. Common practice, no source.
struct TradeWord {
    std::string_view word;
    std::optional<DebrisKind> kind; ///< if nothing else says it
    std::optional<TradeSize> size;
    Ferrous magnetic = Ferrous::notKnown;
};
constexpr auto metal = DebrisKind::brightMetal;
const std::array<TradeWord, 26> tradeWords{{{"flake", metal, TradeSize::s2},
                                            {"flakes", metal, TradeSize::s2},
                                            {"glitter", metal, TradeSize::s1},
                                            {"sparkle", metal, TradeSize::s1},
                                            {"sparkles", metal, TradeSize::s1},
                                            {"speck", metal, TradeSize::s1},
                                            {"specks", metal, TradeSize::s1},
                                            {"chip", metal, TradeSize::s4},
                                            {"chips", metal, TradeSize::s4},
                                            {"chunk", metal, TradeSize::s4},
                                            {"chunks", metal, TradeSize::s4},
                                            {"sliver", metal, TradeSize::s3},
                                            {"slivers", metal, TradeSize::s3},
                                            {"hairs", metal, TradeSize::s3},
                                            {"shavings", metal, TradeSize::s3},
                                            {"pieces", {}, {}},
                                            {"piece", {}, {}},
                                            {"material", {}, {}},
                                            {"crumbs", {}, {}},
                                            {"grey", {}, {}},
                                            {"gray", {}, {}},
                                            {"fine", {}, {}},
                                            {"aluminium", metal, {}, Ferrous::no},
                                            {"aluminum", metal, {}, Ferrous::no},
                                            {"iron", metal, {}, Ferrous::yes},
                                            {"of", {}, {}}}};

const TradeWord* tradeWord(const std::string& word) {
    const auto found = std::find_if(tradeWords.begin(), tradeWords.end(),
                                    [&](const TradeWord& known) { return known.word == word; });
    return found == tradeWords.end() ? nullptr : &*found;
}

} // namespace

void readDebrisWords(const std::string& words, DebrisSeen& into) {
    if (const auto* whole = tradeWord(wordAsTyped(words)); whole == nullptr || !whole->kind)
        if (const auto kind = maybeFromWord<DebrisKind>(words)) {
            into.what = *kind;
            return;
        }
    std::optional<DebrisKind> named, implied;
    std::istringstream each(words);
    for (std::string word; each >> word;) {
        const std::string plain = wordAsTyped(word);
        const TradeWord* trade = tradeWord(plain);
        if (trade == nullptr) {
            if (const auto amount = maybeFromWord<Amount>(plain); amount && !named)
                into.amount = *amount;
            else
                named = fromWord<DebrisKind>(named ? words : word);
            continue;
        }
        implied = implied ? implied : trade->kind;
        into.size = trade->size ? trade->size : into.size;
        into.magnetic = trade->magnetic != Ferrous::notKnown ? trade->magnetic : into.magnetic;
    }
    if (!named && !implied)
        named = fromWord<DebrisKind>(words); // refuses the text
    into.what = named ? *named : *implied;
}

std::string_view coatInWords(Coat coat) {
    switch (coat) {
    case Coat::f0:
        return "no coat";
    case Coat::f1:
        return "a thin coat";
    case Coat::f2:
        return "a coat that covers it";
    case Coat::f3:
        return "a coat that hides its outline";
    case Coat::f4:
        return "a beard of fuzz";
    }
    throw std::logic_error("a coat without words");
}

} // namespace swarfbook
