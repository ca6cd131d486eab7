// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "record/book.h"

#include <cstdint>
#include <optional>

namespace swarfbook {

/// Reads a stored observation. Throws ToolError if it cannot be read.
Observation observationOf(const StoredObservation& stored);

/// The same, but gives nothing if it cannot be read; the book then says that it is left out.
std::optional<Observation> observationIfReadable(const Book& book, const StoredObservation& stored);

/// The valid observations: neither corrected by a later entry nor taken back, in the order in which
/// they were made. A correction takes the place of the first entry that it replaces.
std::vector<StoredObservation> standing(std::vector<StoredObservation> all);

/// The evidence of one visit in the form that judging reads: photos with their newest finding, and
/// valid observations in the order they were made. A distance since the last clean that was entered
/// with the visit counts as the first observation. Throws UsageError if there is no such visit, and
/// ToolError if a stored observation cannot be read, because nothing is judged without it.
VisitEvidence evidenceOfOneVisit(const Book& book, const Visit& visit);

/// The same with all earlier visits of the vehicle, oldest first.
/// Checked: tests/record/evidence_of_visit_test.cpp.
Evidence evidenceOfVisit(const Book& book, std::int64_t visitId);

} // namespace swarfbook
