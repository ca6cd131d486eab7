// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "judgement/wear_score.h"
#include "record/book.h"
#include "report/originals.h"
#include "report/report_model.h"

namespace swarfbook {

/// Fills in the comparison with the newest earlier visit that can be compared, or why there is
/// none; pictures of both are drawn at one scale where both originals are there, and the model
/// says where they are not.
void addComparison(ReportModel& model, const Book& book, const Evidence& evidence,
                   Originals& originals);

/// Fills in the wear score of this visit and of those before it, all of one place and above one
/// size limit: the place that gives most visits a score.
void addTrend(ReportModel& model, const Evidence& evidence, const WearScoreModel& wear);

} // namespace swarfbook
