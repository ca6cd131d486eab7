// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/judge_visit.h"
#include "record/book.h"
#include "report/originals.h"
#include "report/report_model.h"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace swarfbook {

/// Fills in the photos of the work that the visit's observations record, reduced from their pixels
/// alone. Leaves out photos of an observation that was corrected or taken back. The model says
/// which photo can no longer be shown.
/// Checked: tests/report/work_photos_test.cpp.
void addWorkPhotos(ReportModel& model, const Book& book, const VisitEvidence& visit,
                   const PartVerdicts& parts);

/// "Photos of this work: 1 before, 2 after".
std::string workPhotoCounts(const ReportedWork& work);

/// Work with the SHA-256 of its photos, for the report's JSON.
nlohmann::ordered_json workPhotosJson(const std::vector<ReportedWork>& all);

} // namespace swarfbook
