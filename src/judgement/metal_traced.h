// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/facts.h"

/// Metal in a unit without complaint, and how far it was traced to a possible source. Common
/// practice, no source.
/// Checked: tests/cli/typed_cases_test.cpp, tests/judgement/next_tests_test.cpp.
namespace swarfbook {

/// One or a few pieces of each metal at most.
bool onlyAFewMetal(const DebrisFacts& debris);

/// Metal that may be cleaned away once: a few pieces below S3; or specks below S2 in quantity that
/// cannot be felt, if they are known to be steel, or if tracing them found nothing.
bool metalMayBeCleaned(const Facts& facts);

/// Specks of metal in quantity whose possible sources were checked without a finding: only dust in
/// the opened filter, nothing felt, none in the fluid or beyond the pan, driven without complaint;
/// for yellow metal also the end play in order, for metal that is not magnetic a clean converter
/// drain.
bool tracedToNothing(const Facts& facts);

} // namespace swarfbook
