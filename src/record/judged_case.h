// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"

#include <cstdint>
#include <string>
#include <vector>

/// The book's table of judged cases, for the book's own members. Every row can be judged anew from
/// what else the book holds, so a row in doubt is dropped and never mended.
namespace swarfbook {

/// Drops what was judged of this visit. To be called in the transaction of every change of what the
/// judgement rests on: the visit itself, its photos, their findings, its observations.
/// Checked: tests/record/judged_case_test.cpp (after every kind of change).
void forgetJudgedCase(Database& database, std::int64_t visitId);

/// Visits whose row is no longer what was written, as after a fault of the disk. Such rows are
/// never used.
std::vector<std::int64_t> damagedJudgedCases(Database& database);

/// Drops those. @return their visits.
std::vector<std::int64_t> dropDamagedJudgedCases(Database& database);

} // namespace swarfbook
