// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/visit_findings.h"

namespace swarfbook {

/// Joins what was felt, oldest first: what is taken back goes. Part of visitFindings().
void addFelt(DriveFinding felt, std::vector<DriveFinding>& standing);
/// The same for noises.
void addHeard(Noise heard, std::vector<Noise>& standing);
/// Codes read again: none takes back those before it, but a reading cold none that come only hot.
void addCodes(const Codes& read, std::vector<CodeFinding>& standing);

DriveFinding driveFinding(const Complaint& felt, const WarmthLimits& limits, bool afterRepair);

} // namespace swarfbook
