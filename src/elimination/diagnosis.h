// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/component_model.h"

#include <cstddef>
#include <vector>

namespace swarfbook {

/// Components by number, in rising order.
using ComponentSet = std::vector<std::size_t>;

struct DiagnosisOptions {
    std::size_t mostFaults = 2; ///< no diagnosis of more components is looked for
    bool smallestOnly = false;  ///< stop at the size of the first diagnosis found
};

struct Diagnoses {
    /// Sets of components that may be faulty, with all others in order, without contradicting any
    /// clause; none contains another. Smallest first, each size in order.
    std::vector<ComponentSet> sets;
    /// Minimal conflicts met on the way: of each of these at least one component is faulty.
    std::vector<ComponentSet> conflicts;
    /// The clauses contradict each other whatever is faulty: an observation is wrong.
    bool contradictory = false;
};

/// Diagnosis from first principles: minimal hitting sets of the conflicts between "all is in order"
/// and what was observed, breadth first, so single faults come before pairs. The set with no
/// component means that nothing need be faulty.
///
/// Source: R. Reiter, A theory of diagnosis from first principles, Artificial Intelligence 32
/// (1987). Conflicts are made minimal before they are used, so no correction of the tree is needed.
/// Checked: tests/elimination/diagnosis_test.cpp (the full adder of that paper, and a search over
/// all fault sets of drawn systems).
Diagnoses minimalDiagnoses(const ComponentModel& model, const DiagnosisOptions& options = {});

} // namespace swarfbook
