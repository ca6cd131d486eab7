// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/debris_items.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

std::string kindWords(DebrisKind kind) {
    std::string words(wordOf(kind));
    std::replace(words.begin(), words.end(), '-', ' ');
    return words;
}

std::string placeWords(Where place) {
    std::string words(wordOf(place));
    std::replace(words.begin(), words.end(), '-', ' ');
    return words;
}

/// A plug, a casting curl or grit is left from manufacture if it is single, not burnt and found at
/// the first opening.
bool isLeftOver(const DebrisSeen& seen, bool firstOpening) {
    if (seen.burnt || seen.seenBefore || seen.machinedFace)
        return false;
    const bool harmlessKind = seen.what == DebrisKind::plastic ||
                              seen.what == DebrisKind::swarfCurl || seen.what == DebrisKind::grit;
    return seen.assemblyLeftOver || (firstOpening && harmlessKind && seen.amount == Amount::one);
}

} // namespace

bool isMetal(DebrisKind kind) {
    return kind == DebrisKind::brightMetal || kind == DebrisKind::yellowMetal ||
           kind == DebrisKind::swarfCurl;
}

TradeSize sizeOf(const DebrisItem& item) {
    if (item.machinedFace && isMetal(item.what))
        return TradeSize::s4;
    return item.size.value_or(TradeSize::s1);
}

DebrisItem itemOf(const DebrisSeen& seen, bool firstOpening, const SuggestionModel& model) {
    DebrisItem item;
    item.place = seen.place;
    item.what = seen.what;
    item.size = seen.size;
    item.amount = seen.amount;
    item.magnetic = seen.magnetic;
    item.machinedFace = seen.machinedFace;
    item.paperTexture = seen.paperTexture;
    item.burnt = seen.burnt;
    item.seenBefore = seen.seenBefore;
    item.part = seen.part;
    item.leftOver = isLeftOver(seen, firstOpening);
    item.sentence =
        fmt::format("There is {}{}{}{} ({}).", amountWords(seen.amount), kindWords(seen.what),
                    seen.size ? " of " + sizeWords(*seen.size, model) : "",
                    seen.machinedFace ? " with a machined face" : "", placeWords(seen.place));
    return item;
}

Friction frictionOf(const DebrisItem& item) {
    const TradeSize size = item.size.value_or(TradeSize::s0);
    // a single dark speck in a photo is not torn lining yet; by eye and hand it is
    const bool torn = item.fromPhoto ? size >= TradeSize::s3 ||
                                           (size == TradeSize::s2 && item.amount == Amount::plenty)
                                     : size >= TradeSize::s2;
    if (item.paperTexture || torn)
        return Friction::pieces;
    return item.amount == Amount::plenty ? Friction::heavy : Friction::silt;
}

bool isFine(const DebrisItem& item) {
    const bool soft = item.what == DebrisKind::clean || item.what == DebrisKind::film ||
                      item.what == DebrisKind::paste;
    return soft ||
           (item.what == DebrisKind::lining && frictionOf(item) == Friction::silt &&
            item.size.value_or(TradeSize::s0) == TradeSize::s0) ||
           item.size == TradeSize::s0;
}

std::string amountWords(Amount amount) {
    switch (amount) {
    case Amount::one:
        return "one piece of ";
    case Amount::few:
        return "a little ";
    case Amount::plenty:
        return "plenty of ";
    case Amount::notSaid:
        break;
    }
    return "";
}

} // namespace swarfbook
