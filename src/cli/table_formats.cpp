// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/table_formats.h"

#include "base/text.h"

#include <string_view>

namespace swarfbook::cli {
namespace {

constexpr std::string_view lineEnd = "\r\n"; // RFC 4180, 2.1

std::string replaced(std::string text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

std::string quotedWhereNeeded(const std::string& field) {
    if (field.find_first_of(",\"\r\n") == std::string::npos)
        return field;
    return '"' + replaced(field, "\"", "\"\"") + '"';
}

std::string dumped(const ExportRow& value) {
    return value.dump(-1, ' ', false, ExportRow::error_handler_t::replace);
}

/// Checked before escaping, because a tab or carriage return in front starts a formula as well.
std::string harmless(const std::string& text) {
    const bool isFormula =
        !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos;
    return (isFormula ? "'" : "") + shown(replaced(text, "\r\n", "\n"), Breaks::keep);
}

std::string csvField(const ExportRow& value) {
    if (value.is_null())
        return {};
    if (value.is_string())
        return quotedWhereNeeded(harmless(value.get<std::string>()));
    return quotedWhereNeeded(dumped(value));
}

} // namespace

std::string csvHeader(const ExportRow& row) {
    std::string line;
    for (const auto& [name, value] : row.items())
        line += (line.empty() ? "" : ",") + quotedWhereNeeded(name);
    return line.append(lineEnd);
}

std::string csvLine(const ExportRow& row) {
    std::string line;
    bool first = true;
    for (const auto& value : row) {
        line += (first ? "" : ",") + csvField(value);
        first = false;
    }
    return line.append(lineEnd);
}

std::string jsonLine(const ExportRow& row) {
    return dumped(row) + "\n";
}

} // namespace swarfbook::cli
