// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/element_sets.h"

#include <algorithm>
#include <iterator>

namespace swarfbook {
namespace {

using Names = std::set<std::string>;

template <class T> std::set<T> without(const std::set<T>& from, const std::set<T>& taken) {
    std::set<T> left;
    std::set_difference(from.begin(), from.end(), taken.begin(), taken.end(),
                        std::inserter(left, left.end()));
    return left;
}

template <class T> std::set<T> common(const std::set<T>& a, const std::set<T>& b) {
    std::set<T> both;
    std::set_intersection(a.begin(), a.end(), b.begin(), b.end(), std::inserter(both, both.end()));
    return both;
}

Names holdersOf(const ApplicationChart& chart, const std::string& gear) {
    Names names;
    if (const ApplicationChart::Gear* row = chart.gear(gear))
        for (const ApplicationChart::Element& e : chart.elements)
            if (stateIn(chart, *row, e) == Applied::yes)
                names.insert(e.name);
    return names;
}

bool isGood(const GearSeen& seen) {
    return seen.result == GearResult::good;
}

/// A good shift speaks against a bad one unless it was driven less.
bool countsAsGood(const ShiftSeen& good, const std::vector<ShiftSeen>& all) {
    return std::any_of(all.begin(), all.end(), [&](const ShiftSeen& bad) {
        return bad.result != ShiftResult::good && compare(good.driven, bad.driven) != Asked::less;
    });
}

/// Every automatic gear that drives, forward and reverse, was entered as bad.
bool everyGearBad(const ApplicationChart& chart, const EliminationEvidence& evidence) {
    return std::all_of(chart.gears.begin(), chart.gears.end(), [&](const auto& gear) {
        return gear.manualRange || !drives(gear) ||
               std::any_of(evidence.gears.begin(), evidence.gears.end(), [&](const auto& seen) {
                   return seen.gear == gear.name && !isGood(seen);
               });
    });
}

void addScores(const ApplicationChart& chart, const EliminationEvidence& evidence,
               const BenchTests& settings, ElementSets& sets) {
    const auto [bad, good] = settings.weights();
    for (const GearSeen& seen : evidence.gears) {
        const bool counts =
            !isGood(seen) ||
            std::any_of(evidence.gears.begin(), evidence.gears.end(), [&](const GearSeen& other) {
                return !isGood(other) && compare(seen.driven, other.driven) == Asked::asMuch;
            });
        for (const std::string& name : holdersOf(chart, seen.gear))
            sets.score[name] += !counts ? 0.0 : isGood(seen) ? -good : bad;
    }
}

} // namespace

ElementSets elementSets(const ApplicationChart& chart, const EliminationEvidence& evidence,
                        const BenchTests& settings) {
    ElementSets sets;
    Names surely;
    bool first = true;
    for (const GearSeen& bad : evidence.gears) {
        if (isGood(bad))
            continue;
        const Names holders = holdersOf(chart, bad.gear);
        sets.must = first ? holders : common(sets.must, holders);
        first = false;
        for (const GearSeen& good : evidence.gears) {
            const Asked asked = compare(good.driven, bad.driven);
            if (!isGood(good) || asked == Asked::less)
                continue;
            const Names cleared = holdersOf(chart, good.gear);
            sets.cleared.insert(cleared.begin(), cleared.end());
            if (asked == Asked::asMuch)
                surely.insert(cleared.begin(), cleared.end());
        }
    }
    if (first) // nothing is bad: an element that holds in a good gear is cleared
        for (const GearSeen& good : evidence.gears)
            sets.cleared.merge(holdersOf(chart, good.gear));
    sets.hard = without(sets.must, sets.cleared);
    sets.soft = without(sets.must, surely);
    sets.everyGearBad = everyGearBad(chart, evidence);
    addScores(chart, evidence, settings, sets);
    return sets;
}

std::set<ElementRole> shiftSuspects(const ApplicationChart& chart,
                                    const EliminationEvidence& evidence) {
    std::set<ElementRole> suspects, cleared;
    bool first = true;
    for (const ShiftSeen& seen : evidence.shifts) {
        const ApplicationChart::Gear *from = chart.gear(seen.from), *to = chart.gear(seen.to);
        if (from == nullptr || to == nullptr)
            continue;
        std::set<ElementRole> roles = rolesAt(chart, *from, *to);
        if (seen.result == ShiftResult::good) {
            if (countsAsGood(seen, evidence.shifts))
                cleared.merge(roles);
            continue;
        }
        suspects = first ? std::move(roles) : common(suspects, roles);
        first = false;
    }
    return without(suspects, cleared);
}

} // namespace swarfbook
