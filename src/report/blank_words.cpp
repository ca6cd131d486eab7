// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/blank_words.h"

#include <fmt/format.h>

#include <cmath>

namespace swarfbook {
namespace {

std::string howLaid(const BlankUse& blank) {
    if (blank.byTexture)
        return fmt::format("laid under it by the surface's own marks: the card lay {:.1f} mm and "
                           "{:.1f} degrees elsewhere, likeness {:.2f} of 1",
                           std::hypot(blank.shift.x, blank.shift.y), std::abs(blank.turn.value()),
                           blank.likeness);
    if (blank.likeness > 0.0)
        return fmt::format("laid under it by the card, likeness {:.2f} of 1", blank.likeness);
    return "laid under it by the card; it shows no marks";
}

} // namespace

std::string blankSentence(const Measurement& measurement) {
    if (!measurement.blank || !measurement.debris)
        return "";
    const BlankUse& blank = *measurement.blank;
    const std::string mark =
        blank.sha256.empty() ? "" : fmt::format(" (SHA-256 {}...)", blank.sha256.substr(0, 12));
    if (!blank.used)
        return fmt::format("A photo of the cleaned place{} was given and could not be used.", mark);
    const int also = measurement.debris->alsoOnBlank;
    return fmt::format(
        "A photo of the cleaned place{} was {}. It shows {:.0f} % of what was measured. {}", mark,
        howLaid(blank), 100.0 * blank.coveredShare,
        also == 0 ? "Nothing that looked like debris is on it too."
                  : fmt::format("{} that looked like debris {} on it too and {} left out; debris "
                                "that was there when it was taken is left out with them.",
                                also == 1 ? "1 find" : fmt::format("{} finds", also),
                                also == 1 ? "is" : "are", also == 1 ? "was" : "were"));
}

} // namespace swarfbook
