// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/check_against_standard.h"
#include "record/book_values.h"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

/// Readings of things of known size as text and as documents.
namespace swarfbook::cli {

/// One photo's reading; `known` as typed.
std::string checkText(const StandardCheck& check, const std::string& known);
/// The document "swarfbook check 1".
nlohmann::ordered_json checkJson(const StandardCheck& check);

/// All readings of a book as a table, with their joint result; at least one.
std::string checksText(const std::vector<StoredCheck>& checks);
/// The document "swarfbook checks 1"; an empty list of checks has no study.
nlohmann::ordered_json checksJson(const std::vector<StoredCheck>& checks);

} // namespace swarfbook::cli
