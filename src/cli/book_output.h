// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book.h"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// What vehicle and visit show of a book: as text to read, and as JSON whose `format` carries its
/// version. Checked: tests/cli/book_output_test.cpp.
namespace swarfbook::cli {

/// "Withdrawn: photo 3 (2026-11-02 by M.: a thumb on the card)", a line; `what` is "photo 3".
std::string withdrawnLine(std::string_view what, const ChangeReason& reason, const std::string& at);

/// Such a line for each, after an empty line; "" for none. `what` is "photo".
std::string withdrawnLines(std::string_view what, const std::vector<Withdrawal>& all);

std::string vehicleListText(const Book& book);
nlohmann::ordered_json vehicleListJson(const Book& book);

std::string vehicleText(const Book& book, const Vehicle& vehicle);
nlohmann::ordered_json vehicleJson(const Book& book, const Vehicle& vehicle);

/// What was said at a visit's start: date, odometer, last clean, who looked, complaint.
nlohmann::ordered_json visitFacts(const Visit& visit);

std::string visitListText(const Book& book, const Vehicle& vehicle);
nlohmann::ordered_json visitListJson(const Book& book, const Vehicle& vehicle);

std::string visitText(const Book& book, const Visit& visit);
nlohmann::ordered_json visitJson(const Book& book, const Visit& visit);

} // namespace swarfbook::cli
