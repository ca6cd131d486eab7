// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/report_model.h"

#include <nlohmann/json.hpp>

namespace swarfbook {

/// The report as the document "swarfbook report 2": every field of the model but its pictures.
/// What is not known is null, never zero. Lengths are millimetres with their standard
/// uncertainties (`_u_mm`), shares 0 to 1, distances kilometres. Fields may be added within
/// a version, none renamed or removed.
/// Checked: tests/report/report_json_test.cpp.
nlohmann::ordered_json reportJson(const ReportModel& model);

} // namespace swarfbook
