// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/visit_findings.h"

namespace swarfbook {

/// Joins what was felt, oldest first, without entries taken back. Part of visitFindings().
void addFelt(DriveFinding felt, std::vector<DriveFinding>& standing);
/// The same for noises.
void addHeard(Noise heard, std::vector<Noise>& standing);
/// Codes read again: a reading without codes takes back the earlier ones, but a cold reading does
/// not take back codes that come only when hot.
void addCodes(const Codes& read, std::vector<CodeFinding>& standing);

DriveFinding driveFinding(const Complaint& felt, const WarmthLimits& limits, bool afterRepair);

} // namespace swarfbook
