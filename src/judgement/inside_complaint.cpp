// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/inside_complaint.h"

#include <algorithm>

namespace swarfbook {
namespace {

bool ofAnotherCause(const TroubleCode& code) {
    using enum CodeFamily;
    const bool network = code.text.starts_with('U');
    return network || code.family == electrical || code.family == input || code.family == supply ||
           code.family == engine || code.family == pointer;
}

} // namespace

SymptomFacts fromInside(const SymptomFacts& all) {
    SymptomFacts inside = all;
    const std::size_t before = inside.codes.size();
    std::erase_if(inside.codes, ofAnotherCause);
    if (inside.codes.size() < before && inside.failSafe) {
        inside.failSafe = false;
        std::erase_if(inside.told,
                      [](const Told& told) { return told.words.starts_with("fail safe"); });
    }
    return inside;
}

} // namespace swarfbook
