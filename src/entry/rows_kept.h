// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/work_sheet.h"
#include "record/book.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace swarfbook {

/// An observation of the row's kind with only the words that stand on the sheet.
Observation startOf(const ObservationForm& form, const SheetEntry& entry);

/// What is said of a row that was left out.
inline constexpr std::string_view notInspected = "not inspected";

/// Whether a row cannot be kept without this field.
bool isNeeded(const ObservationForm& form, const SheetField& field);

/// 'solenoid A coil from "at" on': the name kept as not inspected for a row in which the walk
/// stopped.
std::string goesOnFrom(const std::string& name, const SheetField& field);

/// The rows of its work sheet that a visit already has.
/// Checked: tests/cli/walk_test.cpp.
class RowsKept {
  public:
    /// Reads the entries of the book; a distance since the last clean that was entered with the
    /// visit counts as observed.
    void read(const Book& book, const Visit& visit);
    /// Whether the row was observed or left out, and the walk did not stop in it.
    [[nodiscard]] bool isAnswered(const SheetBlock& block, const SheetEntry& entry) const;
    /// What was observed of the row, as described, in the order of the book; "not inspected" where
    /// it was left out.
    [[nodiscard]] std::vector<std::string> said(const SheetBlock& block,
                                                const SheetEntry& entry) const;

    /// The part of a row that was kept when the walk stopped in it.
    struct Part {
        std::size_t from = 0;                 ///< the field that it goes on with
        std::int64_t marker = 0;              ///< the entry that says so
        std::optional<std::int64_t> replaces; ///< the entry of the part
        Observation observation;
    };
    [[nodiscard]] std::optional<Part> partOf(const SheetBlock& block, const std::string& name,
                                             const Observation& start) const;

  private:
    [[nodiscard]] bool isLeftOut(const std::string& name) const;
    static bool isOfRow(const SheetBlock& block, const Observation& start, const Observation& one);

    std::vector<std::pair<std::int64_t, Observation>> kept_; ///< by their numbers
};

} // namespace swarfbook
