// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/debris_by_hand.h"

#include "judgement/debris_items.h"
#include "judgement/hand_tests.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace swarfbook {
namespace {

bool isBright(const DebrisItem& item) {
    return item.what == DebrisKind::brightMetal;
}

/// What a hand found out about pieces: metal by magnet or pliers, lining where it crumbles; nothing
/// where neither was tried.
std::optional<DebrisItem> itemByHand(const VisitFindings& findings, Where place) {
    const HandTests byHand(findings, place);
    if (!byHand.metalByTool() && !byHand.crumbles())
        return std::nullopt;
    DebrisItem item;
    item.place = place;
    item.what = byHand.metalByTool() ? DebrisKind::brightMetal : DebrisKind::lining;
    item.magnetic = byHand.metalByTool() ? byHand.magnetic() : Ferrous::notKnown;
    return item;
}

} // namespace

void applyHandTests(const VisitFindings& findings, std::vector<DebrisItem>& items) {
    for (DebrisItem& item : items) {
        if (!isBright(item))
            continue;
        const HandTests byHand(findings, item.place);
        // what the magnet itself holds is ferrous, whatever else stays on the paper
        if (item.magnetic == Ferrous::notKnown && item.place == Where::magnet && !item.fromPhoto)
            item.magnetic = Ferrous::yes;
        if (item.magnetic == Ferrous::notKnown)
            item.magnetic = byHand.magnetic();
        if (item.magnetic == Ferrous::no && item.amount == Amount::notSaid)
            item.amount = byHand.share();
    }
    if (std::any_of(items.begin(), items.end(), isBright))
        return;
    for (const MagnetTest& test : findings.magnet) {
        if (test.result != MagnetMoves::stays || test.share == Amount::notSaid)
            continue;
        DebrisItem item;
        item.place = test.place.value_or(Where::pad);
        item.what = DebrisKind::brightMetal;
        item.size = TradeSize::s1;
        item.magnetic = Ferrous::no;
        item.amount = test.share;
        item.sentence = "Bright pieces stay where they are when a magnet passes under the paper.";
        items.push_back(item);
    }
}

bool settleUndecided(const VisitFindings& findings, const PhotoDebris& photos,
                     std::vector<DebrisItem>& items) {
    bool left = false;
    for (const auto& [place, count] : photos.unidentifiedLarge) {
        std::optional<DebrisItem> item = itemByHand(findings, place);
        if (!item) {
            left |= HandTests(findings, place).contradiction(TradeSize::s3).empty();
            continue;
        }
        item->size = TradeSize::s3;
        item->count = count;
        item->amount = count == 1 ? Amount::one : Amount::few;
        item->sentence =
            fmt::format("{} that the photo leaves open {} by hand.",
                        count == 1 ? "A large piece" : fmt::format("{} large pieces", count),
                        item->what == DebrisKind::lining ? "crumbles, as lining does,"
                        : count == 1                     ? "is metal"
                                                         : "are metal");
        items.push_back(*item);
    }
    return left;
}

void addFelt(const VisitFindings& findings, std::vector<DebrisItem>& items) {
    for (const FingerTest& test : findings.finger) {
        const Where place = test.place.value_or(Where::pan);
        const bool seen = std::any_of(items.begin(), items.end(), [](const DebrisItem& item) {
            return isMetal(item.what) ||
                   (item.what == DebrisKind::lining && frictionOf(item) == Friction::pieces);
        });
        if (test.feel != Feel::felt || seen)
            continue;
        std::optional<DebrisItem> item = itemByHand(findings, place);
        if (!item)
            continue;
        const bool metal = item->what == DebrisKind::brightMetal;
        item->size = metal ? TradeSize::s1 : TradeSize::s2;
        item->sentence = metal ? "Pieces that can be felt are metal by magnet or pliers."
                               : "Pieces that can be felt crumble in the pliers, as lining does.";
        items.push_back(*item);
    }
}

void takeOutContradicted(const VisitFindings& findings, std::vector<DebrisItem>& items,
                         std::vector<std::string>& reasons) {
    std::erase_if(items, [&](const DebrisItem& item) {
        if (!item.fromPhoto || !isMetal(item.what))
            return false;
        const std::string why = HandTests(findings, item.place).contradiction(sizeOf(item));
        if (!why.empty())
            reasons.push_back(fmt::format("{} By hand it is not metal: {}.", item.sentence, why));
        return !why.empty();
    });
}

void crumbledByHand(const VisitFindings& findings, std::vector<DebrisItem>& items) {
    for (DebrisItem& item : items) {
        const HandTests byHand(findings, item.place);
        const auto pieces = std::count_if(items.begin(), items.end(), [&](const DebrisItem& other) {
            return other.place == item.place &&
                   (!isFine(other) || other.what == DebrisKind::lining);
        });
        if (item.fromPhoto || !isMetal(item.what) || item.machinedFace || item.leftOver ||
            pieces != 1 || !byHand.crumbles() || byHand.confirmMetal())
            continue;
        item.sentence += " It crumbles in the pliers: by hand it is lining, no metal.";
        item.what = DebrisKind::lining;
        item.magnetic = Ferrous::notKnown;
    }
}

} // namespace swarfbook
