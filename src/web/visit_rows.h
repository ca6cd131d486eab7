// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/work_sheet.h"
#include "entry/rows_kept.h"
#include "record/book.h"

#include <string>
#include <vector>

namespace swarfbook::web {

/// How many rows a step of the work sheet has, how many are not answered yet, and how many of the
/// others were left out.
struct StepState {
    std::size_t rows = 0, open = 0, leftOut = 0;
};

/// One row of a step: where it stands on the sheet.
struct SheetRow {
    const SheetBlock* block = nullptr;
    SheetEntry entry;
    bool unnamed = false; ///< it is for a part that the sheet does not name
    /// "solenoid A coil": the name under which it is left out, and found again.
    [[nodiscard]] std::string name() const { return block->nameOf(entry); }
    /// What it is called above its fields.
    [[nodiscard]] std::string title() const;
};

/// The work sheet of a visit, with the rows of its unit, and what the visit holds of them.
/// Checked: tests/web/pages_test.cpp.
class VisitRows {
  public:
    VisitRows(const Book& book, const Visit& visit);
    [[nodiscard]] const std::vector<SheetSection>& steps() const { return steps_; }
    [[nodiscard]] std::vector<SheetRow> rowsOf(const SheetSection& step) const;
    [[nodiscard]] StepState stateOf(std::size_t step) const;
    [[nodiscard]] bool isAnswered(const SheetRow& row) const;
    /// Whether the row was said to be not inspected, and nothing else is known of it.
    [[nodiscard]] bool isLeftOut(const SheetRow& row) const;
    /// What stands in the book of a row, one sentence each.
    [[nodiscard]] std::vector<std::string> said(const SheetRow& row) const;
    /// The row of that name and of a part that the sheet names or not; UsageError where there is
    /// none.
    [[nodiscard]] SheetRow row(const std::string& name, bool unnamed) const;

  private:
    std::vector<SheetSection> steps_;
    RowsKept kept_;
};

} // namespace swarfbook::web
