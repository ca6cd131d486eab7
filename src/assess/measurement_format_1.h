// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>

namespace swarfbook {

/// A document "swarfbook measurement 1", which earlier programs wrote and old books hold, turned
/// into "swarfbook measurement 2": `look`, `look_probability` and `by_look` become `type`,
/// `type_probability` and `by_type`; "polymer" and "undecided" become "plastic" and "unidentified".
/// A field that is missing stays missing; the reader reports it.
/// Checked: tests/assess/measurement_format_1_test.cpp.
nlohmann::json fromFormat1(nlohmann::json document);

} // namespace swarfbook
