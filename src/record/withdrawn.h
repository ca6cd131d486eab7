// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book_values.h"

#include <string>
#include <string_view>

/// SQL for the book's own members: numbers of the vehicles, visits, photos, flushes and readings of
/// known sizes that are withdrawn.
namespace swarfbook {

inline constexpr std::string_view withdrawnVisitNumbers =
    "(SELECT visit_id FROM withdrawal AS act WHERE visit_id IS NOT NULL AND withdrawn = 1 AND "
    "NOT EXISTS (SELECT 1 FROM withdrawal AS later WHERE later.visit_id = act.visit_id AND "
    "later.id > act.id))";
inline constexpr std::string_view withdrawnPhotoNumbers =
    "(SELECT photo_id FROM withdrawal AS act WHERE photo_id IS NOT NULL AND withdrawn = 1 AND "
    "NOT EXISTS (SELECT 1 FROM withdrawal AS later WHERE later.photo_id = act.photo_id AND "
    "later.id > act.id))";
inline constexpr std::string_view withdrawnVehicleNumbers =
    "(SELECT vehicle_id FROM vehicle_withdrawal AS act WHERE withdrawn = 1 AND "
    "NOT EXISTS (SELECT 1 FROM vehicle_withdrawal AS later WHERE later.vehicle_id = "
    "act.vehicle_id AND later.id > act.id))";
inline constexpr std::string_view withdrawnFlushNumbers =
    "(SELECT flush_id FROM flush_withdrawal AS act WHERE withdrawn = 1 AND "
    "NOT EXISTS (SELECT 1 FROM flush_withdrawal AS later WHERE later.flush_id = act.flush_id AND "
    "later.id > act.id))";
inline constexpr std::string_view withdrawnCheckNumbers =
    "(SELECT check_id FROM check_withdrawal AS act WHERE withdrawn = 1 AND "
    "NOT EXISTS (SELECT 1 FROM check_withdrawal AS later WHERE later.check_id = act.check_id AND "
    "later.id > act.id))";

/// "Visit 3 was withdrawn on 2025-03-14 by R. Demo: typed twice. swarfbook visit withdraw 3 --undo
/// brings it back."
/// @param noun  "visit", "vehicle" or "flush": also the verb that withdraws it
/// @param name  its number or label
/// Checked: tests/record/book_withdrawals_test.cpp.
std::string withdrawalSentence(std::string_view noun, const std::string& name,
                               const ChangeReason& reason, const std::string& at);

} // namespace swarfbook
