// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/judge_visit.h"

#include <string>
#include <vector>

namespace swarfbook {

/// What was done at a visit, one sentence each: parts renewed, cleaned or refitted, fluid and
/// level, codes and drive afterwards. A solenoid or bore that was found bad at this visit is
/// followed by what was found. Leaves out what was not done and the later outcome.
/// Checked: tests/report/work_done_test.cpp.
std::vector<std::string> workSentences(const VisitEvidence& visit, const PartVerdicts& parts);

} // namespace swarfbook
