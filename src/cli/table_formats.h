// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>

#include <string>

/// Rows of an export for other programs. Checked: tests/cli/export_test.cpp.
namespace swarfbook::cli {

/// A row: its columns' names with a value each, which is null, true or false, a number, a text, or
/// (JSON alone) a document of its own.
using ExportRow = nlohmann::ordered_json;

/// The names of a row's columns, as the first line of a CSV file (RFC 4180).
std::string csvHeader(const ExportRow& row);

/// The row as a line of CSV by RFC 4180, in UTF-8 without a byte order mark: fields with a comma, a
/// quotation mark or a line break stand in quotation marks; the line ends with a carriage return
/// and a line feed. Null is an empty field, a document its JSON text. Control characters and bytes
/// that are not UTF-8 are escaped as base/text.h's shown() does.
///
/// A text that a spreadsheet would take for a formula (it begins with = + - @, a tab or a carriage
/// return) gets an apostrophe in front, which spreadsheets do not show, so no note in an old book
/// can make one compute or fetch something. Numbers, negative ones too, stay numbers.
std::string csvLine(const ExportRow& row);

/// The row as a line of JSON Lines: one JSON object in UTF-8 and a line feed. Only bytes that are
/// not UTF-8 are changed, to U+FFFD.
std::string jsonLine(const ExportRow& row);

} // namespace swarfbook::cli
