// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "record/book.h"

#include <cstdint>
#include <optional>

namespace swarfbook {

/// A stored observation read. ToolError when it cannot be.
Observation observationOf(const StoredObservation& stored);

/// The same, and nothing where it cannot be read; the book then says that it is left out.
std::optional<Observation> observationIfReadable(const Book& book, const StoredObservation& stored);

/// Those that stand: neither corrected by a later entry nor taken back, in the order in which they
/// were made; a correction counts as made where the first entry that it stands in for was.
std::vector<StoredObservation> standing(std::vector<StoredObservation> all);

/// What the book holds of one visit, in the form that judging reads: photos with their newest
/// finding, observations that stand in the order they were made. A distance since the last clean
/// that was entered with the visit counts as told first. UsageError when there is no such visit;
/// ToolError when a stored observation cannot be read: nothing is judged without it.
VisitEvidence evidenceOfOneVisit(const Book& book, const Visit& visit);

/// The same with all earlier visits of the vehicle, oldest first.
/// Checked: tests/record/evidence_of_visit_test.cpp.
Evidence evidenceOfVisit(const Book& book, std::int64_t visitId);

} // namespace swarfbook
