// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/visit_findings.h"
#include "judgement/evidence.h"
#include "judgement/suggestion_model.h"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// Which end of the 95 % limits of what a photo shows is taken; `stated` is the figure as it is
/// usually judged.
enum class End { stated, low, high };
struct ReadAt {
    End counts = End::stated;
    End sizes = End::stated;
    End coat = End::stated;
};

/// Debris of one kind and size at one place, by eye or from a photo.
struct DebrisItem {
    Where place = Where::pan;
    DebrisKind what = DebrisKind::clean;
    std::optional<TradeSize> size;
    Amount amount = Amount::notSaid;
    Ferrous magnetic = Ferrous::notKnown;
    bool machinedFace = false;
    bool paperTexture = false;
    bool burnt = false;
    bool leftOver = false; ///< of assembly or manufacture
    bool seenBefore = false;
    PlasticPart part = PlasticPart::notSaid; ///< of plastic, by eye
    bool fromPhoto = false;
    bool beyondDoubt = false; ///< photo only: a piece of S4 whose type is all but certain
    long count = 0;           ///< photo only
    bool nearPlenty = false;  ///< the count's 95 % limits hold the border of "plenty"
    std::string sentence;     ///< "bright metal, 12 pieces of 0.5 to 1 mm in pan.jpg"
    std::size_t sample = 0;   ///< photo only: which of the visit's samples shows it
    std::vector<const Particle*> pieces = {}; ///< photo only: in the visit that was read
};

/// What the photos of a visit show, as items.
struct PhotoDebris {
    std::vector<DebrisItem> items;
    std::optional<Coat> coat; ///< of the magnet
    std::string coatSentence;
    bool magnetFull = false; ///< it gathers no more (coat_of_magnet.h)
    int measured = 0, refused = 0;
    std::map<Where, long> unidentifiedLarge; ///< pieces of S3 and above whose type no photo shows
    std::string retake;                      ///< advice of the first refusal
    std::vector<std::string> notKnown;
    std::vector<Where> places;
};
PhotoDebris debrisOfPhotos(const VisitEvidence& visit, const SuggestionModel& model,
                           ReadAt readAt = {});

/// How much lining the debris holds. Fine silt is normal in kind.
enum class Friction { none, silt, heavy, pieces };

/// Everything the debris of a visit says.
struct DebrisFacts {
    std::vector<DebrisItem> items; ///< without left-overs
    std::vector<DebrisItem> leftOvers;
    std::vector<std::string> contradicted; ///< what photos take for metal and a hand does not
    std::vector<Where> places;             ///< looked at, clean ones too
    bool inspected = false;                ///< any place was looked at
    bool panClean = false;                 ///< pan looked at: clean or film only
    std::string retake;                    ///< advice of a refused photo, "" when none
    std::vector<std::string> notKnown;

    const DebrisItem* stopMetal = nullptr;    ///< metal of S3 and above, proven
    const DebrisItem* doubtfulStop = nullptr; ///< such pieces in photos alone
    bool unidentifiedLarge = false;
    const DebrisItem* yellow = nullptr;      ///< most of it, S1 and above or glitter
    const DebrisItem* nonMagnetic = nullptr; ///< bright, magnet leaves it
    const DebrisItem* steel = nullptr;       ///< bright, magnetic or not said, S1 and above
    Friction friction = Friction::none;
    const DebrisItem* lining = nullptr;  ///< worst of it
    const DebrisItem* plastic = nullptr; ///< not a left-over
    bool plasticNeedsSource = false;     ///< burnt, repeated or more than one, nobody looked
    PlasticPart plasticPart = PlasticPart::notSaid; ///< what it broke off
    bool plasticKeepsBreaking = false;              ///< burnt, or it came before
    const DebrisItem* rubber = nullptr;
    const DebrisItem* earlierWork = nullptr; ///< lint or sealant in screens, filter neck, valves
    const DebrisItem* varnish = nullptr;
    const DebrisItem* rust = nullptr; ///< water was in the unit
    std::optional<Coat> coat;
    std::string coatSentence;
    std::optional<Feel> feel;
    bool milky = false;
    bool milkyTold = false; ///< whether the fluid is milky is known
    bool burntSmell = false;
    bool fluidTold = false;
    bool nearBorder = false; ///< an amount that its own counting limits could move

    /// Nothing above specks: no metal from S2 up, no lining beyond silt, nothing felt unexplained.
    [[nodiscard]] bool onlyFinesOrSpecks() const;
    /// Film, paste and silt alone: nothing that can be felt or seen singly.
    [[nodiscard]] bool onlyFines() const;
    /// Something was found where fluid goes after the pan: behind the filter, in screens, the valve
    /// body, the cooler or the converter.
    [[nodiscard]] bool beyondThePan() const;
    [[nodiscard]] bool placeSeen(Where place) const;
    /// Rust, and nobody has said whether the fluid is milky.
    [[nodiscard]] bool waterOpen() const { return rust != nullptr && !milkyTold; }
    /// Metal that a person can feel or see singly, beyond paste.
    [[nodiscard]] bool anyMetal() const { return yellow || nonMagnetic || steel || stopMetal; }
};

/// The facts point into their own items: moved, never copied.
std::unique_ptr<DebrisFacts> debrisFacts(const VisitEvidence& visit, const VisitFindings& findings,
                                         const SuggestionModel& model, ReadAt readAt = {});

/// "a few", "plenty of", ... in front of a noun.
std::string amountWords(Amount amount);

/// "0.5 to 1 mm": what a size class means by the model's limits.
std::string sizeWords(TradeSize size, const SuggestionModel& model);
/// "1 mm or longer": how long a piece of that class is at least; as sizeWords() for the smallest.
std::string leastSizeWords(TradeSize size, const SuggestionModel& model);

} // namespace swarfbook
