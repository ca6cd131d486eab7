// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/part_seen.h"

#include <algorithm>

namespace swarfbook {
namespace {

bool asks(const DutiesSeen& seen, std::size_t part) {
    return std::any_of(seen.duties.begin(), seen.duties.end(),
                       [&](const Duty& duty) { return duty.part == part; });
}

void addBad(const DiagnosisContext& facts, std::size_t part, const DutiesSeen& bad,
            WherePart& where) {
    if (!asks(bad, part))
        return addOnce(where.elsewhereBad, bad.where);
    const auto isOpen = [&](Clearing clearing) {
        const Duties open = openDuties(bad, facts.seen, clearing);
        return std::any_of(open.begin(), open.end(),
                           [&](const Duty& duty) { return duty.part == part; });
    };
    if (isOpen(facts.explanations.clearing)) {
        where.openAtShift |= bad.atShift;
        return addOnce(where.open, bad.where);
    }
    addOnce(where.clearedFor, bad.where);
    where.surely = where.surely && !isOpen(Clearing::onlySure);
}

void addGood(const DiagnosisContext& facts, std::size_t part, const DutiesSeen& good,
             WherePart& where) {
    if (!asks(good, part))
        return;
    bool anyBad = false, counts = false, untold = false;
    for (const DutiesSeen& bad : facts.seen) {
        anyBad = anyBad || bad.bad;
        counts = counts || clears(good, bad, facts.explanations.clearing);
        untold = untold || (bad.bad && askedAs(good, bad) == Asked::notSaid);
    }
    const bool easier = anyBad && !counts;
    where.goodAtShift |= !easier && good.atShift;
    addOnce(easier ? where.easier : where.good, good.where);
    where.easierForSure = where.easierForSure && !(easier && untold);
}

} // namespace

void addOnce(Texts& words, const std::string& word) {
    if (std::find(words.begin(), words.end(), word) == words.end())
        words.push_back(word);
}

WherePart whereIs(const DiagnosisContext& facts, std::size_t part) {
    WherePart where;
    for (const DutiesSeen& seen : facts.seen) {
        if (seen.bad)
            addBad(facts, part, seen, where);
        else
            addGood(facts, part, seen, where);
    }
    return where;
}

} // namespace swarfbook
