// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/clean_reference_words.h"

#include <fmt/format.h>

#include <cmath>

namespace swarfbook {
namespace {

std::string howLaid(const CleanReferenceUse& cleanReference) {
    if (cleanReference.byTexture)
        return fmt::format("laid under it by the surface's own marks: the card lay {:.1f} mm and "
                           "{:.1f} degrees elsewhere, likeness {:.2f} of 1",
                           std::hypot(cleanReference.shift.x, cleanReference.shift.y),
                           std::abs(cleanReference.turn.value()), cleanReference.likeness);
    if (cleanReference.likeness > 0.0)
        return fmt::format("laid under it by the card, likeness {:.2f} of 1",
                           cleanReference.likeness);
    return "laid under it by the card; it shows no marks";
}

} // namespace

std::string cleanReferenceSentence(const Measurement& measurement) {
    if (!measurement.cleanReference || !measurement.debris)
        return "";
    const CleanReferenceUse& cleanReference = *measurement.cleanReference;
    const std::string mark =
        cleanReference.sha256.empty()
            ? ""
            : fmt::format(" (SHA-256 {}...)", cleanReference.sha256.substr(0, 12));
    if (!cleanReference.used)
        return fmt::format("A photo of the cleaned place{} was given and could not be used.", mark);
    const int also = measurement.debris->alsoOnCleanReference;
    return fmt::format(
        "A photo of the cleaned place{} was {}. It shows {:.0f} % of what was measured. {}", mark,
        howLaid(cleanReference), 100.0 * cleanReference.coveredShare,
        also == 0 ? "It shows nothing that looked like debris."
                  : fmt::format("{} that looked like debris {} on it too and {} left out; debris "
                                "that was there when it was taken is left out with them.",
                                also == 1 ? "1 find" : fmt::format("{} finds", also),
                                also == 1 ? "is" : "are", also == 1 ? "was" : "were"));
}

} // namespace swarfbook
