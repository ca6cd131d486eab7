// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "judgement/wear_score.h"
#include "record/book.h"
#include "report/report_model.h"

namespace swarfbook {

/// The photo as kept in the book, upright; empty when its file is gone, damaged or can no longer be
/// decoded: then `why` says so in words for a customer, and the book tells its user which file it
/// is.
cv::Mat originalOf(const Book& book, const StoredPhoto& photo, std::string& why);

/// Fills in the comparison with the newest earlier visit that can be compared, or why there is
/// none; pictures of both are drawn at one scale where both originals are there, and the model
/// says where they are not.
void addComparison(ReportModel& model, const Book& book, const Evidence& evidence);

/// Fills in the wear score of this visit and of those before it, all of one place and above one
/// size floor: the place that gives most visits a score.
void addTrend(ReportModel& model, const Evidence& evidence, const WearScoreModel& wear);

} // namespace swarfbook
