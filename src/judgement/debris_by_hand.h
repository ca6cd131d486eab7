// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/debris_facts.h"

#include <string>
#include <vector>

/// What tests by hand say of the items of debris. Parts of debrisFacts().
/// Checked: tests/judgement/scenarios_test.cpp.
namespace swarfbook {

/// A magnet under the paper and pliers separate bright metals when the items did not say.
void applyHandTests(const VisitFindings& findings, std::vector<DebrisItem>& items);

/// Adds large pieces of which no photo shows what they are, once a hand has found it out.
/// @return whether any are left of which nobody knows
bool settleUndecided(const VisitFindings& findings, const PhotoDebris& photos,
                     std::vector<DebrisItem>& items);

/// Adds pieces that the fingers feel in what looks like paste, once magnet or pliers say what they
/// are.
void addFelt(const VisitFindings& findings, std::vector<DebrisItem>& items);

/// Takes out items that photos show as metal and a hand does not, and adds the reasons.
void takeOutContradicted(const VisitFindings& findings, std::vector<DebrisItem>& items,
                         std::vector<std::string>& reasons);

/// What the eye takes for metal and crumbles in the pliers is lining, where it is the only thing
/// there that can be picked up. A machined face is metal whatever else crumbles.
void crumbledByHand(const VisitFindings& findings, std::vector<DebrisItem>& items);

} // namespace swarfbook
