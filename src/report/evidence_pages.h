// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/page_writer.h"
#include "report/report_model.h"

namespace swarfbook {

/// Everything behind page one, from a new page on: each photo with its counts and largest pieces,
/// magnet, before and now, trend, suggestion with all reasons, observations, what is not known,
/// method, cautions, and which files and program it rests on.
void writeEvidencePages(PageWriter& page, const ReportModel& model);

/// One photo of a sample: marks, counts, largest pieces, magnet, card. `number` from 1 on.
void writeSamplePages(PageWriter& page, const ReportedSample& sample, std::size_t number);

} // namespace swarfbook
