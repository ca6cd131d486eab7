// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/debris_facts.h"

#include "base/shown_units.h"
#include "judgement/coat_of_magnet.h"
#include "judgement/debris_by_hand.h"
#include "judgement/debris_items.h"
#include "judgement/hand_tests.h"
#include "judgement/visit_samples.h"

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

/// What gathered the coat, over which distance, and that a full magnet gathers no more.
std::string aboutTheMagnet(const VisitFindings& findings, const std::optional<Kilometres>& since,
                           bool full) {
    std::string words = magnetsWords(findings.magnets);
    if (!words.empty())
        words = fmt::format(" It was gathered by {}{}.", words,
                            since ? " over " + distanceWords(since->value()) : "");
    return full ? words + " " + fullMagnetSentence() : words;
}

void readCoat(const VisitFindings& findings, const PhotoDebris& photos,
              const std::optional<Kilometres>& since, DebrisFacts& facts) {
    bool full = photos.magnetFull;
    facts.coat = photos.coat;
    facts.coatSentence = photos.coatSentence;
    for (const DebrisSeen& seen : findings.debris) {
        if (!seen.coat)
            continue;
        facts.coat = facts.coat ? std::max(*facts.coat, *seen.coat) : *seen.coat;
        full = full || *seen.coat >= Coat::f3;
        facts.coatSentence = fmt::format("The magnet has {}.", coatInWords(*seen.coat));
    }
    if (!facts.coatSentence.empty())
        facts.coatSentence += aboutTheMagnet(findings, since, full);
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
    takeOutContradicted(findings, items, facts.contradicted);
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
    readCoat(findings, photos, sinceClean(visit), *facts);
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

namespace {

/// Where the classes of the trade begin, mm.
std::array<double, 5> classLimits(const SuggestionModel& model) {
    return {0.0, model.s1From.value(), model.s2From.value(), model.s3From.value(),
            model.s4From.value()};
}

} // namespace

std::string sizeWords(TradeSize size, const SuggestionModel& model) {
    const auto from = classLimits(model);
    const auto i = static_cast<std::size_t>(size);
    if (size == TradeSize::s0)
        return fmt::format("less than {:g} mm", from[1]);
    return size == TradeSize::s4 ? fmt::format("more than {:g} mm", from[4])
                                 : fmt::format("{:g} to {:g} mm", from[i], from[i + 1]);
}

std::string leastSizeWords(TradeSize size, const SuggestionModel& model) {
    return size == TradeSize::s0 ? sizeWords(size, model)
                                 : fmt::format("{:g} mm or longer",
                                               classLimits(model)[static_cast<std::size_t>(size)]);
}

} // namespace swarfbook
