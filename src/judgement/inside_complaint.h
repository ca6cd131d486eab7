// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/symptom_facts.h"

namespace swarfbook {

/// The part of the complaint that wear or damage inside can cause: without codes of circuits,
/// sensors, supply, network and engine, and without a fail-safe gear that such a code brings. Metal
/// does not explain an open circuit; each has its own cause.
/// Source: electrical codes are no evidence of debris, common practice.
/// Checked: tests/cli/typed (162).
SymptomFacts fromInside(const SymptomFacts& all);

} // namespace swarfbook
