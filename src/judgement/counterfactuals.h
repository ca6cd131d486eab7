// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/enum_names.h"
#include "bench/observation.h"
#include "judgement/suggestion.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

/// How a single recorded observation could have turned out instead; parts of counterfactuals().
/// Checked: tests/judgement/sensitivity_test.cpp.
namespace swarfbook::otherwise {

/// One way an observation could have turned out instead; without an observation: it was not made.
struct Other {
    std::string label;
    std::optional<Observation> instead;
    bool unexpected = false;
};
using Others = std::vector<Other>;

template <class T, class Change>
Other changed(const T& recorded, std::string label, Change&& change) {
    std::optional<Observation> other(recorded);
    change(std::get<T>(*other));
    return {std::move(label), std::move(other)};
}

/// A word as people read it: "no drive" for "no-drive".
inline std::string spaced(std::string_view word) {
    std::string text(word);
    std::replace(text.begin(), text.end(), '-', ' ');
    return text;
}

// What was found of the debris by hand and eye.
Others othersOf(const FingerTest& o);
Others othersOf(const MagnetTest& o);
Others othersOf(const SqueezeTest& o);
Others othersOf(const DebrisSeen& o);

} // namespace swarfbook::otherwise
