// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/after_magnet.h"

#include "assess/card_facts.h"
#include "particles/count.h"
#include "particles/type_evidence.h"

#include <fmt/format.h>

#include <utility>

namespace swarfbook {
namespace {

CardWindow sweptWindow(const CardFacts& card) {
    const CardRect window = windowOf(card);
    return {{window.x, window.y}, {window.x + window.width, window.y + window.height}};
}

/// Why the file cannot be the photo after the magnet, "" where it may be.
std::string wrongFile(const PhotoFile& after, const Measurement& before,
                      const AssessOptions& options) {
    if (after.sha256.empty())
        return "";
    if (after.sha256 == before.photo.sha256)
        return "It is the very photo that is measured. Give a photo of the place taken after the "
               "magnet was drawn over it.";
    if (options.cleanReference && after.sha256 == options.cleanReference->sha256)
        return "It is the photo of the cleaned place. Give a photo taken after the magnet and "
               "before cleaning.";
    return "";
}

std::string otherCard(const CardFacts& before, const CardFacts& after) {
    if (before.layout != after.layout)
        return fmt::format("It shows a {} card and the photo a {} one. Use the same card for both.",
                           after.layout, before.layout);
    if (!before.serial.empty() && !after.serial.empty() && before.serial != after.serial)
        return fmt::format("It shows the card {} and the photo the card {}. Use the same card for "
                           "both.",
                           after.serial, before.serial);
    return "";
}

/// Why two photos that are measured cannot be compared, "" where they can.
std::string unlike(const Measurement& before, const Measurement& after) {
    if (after.refusal)
        return after.refusal->detail + " " + after.refusal->advice;
    if (const std::string card = otherCard(*before.card, *after.card); !card.empty())
        return card;
    if (before.debris->shownOnly)
        return "The pieces of the photo before the magnet are shown and not counted. " +
               before.debris->shownOnly->advice;
    if (after.debris->shownOnly)
        return "Its pieces cannot be counted. " + after.debris->shownOnly->why + " " +
               after.debris->shownOnly->advice;
    return "";
}

/// A magnet adds nothing to speak of.
bool moreThanBefore(const MagnetSweep& sweep) {
    constexpr int fewMayBe = 5; // newly seen without being new; ours
    return sweep.gained >= fewMayBe && sweep.gained > sweep.pieces.gone &&
           4 * sweep.gained > sweep.pieces.left;
}

void forget(std::vector<Particle>& pieces) {
    for (Particle& piece : pieces)
        piece.ferrous = Ferrous::notKnown;
}

/// What the magnet took is iron or steel: the types and the counts by type follow.
void takeTypes(Measurement& before) {
    for (Particle& piece : before.debris->particles) {
        piece.said.sweep = piece.ferrous;
        decideType(piece);
    }
    const CardRect window = windowOf(*before.card);
    countAnew(*before.debris, {Millimetres(window.width), Millimetres(window.height)});
}

void compare(AfterMagnet& use, Measurement& before, Measurement& after) {
    auto sweep = sweepPieces({*before.debris, sweptWindow(*before.card)},
                             {*after.debris, sweptWindow(*after.card)});
    if (!sweep) {
        use.whyNot = "Its pieces do not lie where those of the photo before the magnet lie. Give "
                     "a photo of the same place, the card on the same spot.";
    } else if (moreThanBefore(*sweep)) {
        forget(before.debris->particles);
        use.whyNot = fmt::format("It shows {} pieces that the photo before the magnet does not "
                                 "show. Give the photo before the magnet first.",
                                 sweep->gained);
    } else {
        use.sweep = std::move(sweep);
        takeTypes(before);
    }
}

} // namespace

void assessAfterMagnet(Measurement& before, PhotoFile after, const AssessData& data,
                       const AssessOptions& options) {
    if (before.refusal)
        return;
    AfterMagnet use;
    use.file = after.file;
    use.sha256 = after.sha256;
    use.whyNot = wrongFile(after, before, options);
    if (use.whyNot.empty()) {
        Measurement second = assessPhoto(std::move(after), data, options);
        use.whyNot = unlike(before, second);
        if (use.whyNot.empty())
            compare(use, before, second);
    }
    if (!use.sweep)
        before.cautions.push_back(afterMagnetCaution(use));
    before.afterMagnet = std::move(use);
}

std::string afterMagnetCaution(const AfterMagnet& after) {
    if (after.sweep)
        return "";
    return fmt::format("The photo after the magnet, {}, was not used, so what is magnetic is not "
                       "known: {}",
                       after.file, after.whyNot);
}

} // namespace swarfbook
