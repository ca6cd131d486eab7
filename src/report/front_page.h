// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/page_writer.h"
#include "report/report_model.h"

namespace swarfbook {

/// Page one, to hand over: job, verdict, two reasons with a picture, what is suggested, when to
/// look again, what was not looked at, room for the authorisation, the standing line. Always one
/// page: what has no room on it is said on the evidence pages, and the page says so.
void writeFrontPage(PageWriter& page, const ReportModel& model);

/// The sample whose picture says most: the one with the largest piece that is not a fibre, else the
/// first that was measured; nullptr when there is none.
const ReportedSample* tellingSample(const ReportModel& model);

} // namespace swarfbook
