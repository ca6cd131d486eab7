// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "gauge/measurement_system.h"
#include "record/book_values.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// The result of all checks in the book.
struct CheckStudy {
    int readings = 0, agreeing = 0;
    double meanOffMm = 0.0;          ///< reading less known, over all
    std::vector<std::string> people; ///< in the study
    std::vector<std::string> things; ///< in the study, as typed
    std::optional<GaugeStudy> study; ///< mm
    std::string whyNone;             ///< what is missing for a study; "" if there is one
    double claimedMm = 0.0;          ///< mean standard uncertainty that the readings state
};

/// Repeatability and reproducibility from the readings of people who each read the same things at
/// least twice. For every person and thing it uses the newest readings, as many as there are of the
/// least read thing. Readings without a name are left out. @throws std::logic_error for no checks.
/// Checked: tests/report/check_study_test.cpp.
CheckStudy studyChecks(const std::vector<StoredCheck>& checks);

/// The study in sentences: mean error, repeatability and reproducibility, or what to do to get
/// them.
std::vector<std::string> studySentences(const CheckStudy& study);

/// One check in a sentence, for a report: "Checked on 2026-03-01 with a shank of 2.00mm: read 2.008
/// +- 0.031 mm, which agrees."
std::string checkSentence(const StoredCheck& check);

} // namespace swarfbook
