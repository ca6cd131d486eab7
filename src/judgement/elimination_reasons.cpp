// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/next_test.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

constexpr Strength eliminationStrength = Strength::some;

/// The kind of part that this outcome repairs.
std::optional<PartKind> repaired(Recommendation outcome) {
    switch (outcome) {
    case Recommendation::replaceSolenoids:
        return PartKind::solenoid;
    case Recommendation::repairBores:
    case Recommendation::replaceValveBody:
        return PartKind::bore;
    case Recommendation::openTheTransmission:
        return PartKind::element;
    default:
        return std::nullopt;
    }
}

bool anyLeft(const Elimination& e, PartKind kind) {
    const auto left = e.inState(PartState::suspect);
    return std::any_of(left.begin(), left.end(),
                       [&](const EliminatedPart* part) { return part->part.kind == kind; });
}

} // namespace

MaybeTest testByElimination(const Facts& facts) {
    if (!facts.elimination || facts.elimination->tests.empty())
        return std::nullopt;
    const Elimination& e = *facts.elimination;
    const TestChoice& test = e.tests.front();
    return NextTest{e.summary,
                    test.what + ".",
                    answersInWords(test),
                    {Hazard::roadTest, Hazard::ignition, Hazard::compressedAir}};
}

void addElimination(const Facts& facts, Draft& draft) {
    if (!facts.elimination) {
        if (!facts.noUnit.empty() && facts.symptoms.slipsInDefinedGears())
            draft.s.notKnown.push_back("Nothing is eliminated by gears: " + facts.noUnit);
        return;
    }
    const Elimination& e = *facts.elimination;
    if (!e.anythingBad)
        return;
    for (const EliminatedPart* part : e.inState(PartState::suspect))
        draft.s.suspects.push_back(part->sentence);
    const auto kind = repaired(draft.s.outcome);
    const bool said = std::any_of(draft.s.all.begin(), draft.s.all.end(),
                                  [&](const Reason& r) { return r.sentence == e.summary; });
    if (said || e.explanations.empty())
        return;
    if (draft.s.outcome == Recommendation::notEnoughEvidence || (kind && anyLeft(e, *kind)))
        draft.because("elimination", eliminationStrength, e.summary);
    else if (kind)
        draft.but("elimination", eliminationStrength, e.summary);
}

} // namespace swarfbook
