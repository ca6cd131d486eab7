// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/debris_facts.h"

#include "judgement/visit_samples.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>

namespace swarfbook {
namespace {

bool isMetal(DebrisKind kind) {
    return kind == DebrisKind::brightMetal || kind == DebrisKind::yellowMetal ||
           kind == DebrisKind::swarfCurl;
}

TradeSize sizeOf(const DebrisItem& item) {
    if (item.machinedFace && isMetal(item.what))
        return TradeSize::s4;
    return item.size.value_or(TradeSize::s1);
}

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

/// A plug, a casting curl or grit, once, at the first opening, not burnt: left from manufacture.
bool isLeftOver(const DebrisSeen& seen, bool firstOpening) {
    if (seen.burnt || seen.seenBefore || seen.machinedFace)
        return false;
    const bool harmlessKind = seen.what == DebrisKind::plastic ||
                              seen.what == DebrisKind::swarfCurl || seen.what == DebrisKind::grit;
    return seen.assemblyLeftOver || (firstOpening && harmlessKind && seen.amount == Amount::one);
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
    item.leftOver = isLeftOver(seen, firstOpening);
    item.sentence =
        fmt::format("There is {}{}{}{} ({}).", amountWords(seen.amount), kindWords(seen.what),
                    seen.size ? " of " + sizeWords(*seen.size, model) : "",
                    seen.machinedFace ? " with a machined face" : "", placeWords(seen.place));
    return item;
}

int amountRank(Amount amount) {
    // an amount that nobody stated is taken between a few and plenty
    constexpr std::array order{Amount::one, Amount::few, Amount::notSaid, Amount::plenty};
    return static_cast<int>(std::find(order.begin(), order.end(), amount) - order.begin());
}

/// Keeps the item that says most: by amount, then by size.
void keepWorst(const DebrisItem*& kept, const DebrisItem& item) {
    if (kept == nullptr || amountRank(item.amount) > amountRank(kept->amount) ||
        (item.amount == kept->amount && sizeOf(item) > sizeOf(*kept)))
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

Friction frictionOf(const DebrisItem& item) {
    const TradeSize size = item.size.value_or(TradeSize::s0);
    // in a photo a single dark speck is no torn lining yet; by eye and hand it is
    const bool torn = item.fromPhoto ? size >= TradeSize::s3 ||
                                           (size == TradeSize::s2 && item.amount == Amount::plenty)
                                     : size >= TradeSize::s2;
    if (item.paperTexture || torn)
        return Friction::pieces;
    return item.amount == Amount::plenty ? Friction::heavy : Friction::silt;
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
    if (item.what == DebrisKind::plastic) {
        keepWorst(facts.plastic, item);
        facts.plasticNeedsSource |= item.burnt || item.seenBefore ||
                                    item.amount == Amount::plenty || item.amount == Amount::few;
    }
    if (item.what == DebrisKind::rubber)
        keepWorst(facts.rubber, item);
    if (item.what == DebrisKind::varnish)
        keepWorst(facts.varnish, item);
    const bool foreign = item.what == DebrisKind::lint || item.what == DebrisKind::sealant;
    if (foreign && inNarrowPlace && !item.fromPhoto)
        keepWorst(facts.earlierWork, item);
}

/// A magnet under the paper and pliers tell bright metal apart when the items did not say.
void applyMagnetTest(const VisitEvidence& visit, std::vector<DebrisItem>& items) {
    const auto* magnet = latest<MagnetTest>(visit);
    const auto* squeeze = latest<SqueezeTest>(visit);
    const bool aluminium =
        (magnet != nullptr && magnet->result == MagnetMoves::stays) ||
        (magnet == nullptr && squeeze != nullptr && squeeze->result == Squeezed::bends);
    const bool steel = magnet != nullptr && magnet->result == MagnetMoves::moves;
    bool anyBright = false;
    for (DebrisItem& item : items) {
        if (item.what != DebrisKind::brightMetal)
            continue;
        anyBright = true;
        // what the magnet itself holds is ferrous, whatever else stays on the paper
        if (item.magnetic == Ferrous::notKnown && item.place == Where::magnet && !item.fromPhoto)
            item.magnetic = Ferrous::yes;
        if (item.magnetic == Ferrous::notKnown && (aluminium || steel))
            item.magnetic = aluminium ? Ferrous::no : Ferrous::yes;
        if (item.magnetic == Ferrous::no && item.amount == Amount::notSaid && magnet != nullptr)
            item.amount = magnet->share;
    }
    if (!anyBright && magnet != nullptr && magnet->result == MagnetMoves::stays &&
        magnet->share != Amount::notSaid) {
        DebrisItem item;
        item.place = Where::pad;
        item.what = DebrisKind::brightMetal;
        item.size = TradeSize::s1;
        item.magnetic = Ferrous::no;
        item.amount = magnet->share;
        item.sentence = "Bright pieces stay where they are when a magnet passes under the paper.";
        items.push_back(item);
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

void findStops(DebrisFacts& facts, bool feltOrMoved, const SuggestionModel& model) {
    long large = 0;
    const DebrisItem* first = nullptr;
    std::vector<Where> placesWithMetal;
    for (const DebrisItem& item : facts.items) {
        if (!isMetal(item.what) || sizeOf(item) < TradeSize::s3)
            continue;
        if (!item.fromPhoto) {
            keepWorst(facts.stopMetal, item);
            continue;
        }
        large += item.count;
        keepWorst(first, item);
        if (std::find(placesWithMetal.begin(), placesWithMetal.end(), item.place) ==
            placesWithMetal.end())
            placesWithMetal.push_back(item.place);
    }
    if (facts.stopMetal != nullptr || first == nullptr)
        return;
    // one piece that the technician knows as left from manufacture is what the photo shows
    if (large == 1 && !facts.leftOvers.empty())
        return;
    const bool secondLine = feltOrMoved || placesWithMetal.size() > 1;
    (secondLine || large >= model.provenByPhotoFrom ? facts.stopMetal : facts.doubtfulStop) = first;
}

/// Hand evidence that what a photo shows is metal indeed.
bool handConfirmsMetal(const VisitEvidence& visit, const DebrisFacts& facts) {
    const auto* magnet = latest<MagnetTest>(visit);
    const auto* squeeze = latest<SqueezeTest>(visit);
    return facts.feel == Feel::felt ||
           (magnet != nullptr && magnet->result == MagnetMoves::moves) ||
           (squeeze != nullptr && squeeze->result != Squeezed::crumbles);
}

void readFluid(const VisitEvidence& visit, DebrisFacts& facts) {
    for (const Observation& observation : visit.observations)
        if (const auto* fluid = std::get_if<FluidSeen>(&observation)) {
            facts.fluidTold = true;
            if (fluid->milky)
                facts.milky = *fluid->milky;
            if (fluid->smell != Smell::notSaid)
                facts.burntSmell = fluid->smell == Smell::burnt;
        }
}

void readCoat(const VisitEvidence& visit, const PhotoDebris& photos, DebrisFacts& facts) {
    facts.coat = photos.coat;
    facts.coatSentence = photos.coatSentence;
    for (const Observation& observation : visit.observations) {
        const auto* seen = std::get_if<DebrisSeen>(&observation);
        if (seen == nullptr || !seen->coat)
            continue;
        facts.coat = facts.coat ? std::max(*facts.coat, *seen->coat) : *seen->coat;
        facts.coatSentence = fmt::format("The magnet's coat is {}.", wordOf(*seen->coat));
    }
}

std::vector<DebrisItem> allItems(const VisitEvidence& visit, const PhotoDebris& photos,
                                 const SuggestionModel& model, DebrisFacts& facts) {
    std::vector<DebrisItem> items = photos.items;
    bool firstOpening = false;
    for (const Observation& observation : visit.observations)
        if (const auto* history = std::get_if<History>(&observation))
            firstOpening |= history->firstOpening;
    for (const Observation& observation : visit.observations) {
        if (const auto* seen = std::get_if<DebrisSeen>(&observation)) {
            facts.places.push_back(seen->place);
            items.push_back(itemOf(*seen, firstOpening, model));
        } else if (const auto* fluid = std::get_if<FluidSeen>(&observation)) {
            addGlitter(*fluid, items);
        }
    }
    applyMagnetTest(visit, items);
    return items;
}

} // namespace

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

bool DebrisFacts::placeSeen(Where place) const {
    return std::find(places.begin(), places.end(), place) != places.end();
}

bool DebrisFacts::onlyFinesOrSpecks() const {
    if (!inspected || stopMetal != nullptr || doubtfulStop != nullptr || undecidedLarge ||
        friction >= Friction::heavy || milky)
        return false;
    for (const DebrisItem& item : items)
        if (isMetal(item.what) && sizeOf(item) >= TradeSize::s2)
            return false;
    return true;
}

std::unique_ptr<DebrisFacts> debrisFacts(const VisitEvidence& visit, const SuggestionModel& model,
                                         ReadAt readAt) {
    auto facts = std::make_unique<DebrisFacts>();
    const PhotoDebris photos = debrisOfPhotos(visit, model, readAt);
    facts->places = photos.places;
    facts->retake = photos.retake;
    facts->notKnown = photos.notKnown;
    for (DebrisItem& item : allItems(visit, photos, model, *facts))
        (item.leftOver ? facts->leftOvers : facts->items).push_back(item);
    if (const auto* finger = latest<FingerTest>(visit))
        facts->feel = finger->feel;
    readFluid(visit, *facts);
    readCoat(visit, photos, *facts);
    facts->inspected = !facts->places.empty();
    facts->undecidedLarge = photos.undecidedLarge > 0 && !handConfirmsMetal(visit, *facts);
    for (const DebrisItem& item : facts->items)
        sortItem(item, *facts);
    const auto* squeeze = latest<SqueezeTest>(visit);
    const bool crumbles = squeeze != nullptr && squeeze->result == Squeezed::crumbles;
    findStops(*facts, handConfirmsMetal(visit, *facts), model);
    if (crumbles) { // lining or dirt, whatever it looks like
        facts->doubtfulStop = nullptr;
        facts->undecidedLarge = false;
    }
    facts->panClean = facts->placeSeen(Where::pan) &&
                      std::none_of(facts->items.begin(), facts->items.end(), [](const auto& item) {
                          return item.place == Where::pan && item.what != DebrisKind::clean &&
                                 item.what != DebrisKind::film;
                      });
    return facts;
}

} // namespace swarfbook
