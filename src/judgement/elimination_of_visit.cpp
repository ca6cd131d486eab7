// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/elimination_of_visit.h"

#include "judgement/facts.h"

namespace swarfbook {

std::optional<Elimination> eliminationOf(const Evidence& evidence, const SuggestionModel& model) {
    if (!evidence.unit)
        return std::nullopt;
    Facts facts = factsOf(evidence, model);
    if (!facts.elimination || !facts.elimination->anythingBad)
        return std::nullopt;
    return std::move(facts.elimination);
}

} // namespace swarfbook
