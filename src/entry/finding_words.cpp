// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/finding_words.h"

#include "judgement/coat_history.h"
#include "particles/count.h"

#include <fmt/format.h>

#include <string_view>

namespace swarfbook {
namespace {

std::string_view reasonInWords(RefusalReason reason) {
    switch (reason) {
    case RefusalReason::noCard:
        return "no card was found";
    case RefusalReason::cardCutOff:
        return "part of the card is not in the photo";
    case RefusalReason::mixedCards:
        return "two cards are in the photo";
    case RefusalReason::tooTilted:
        return "the card is seen too much aslant";
    case RefusalReason::blurred:
        return "the photo is blurred";
    case RefusalReason::tooDark:
        return "the photo is too dark";
    case RefusalReason::glare:
        return "glare hides the card";
    case RefusalReason::clipped:
        return "the photo is too bright";
    case RefusalReason::notAPhoto:
        return "the file is not a photo";
    case RefusalReason::tooLarge:
        return "the photo is too large";
    case RefusalReason::findingDamaged:
        break;
    }
    return "its finding is damaged in the book";
}

/// "the magnet took 98 pieces and left 70; of the bright metal it took 61 and left 12"
std::string sweepInShort(const AfterMagnet& after) {
    if (!after.sweep)
        return "the photo after the magnet was not used";
    const SweepTally &all = after.sweep->pieces, &bright = after.sweep->bright;
    return fmt::format(
        "the magnet took {} pieces and left {}; of the bright metal it took {} and left "
        "{}",
        all.gone, all.left, bright.gone, bright.left);
}

/// "12 pieces in both lights"
std::string secondLightInShort(const SecondLightUse& use) {
    if (!use.used)
        return "the photo in a second light was not used";
    return fmt::format("{} {} in both lights", use.piecesInBoth,
                       use.piecesInBoth == 1 ? "piece" : "pieces");
}

} // namespace

std::string findingInShort(const Measurement& measurement) {
    if (measurement.refusal && measurement.refusal->reason == RefusalReason::findingDamaged)
        return "damaged in the book";
    if (measurement.refusal)
        return fmt::format("not measured: {}", reasonInWords(measurement.refusal->reason));
    std::string text = "nothing measured";
    if (measurement.debris) {
        const PiecesFound found = piecesFound(*measurement.debris);
        text = fmt::format("{} {} of {:.2f} mm and larger", found.fromFloor,
                           found.fromFloor == 1 ? "piece" : "pieces",
                           measurement.debris->detectionLimit.value());
        if (found.smaller > 0)
            text += fmt::format(" (and at least {} smaller)", found.smaller);
    }
    if (measurement.afterMagnet)
        text += "; " + sweepInShort(*measurement.afterMagnet);
    if (measurement.secondLight)
        text += "; " + secondLightInShort(*measurement.secondLight);
    if (measurement.magnet)
        text += fmt::format("; fuzz on {} of the magnet's face",
                            coveredShareWords(measurement.magnet->coveredShare));
    return text;
}

std::string findingInFull(const Measurement& measurement) {
    const auto& magnet = measurement.magnet;
    if (!measurement.refusal && magnet && magnet->height &&
        magnet->height->from != HeightFrom::size)
        return findingInShort(measurement) + "; its height is estimated, because its size was not "
                                             "typed in or contradicts the photo";
    if (!measurement.refusal)
        return findingInShort(measurement);
    return fmt::format("not measured. {} {}", measurement.refusal->detail,
                       measurement.refusal->advice);
}

} // namespace swarfbook
