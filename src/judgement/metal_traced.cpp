// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/metal_traced.h"

#include "judgement/debris_items.h"
#include "judgement/rules.h"

#include <algorithm>

namespace swarfbook {
namespace {

bool fewAtMost(const DebrisItem* item) {
    return item == nullptr || !inQuantity(*item);
}

bool anyMetalAt(const DebrisFacts& d, Where place) {
    return std::any_of(d.items.begin(), d.items.end(), [&](const DebrisItem& item) {
        return item.place == place && isMetal(item.what);
    });
}

bool onlyDustInFilter(const DebrisFacts& d) {
    return d.placeSeen(Where::filter) &&
           std::all_of(d.items.begin(), d.items.end(), [](const DebrisItem& item) {
               return item.place != Where::filter || isFine(item);
           });
}

bool felt(const DebrisFacts& d) {
    return d.feel == Feel::felt || d.feel == Feel::grit;
}

/// No metal larger than specks.
bool specksAtMost(const DebrisFacts& d) {
    return std::none_of(d.items.begin(), d.items.end(), [](const DebrisItem& item) {
        return isMetal(item.what) && sizeOf(item) >= TradeSize::s2;
    });
}

} // namespace

bool onlyAFewMetal(const DebrisFacts& d) {
    return fewAtMost(d.yellow) && fewAtMost(d.nonMagnetic) && fewAtMost(d.steel);
}

bool tracedToNothing(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    const bool steelKnown = d.steel == nullptr || d.steel->magnetic == Ferrous::yes;
    return d.anyMetal() && !onlyAFewMetal(d) && specksAtMost(d) && steelKnown &&
           onlyDustInFilter(d) && d.feel && !felt(d) && !anyMetalAt(d, Where::fluid) &&
           !d.beyondThePan() && facts.symptoms.driveTold &&
           (d.yellow == nullptr ||
            (facts.endPlay == EndPlay::normal && facts.converterDrainDirty != true)) &&
           (d.nonMagnetic == nullptr || facts.converterDrainDirty == false);
}

bool metalMayBeCleaned(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    if (d.stopMetal != nullptr || d.doubtfulStop != nullptr || d.unidentifiedLarge)
        return false;
    if (onlyAFewMetal(d) || tracedToNothing(facts))
        return true;
    return fewAtMost(d.yellow) && fewAtMost(d.nonMagnetic) && d.steel->magnetic == Ferrous::yes &&
           specksAtMost(d) && !felt(d);
}

} // namespace swarfbook
