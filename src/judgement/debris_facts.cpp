// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/debris_facts.h"

#include "judgement/debris_items.h"
#include "judgement/hand_tests.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <tuple>

namespace swarfbook {
namespace {

int amountRank(Amount amount) {
    // an amount that nobody stated is taken between a few and plenty
    constexpr std::array order{Amount::one, Amount::few, Amount::notSaid, Amount::plenty};
    return static_cast<int>(std::find(order.begin(), order.end(), amount) - order.begin());
}

/// What says most: amount, then size, then whether it went past the filter.
std::tuple<int, TradeSize, bool> weightOf(const DebrisItem& item) {
    return {amountRank(item.amount), sizeOf(item), item.place == Where::filterCleanSide};
}

/// Keeps the item that says most.
void keepWorst(const DebrisItem*& kept, const DebrisItem& item) {
    if (kept == nullptr || weightOf(item) > weightOf(*kept))
        kept = &item;
}

void sortMetal(const DebrisItem& item, DebrisFacts& facts) {
    if (sizeOf(item) == TradeSize::s0)
        return; // fines: they belong to the paste
    if (item.what == DebrisKind::yellowMetal)
        keepWorst(facts.yellow, item);
    else if (item.magnetic == Ferrous::no)
        keepWorst(facts.nonMagnetic, item);
    else
        keepWorst(facts.steel, item);
}

void sortPlastic(const DebrisItem& item, DebrisFacts& facts) {
    keepWorst(facts.plastic, item);
    facts.plasticKeepsBreaking |= item.burnt || item.seenBefore;
    if (item.part != PlasticPart::notSaid)
        facts.plasticPart = item.part;
    facts.plasticNeedsSource |=
        facts.plasticKeepsBreaking || item.amount == Amount::plenty || item.amount == Amount::few;
}

void sortItem(const DebrisItem& item, DebrisFacts& facts) {
    const bool inNarrowPlace = item.place == Where::screens || item.place == Where::filter ||
                               item.place == Where::filterCleanSide ||
                               item.place == Where::valveBody;
    facts.nearBorder |= item.nearPlenty && isMetal(item.what);
    if (isMetal(item.what))
        sortMetal(item, facts);
    if (item.what == DebrisKind::lining && frictionOf(item) >= facts.friction) {
        facts.friction = frictionOf(item);
        facts.lining = &item;
    }
    if (item.what == DebrisKind::plastic)
        sortPlastic(item, facts);
    if (item.what == DebrisKind::rubber)
        keepWorst(facts.rubber, item);
    if (item.what == DebrisKind::varnish)
        keepWorst(facts.varnish, item);
    if (item.what == DebrisKind::rust)
        keepWorst(facts.rust, item);
    const bool foreign = item.what == DebrisKind::lint || item.what == DebrisKind::sealant;
    if (foreign && inNarrowPlace && !item.fromPhoto)
        keepWorst(facts.earlierWork, item);
}

bool isBright(const DebrisItem& item) {
    return item.what == DebrisKind::brightMetal;
}

/// A magnet under the paper and pliers separate bright metals when the items did not say.
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

/// Large pieces of which no photo shows what they are, once a hand has found it out.
/// @return whether any are left of which nobody knows
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

/// Pieces that the fingers feel in what looks like paste, once magnet or pliers say what they are.
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

/// Takes out what photos show as metal and a hand does not, with the reason.
void takeOutContradicted(const VisitFindings& findings, std::vector<DebrisItem>& items,
                         DebrisFacts& facts) {
    std::erase_if(items, [&](const DebrisItem& item) {
        if (!item.fromPhoto || !isMetal(item.what))
            return false;
        const std::string why = HandTests(findings, item.place).contradiction(sizeOf(item));
        if (!why.empty())
            facts.contradicted.push_back(
                fmt::format("{} By hand it is no metal: {}.", item.sentence, why));
        return !why.empty();
    });
}

/// What the eye takes for metal and crumbles in the pliers is lining, where it is the only thing
/// there that can be picked up. A machined face is metal whatever else crumbles.
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

/// Fluid that glitters carries metal too fine to settle.
void addGlitter(const FluidSeen& fluid, std::vector<DebrisItem>& items) {
    if (fluid.glitter != Glitter::silver && fluid.glitter != Glitter::gold)
        return;
    DebrisItem item;
    item.place = Where::fluid;
    item.what = fluid.glitter == Glitter::gold ? DebrisKind::yellowMetal : DebrisKind::brightMetal;
    item.size = TradeSize::s1;
    item.amount = Amount::plenty;
    item.sentence = fmt::format("The drained fluid glitters {}.", wordOf(fluid.glitter));
    items.push_back(item);
}

/// Metal of S3 and above. A photo alone proves it only where a piece above 3 mm is beyond doubt;
/// else a hand has to confirm it.
void findStops(const VisitFindings& findings, DebrisFacts& facts) {
    long large = 0;
    const DebrisItem* first = nullptr;
    for (const DebrisItem& item : facts.items) {
        if (!isMetal(item.what) || sizeOf(item) < TradeSize::s3)
            continue;
        const HandTests byHand(findings, item.place);
        if (!item.fromPhoto || byHand.confirmMetal() || item.beyondDoubt) {
            keepWorst(facts.stopMetal, item);
        } else if (!byHand.staysOffMagnet()) {
            large += item.count;
            keepWorst(first, item);
        }
    }
    // one piece that the technician knows as left from manufacture is what the photo shows
    if (facts.stopMetal == nullptr && first != nullptr && !(large == 1 && !facts.leftOvers.empty()))
        facts.doubtfulStop = first;
}

void readFluid(const VisitFindings& findings, DebrisFacts& facts) {
    facts.fluidTold = findings.fluidTold;
    facts.milky = findings.fluid.milky == true;
    facts.milkyTold = findings.fluid.milky.has_value();
    facts.burntSmell = findings.fluid.smell == Smell::burnt;
}

void readCoat(const VisitFindings& findings, const PhotoDebris& photos, DebrisFacts& facts) {
    facts.coat = photos.coat;
    facts.coatSentence = photos.coatSentence;
    for (const DebrisSeen& seen : findings.debris) {
        if (!seen.coat)
            continue;
        facts.coat = facts.coat ? std::max(*facts.coat, *seen.coat) : *seen.coat;
        facts.coatSentence = fmt::format("The magnet has {}.", coatInWords(*seen.coat));
    }
}

std::vector<DebrisItem> allItems(const VisitFindings& findings, const PhotoDebris& photos,
                                 const SuggestionModel& model, DebrisFacts& facts) {
    std::vector<DebrisItem> items = photos.items;
    for (const DebrisSeen& seen : findings.debris) {
        facts.places.push_back(seen.place);
        items.push_back(itemOf(seen, findings.history.firstOpening, model));
    }
    crumbledByHand(findings, items);
    addGlitter(findings.fluid, items);
    applyHandTests(findings, items);
    takeOutContradicted(findings, items, facts);
    facts.unidentifiedLarge = settleUndecided(findings, photos, items);
    addFelt(findings, items);
    return items;
}

} // namespace

std::unique_ptr<DebrisFacts> debrisFacts(const VisitEvidence& visit, const VisitFindings& findings,
                                         const SuggestionModel& model, ReadAt readAt) {
    auto facts = std::make_unique<DebrisFacts>();
    const PhotoDebris photos = debrisOfPhotos(visit, model, readAt);
    facts->places = photos.places;
    facts->retake = photos.retake;
    facts->notKnown = photos.notKnown;
    for (DebrisItem& item : allItems(findings, photos, model, *facts))
        (item.leftOver ? facts->leftOvers : facts->items).push_back(item);
    facts->feel = findings.worstFeel();
    readFluid(findings, *facts);
    readCoat(findings, photos, *facts);
    facts->inspected = !facts->places.empty();
    for (const DebrisItem& item : facts->items)
        sortItem(item, *facts);
    facts->plasticNeedsSource &= facts->plasticPart == PlasticPart::notSaid;
    findStops(findings, *facts);
    facts->panClean = facts->placeSeen(Where::pan) &&
                      std::none_of(facts->items.begin(), facts->items.end(), [](const auto& item) {
                          return item.place == Where::pan && item.what != DebrisKind::clean &&
                                 item.what != DebrisKind::film;
                      });
    return facts;
}

} // namespace swarfbook
