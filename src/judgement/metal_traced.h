// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/facts.h"

/// Metal that a unit without complaint holds, and how far it was followed to where it would come
/// from. Source: common practice, no source.
/// Checked: tests/cli/typed_cases_test.cpp, tests/judgement/next_tests_test.cpp.
namespace swarfbook {

/// One or a few pieces of each metal at the most.
bool onlyAFewMetal(const DebrisFacts& debris);

/// Metal that may be cleaned away once: a few pieces below S3; or specks below S2 in quantity of
/// which nothing can be felt, as far as they are known to be steel, or were traced to nothing.
bool metalMayBeCleaned(const Facts& facts);

/// Specks of metal in quantity that were followed to where they would come from, and nothing was
/// found there: only dust in the opened filter, nothing felt, none in the fluid or beyond the pan,
/// driven without complaint; for what is yellow the end play in order, for what is not magnetic a
/// clean converter drain.
bool tracedToNothing(const Facts& facts);

} // namespace swarfbook
