// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/driving.h"

namespace swarfbook {

/// How a gear or shift was driven when something was felt there.
struct Driven {
    Load load = Load::notSaid;
    Warmth warmth = Warmth::notSaid;
    bool operator==(const Driven&) const = default;
    /// Neither load nor warmth is known.
    [[nodiscard]] bool plain() const { return *this == Driven{}; }
};

/// Below coldBelow the fluid counts as cold, from hotFrom as hot; models/suggestion.json.
struct WarmthLimits {
    Celsius coldBelow, hotFrom;
};

/// By the word, or by the temperature if there is no word.
Driven drivenOf(const Complaint& felt, const WarmthLimits& limits);

/// Whether one drive asked as much of the parts as the other, in load and warmth; not known if
/// either does not say. Checked: tests/elimination/elimination_evidence_test.cpp.
enum class Asked { asMuch, notSaid, less };
Asked compare(const Driven& one, const Driven& other);

/// "firm load, hot"; "" when nothing is said.
std::string inWords(const Driven& driven);

} // namespace swarfbook
