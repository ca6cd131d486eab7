// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/poisson.h"
#include "judgement/coat_history.h"
#include "judgement/coat_of_magnet.h"
#include "judgement/debris_facts.h"
#include "judgement/hand_tests.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace swarfbook {
namespace {

Where whereOf(const DebrisSample& photo) {
    switch (photo.place) {
    case Place::pan:
        return Where::pan;
    case Place::magnet:
        return Where::magnet;
    case Place::filter:
        return photo.basis.side == FilterSide::clean ? Where::filterCleanSide : Where::filter;
    case Place::tray:
        return Where::tray;
    case Place::strained:
        return Where::strained;
    case Place::pad:
        break;
    }
    return Where::pad;
}

/// Class by longest side, taken low by two standard uncertainties: near a border the smaller class
/// counts. A piece long and thin counts as a sliver from the S3 border of length on.
TradeSize tradeSize(const Particle& p, const SuggestionModel& m, End end) {
    const Millimetres apart = p.maxFeret.standardUncertainty * 2.0;
    const Millimetres sure = end == End::high ? p.maxFeret.value + apart : p.maxFeret.value - apart;
    if (sure >= m.s4From)
        return TradeSize::s4;
    if (sure >= m.s3From)
        return TradeSize::s3;
    if (sure >= m.s2From)
        return TradeSize::s2;
    return sure >= m.s1From ? TradeSize::s1 : TradeSize::s0;
}

/// What a piece surely is. Lint counts for nothing, and nor does what is no debris at all.
std::optional<DebrisKind> kindOf(const Particle& p, const SuggestionModel& m) {
    if ((p.type == ParticleType::fibre ? p.typeProbability : p.chanceOfType()) < m.sureOfType)
        return std::nullopt;
    switch (p.type) {
    case ParticleType::brightMetal:
        return DebrisKind::brightMetal;
    case ParticleType::yellowMetal:
        return DebrisKind::yellowMetal;
    case ParticleType::lining:
        return DebrisKind::lining;
    case ParticleType::plastic:
        return DebrisKind::plastic;
    case ParticleType::fibre:
        return DebrisKind::lint;
    case ParticleType::unidentified:
        break;
    }
    return std::nullopt;
}

Amount amountOf(long count, const SuggestionModel& m) {
    if (count == 1)
        return Amount::one;
    return count >= m.plentyFrom ? Amount::plenty : Amount::few;
}

std::string photoOf(const DebrisSample& photo) {
    if (photo.place == Place::filter && photo.basis.side)
        return fmt::format("The photo of the filter's {} side", filterSideName(*photo.basis.side));
    return photo.place == Place::pad ? "The photo of the spread sample"
                                     : fmt::format("The photo of the {}", placeWord(photo.place));
}

/// What a magnet that was drawn over the place made of them.
std::string sweptWords(const DebrisItem& item) {
    if (item.magnetic == Ferrous::notKnown)
        return "";
    const bool one = item.count == 1;
    return item.magnetic == Ferrous::yes ? fmt::format("; a magnet took {}", one ? "it" : "them")
                                         : fmt::format("; a magnet left {}", one ? "it" : "them");
}

/// A piece that is classed by the low end of its length is at least as long as its class says.
std::string itemSentence(const DebrisItem& item, const DebrisSample& photo,
                         const SuggestionModel& model) {
    const auto limits = poissonInterval95(item.count);
    std::string kind(wordOf(item.what));
    std::replace(kind.begin(), kind.end(), '-', ' ');
    return fmt::format("{} shows {} piece{} of {}, {} (95 %: {:.0f} to {:.0f} pieces){}.",
                       photoOf(photo), item.count, item.count == 1 ? "" : "s", kind,
                       leastSizeWords(*item.size, model), limits[0], limits[1],
                       photo.place == Place::magnet ? "" : sweptWords(item));
}

/// Of bright metal alone a magnet says where it comes from: the other types stay together.
/// @param byHand  the technician tried a magnet on the debris of this place: that stands for it.
Ferrous bySweep(const Particle& p, DebrisKind kind, Place place, bool byHand) {
    return kind == DebrisKind::brightMetal && place != Place::magnet && !byHand ? p.ferrous
                                                                                : Ferrous::notKnown;
}

/// How the photos of a visit are read.
struct Reading {
    const VisitEvidence& visit;
    const SuggestionModel& model;
    ReadAt at;
};

/// Whether a magnet was drawn over the place of this photo and another was tried by hand.
bool sweptAndTried(const DebrisSample& photo, const Reading& reading) {
    const auto& pieces = photo.finding->particles;
    const bool swept = photo.place != Place::magnet &&
                       std::any_of(pieces.begin(), pieces.end(),
                                   [](const auto& p) { return p.ferrous != Ferrous::notKnown; });
    return swept && HandTests(visitFindings(reading.visit.observations, reading.model.warmth),
                              whereOf(photo))
                            .byMagnet() != Ferrous::notKnown;
}

/// The count, or the end of its 95 % limits, to the nearest piece.
long countAt(long count, End end) {
    const auto limits = poissonInterval95(count);
    switch (end) {
    case End::low:
        return std::max(1L, std::lround(limits[0]));
    case End::high:
        return std::lround(limits[1]);
    case End::stated:
        break;
    }
    return count;
}

using ItemGroups = std::map<std::tuple<DebrisKind, TradeSize, Ferrous>, DebrisItem>;

/// The pieces of one photo by kind, size and what the magnet made of them.
ItemGroups groupsOf(const DebrisSample& photo, const Reading& reading, PhotoDebris& result) {
    const SuggestionModel& m = reading.model;
    const bool byHand = sweptAndTried(photo, reading);
    std::vector<const Particle*> pieces;
    for (const Particle& p : photo.finding->particles)
        pieces.push_back(&p);
    if (photo.magnet)
        for (const Particle& p : photo.magnet->slivers)
            pieces.push_back(&p);
    ItemGroups groups;
    for (const Particle* p : pieces) {
        const TradeSize size = tradeSize(*p, m, reading.at.sizes);
        const auto kind = kindOf(*p, m);
        if (!kind) {
            if (size >= TradeSize::s3)
                ++result.unidentifiedLarge[whereOf(photo)];
            continue;
        }
        const Ferrous swept = bySweep(*p, *kind, photo.place, byHand);
        DebrisItem& item = groups[{*kind, size, swept}];
        item.place = whereOf(photo);
        item.what = *kind;
        item.size = size;
        item.fromPhoto = true;
        const Ferrous told = photo.place == Place::magnet ? p->ferrous : swept;
        item.magnetic = told != Ferrous::notKnown ? told : item.magnetic;
        item.beyondDoubt |= size == TradeSize::s4 && p->chanceOfType() >= m.beyondDoubt;
        item.pieces.push_back(p);
        ++item.count;
    }
    return groups;
}

void addItems(const DebrisSample& photo, const Reading& reading, PhotoDebris& result) {
    const SuggestionModel& m = reading.model;
    for (auto& entry : groupsOf(photo, reading, result)) {
        DebrisItem& item = entry.second;
        const auto limits = poissonInterval95(item.count);
        const double border = static_cast<double>(m.plentyFrom);
        item.amount = amountOf(countAt(item.count, reading.at.counts), m);
        item.nearPlenty = limits[0] < border && border <= limits[1];
        item.sentence = itemSentence(item, photo, m);
        result.items.push_back(item);
    }
}

void addCoat(const MagnetFinding& magnet, const SuggestionModel& m, End end, PhotoDebris& result) {
    const double apart = 2.0 * magnet.coveredShare.standardUncertainty.value();
    const double share = magnet.coveredShare.value.value() + (end == End::high  ? apart
                                                              : end == End::low ? -apart
                                                                                : 0.0);
    const Coat coat = coatOf(magnet, share, m);
    result.magnetFull = result.magnetFull || isFull(magnet, m.fullMagnet);
    if (result.coat && *result.coat >= coat)
        return;
    result.coat = coat;
    result.coatSentence = fmt::format(
        "{} of the magnet's face is under fuzz, which reaches past the rim by under {} "
        "round nearly all of it: {}.",
        coveredShareWords(magnet.coveredShare),
        overhangWords(magnet.overhangP95, magnet.overhangUncertainty), coatInWords(coat));
}

/// A photo that counts nothing: what to do about it, and what is therefore not known. The coat of
/// its magnet is seen all the same where the photo shows it.
void addUnused(const DebrisSample& photo, const SuggestionModel& model, End coat,
               PhotoDebris& result) {
    ++result.refused;
    if (photo.shownOnly) {
        result.retake = result.retake.empty() ? photo.shownOnly->advice : result.retake;
        result.notKnown.push_back(fmt::format(
            "How many pieces the photo {} of the {} shows: too few of its finds can be relied "
            "on to count them.",
            photo.photoName, placeWord(photo.place)));
        if (photo.magnet)
            addCoat(*photo.magnet, model, coat, result);
        return;
    }
    if (result.retake.empty() && photo.refusal)
        result.retake = photo.refusal->advice;
    const bool damaged = photo.refusal && photo.refusal->reason == RefusalReason::findingDamaged;
    result.notKnown.push_back(
        fmt::format("The photo {} of the {} {}.", photo.photoName, placeWord(photo.place),
                    damaged ? "was measured, but what was found is damaged in the book"
                            : "could not be measured"));
}

/// From which size on the photos show everything, and under which nothing.
std::string limitsSentence(const std::vector<const DebrisSample*>& photos) {
    const auto limits = [](const DebrisSample& photo) {
        return std::pair(photo.finding->detectionLimit.value(),
                         photo.finding->resolutionLimit.value());
    };
    if (photos.size() == 1)
        return fmt::format("Photo {} is complete down to {:.2f} mm; nothing shows under {:.2f} mm.",
                           photos.front()->photoName, limits(*photos.front()).first,
                           limits(*photos.front()).second);
    std::string list;
    for (const DebrisSample* photo : photos)
        list += fmt::format("{}photo {} {:.2f} and {:.2f} mm", list.empty() ? "" : "; ",
                            photo->photoName, limits(*photo).first, limits(*photo).second);
    return "Smaller pieces can be missed. Down to the first size a photo is complete; under the "
           "second nothing shows in it: " +
           list + ".";
}

/// How many large pieces have no type; "" where all have one.
std::string undecidedSentence(const PhotoDebris& debris) {
    long undecided = 0;
    for (const auto& [place, count] : debris.unidentifiedLarge)
        undecided += count;
    if (undecided == 0)
        return "";
    return undecided == 1 ? "The type of 1 large piece is not known."
                          : fmt::format("The type of {} large pieces is not known.", undecided);
}

} // namespace

PhotoDebris debrisOfPhotos(const VisitEvidence& visit, const SuggestionModel& model,
                           ReadAt readAt) {
    PhotoDebris result;
    std::vector<const DebrisSample*> counted;
    for (const DebrisSample& photo : visit.samples) {
        if (photo.shownOnly || photo.refusal || !photo.finding) {
            addUnused(photo, model, readAt.coat, result);
            continue;
        }
        ++result.measured;
        result.places.push_back(whereOf(photo));
        counted.push_back(&photo);
        if (photo.magnet && !photo.magnet->sliversTold)
            result.notKnown.push_back(fmt::format(
                "Whether slivers are in the fuzz on the magnet: its strands shine in photo {}.",
                photo.photoName));
        const std::size_t before = result.items.size();
        addItems(photo, {visit, model, readAt}, result);
        for (std::size_t i = before; i < result.items.size(); ++i)
            result.items[i].sample = static_cast<std::size_t>(&photo - visit.samples.data());
        if (photo.magnet)
            addCoat(*photo.magnet, model, readAt.coat, result);
    }
    if (!counted.empty())
        result.notKnown.push_back(limitsSentence(counted));
    if (const std::string undecided = undecidedSentence(result); !undecided.empty())
        result.notKnown.push_back(undecided);
    return result;
}

} // namespace swarfbook
