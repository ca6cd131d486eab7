// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/debris_facts.h"
#include "judgement/debris_items.h"

#include <algorithm>

namespace swarfbook {

bool DebrisFacts::placeSeen(Where place) const {
    return std::find(places.begin(), places.end(), place) != places.end();
}

bool DebrisFacts::onlyFinesOrSpecks() const {
    if (!inspected || stopMetal != nullptr || doubtfulStop != nullptr || unidentifiedLarge ||
        friction >= Friction::heavy || milky)
        return false;
    for (const DebrisItem& item : items)
        if (isMetal(item.what) && sizeOf(item) >= TradeSize::s2)
            return false;
    return true;
}

bool DebrisFacts::onlyFines() const {
    return onlyFinesOrSpecks() && feel != Feel::felt && feel != Feel::grit &&
           std::all_of(items.begin(), items.end(), isFine);
}

bool DebrisFacts::beyondThePan() const {
    return std::any_of(items.begin(), items.end(), [](const DebrisItem& item) {
        return item.what != DebrisKind::clean &&
               (item.place == Where::filterCleanSide || item.place == Where::screens ||
                item.place == Where::valveBody || item.place == Where::coolerReturn ||
                item.place == Where::converterDrain);
    });
}

} // namespace swarfbook
