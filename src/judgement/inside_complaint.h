// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/symptom_facts.h"

namespace swarfbook {

/// What of the complaint something worn or broken inside can bring about: without the codes of
/// circuits, sensors, supply, network and engine, and without a fail-safe gear that such a code
/// brings. Metal does not agree with an open circuit: both are there, each with its own cause.
/// Source: electrical codes are no evidence of debris, common practice.
/// Checked: tests/cli/typed (162).
SymptomFacts fromInside(const SymptomFacts& all);

} // namespace swarfbook
