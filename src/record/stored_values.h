// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <optional>
#include <string>
#include <string_view>

/// Values read from book.db, checked as if an enemy had typed them: a book may be damaged, or come
/// from somebody else. The tables' own CHECK constraints say the same (schema_v5.cpp), but a file
/// need not obey them. Each function returns its value or throws a ToolError that names the book
/// (`where`) and the entry and advises to go back to a backup.
/// Checked: tests/record/stored_values_test.cpp, tests/record/hostile_book_test.cpp.
namespace swarfbook {

/// 64 lower-case hexadecimal digits: it becomes a path.
bool isSha256(std::string_view text);

// From memory: no road vehicle is known to have gone much beyond 5,000,000 km.
inline constexpr double farthestKm = 6e6;

/// No length in a book is longer.
inline constexpr double longestMm = 1e6;

/// No place on a card lies farther from its corner.
inline constexpr double farthestOnCardMm = 1e3;

/// Throws the ToolError. @param entry  such as "photo 7"; @param what  such as "its place".
[[noreturn]] void throwDamaged(const std::string& where, std::string_view entry,
                               std::string_view what);

/// The entries of one row, for the messages.
struct StoredRow {
    const std::string& where; ///< names the book
    std::string entry;        ///< such as "photo 7"

    [[nodiscard]] std::string sha256(const std::string& text) const;
    [[nodiscard]] std::string extension(const std::string& text) const;
    [[nodiscard]] Place place(const std::string& text) const;
    /// A day of the calendar, "YYYY-MM-DD", 1980 or later.
    [[nodiscard]] std::string date(const std::string& text) const;
    [[nodiscard]] std::string dateOrEmpty(const std::string& text) const;
    /// "YYYY-MM-DDThh:mm:ssZ".
    [[nodiscard]] std::string moment(const std::string& text) const;
    /// 0 to farthestKm, or nothing.
    [[nodiscard]] std::optional<double> distanceKm(std::optional<double> km) const;
    /// Finite and 0 to 1,000,000 mm.
    [[nodiscard]] double lengthMm(std::optional<double> mm) const;
    /// A coordinate on the card: finite and -1,000 to 1,000 mm.
    [[nodiscard]] double coordinateMm(std::optional<double> mm) const;
    /// "close" or "wide".
    [[nodiscard]] std::string layout(const std::string& text) const;
    /// Not empty and at most `longest` characters long.
    [[nodiscard]] std::string key(const std::string& text, std::size_t longest) const;
};

} // namespace swarfbook
