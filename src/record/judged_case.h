// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"

#include <cstdint>
#include <string>
#include <vector>

/// The book's table of judged cases, for the book's own members. Every row can be judged anew from
/// the rest of the book, so a doubtful row is dropped and never repaired.
namespace swarfbook {

/// Drops the judged case of this visit. Call it in the transaction of every change on which the
/// judgement depends: of the visit itself, its photos, their findings and its observations.
/// Checked: tests/record/judged_case_test.cpp (after every kind of change).
void forgetJudgedCase(Database& database, std::int64_t visitId);

/// Visits whose row is no longer as it was written, for example after a fault of the disk. Such
/// rows are never used.
std::vector<std::int64_t> damagedJudgedCases(Database& database);

/// Drops those. @return their visits.
std::vector<std::int64_t> dropDamagedJudgedCases(Database& database);

} // namespace swarfbook
