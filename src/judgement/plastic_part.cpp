// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/plastic_part.h"

#include "judgement/promises.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

std::string partWords(PlasticPart part) {
    std::string words(wordOf(part));
    std::replace(words.begin(), words.end(), '-', ' ');
    return words;
}

bool insideTheUnit(PlasticPart part) {
    return part == PlasticPart::chainGuide || part == PlasticPart::thrustWasher;
}

} // namespace

NextTest findThePlastic(const DebrisFacts& debris) {
    return {debris.plastic->sentence + " This is not a plug left from assembly.",
            "Find what it broke off: baffle, filter neck, check ball, harness clip, chain guide "
            "or thrust washer.",
            debris.plasticKeepsBreaking
                ? "A part that is reached with the pan off is renewed. A chain guide, a thrust "
                  "washer or nothing found: open it."
                : "A part that is reached with the pan off is renewed. A chain guide or thrust "
                  "washer: open it. Nothing found: clean, and look again soon.",
            {},
            promises::plasticTraced(debris)};
}

MaybeDraft plasticFromInside(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    const bool unfound = d.plasticPart == PlasticPart::notFound && d.plasticKeepsBreaking;
    if (!insideTheUnit(d.plasticPart) && !unfound)
        return std::nullopt;
    Draft draft(Recommendation::openTheTransmission);
    draft.because("plastic_part", Strength::decisive,
                  unfound ? d.plastic->sentence + " No part that is reached with the pan off is "
                                                  "missing it."
                          : fmt::format("{} It broke off the {}, which is reached only with the "
                                        "unit open.",
                                        d.plastic->sentence, partWords(d.plasticPart)));
    if (d.plasticKeepsBreaking)
        draft.because("plastic_part", Strength::clear,
                      "A piece that is burnt or came before is followed by others.");
    draft.wouldChange("A piece that fits a part which is reached with the pan off after all.");
    return draft;
}

std::string plasticPartOutside(const DebrisFacts& debris) {
    const PlasticPart part = debris.plasticPart;
    const bool known = part != PlasticPart::notSaid && part != PlasticPart::notFound;
    return known && !insideTheUnit(part) ? partWords(part) : "";
}

} // namespace swarfbook
