// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/table_formats.h"
#include "record/book.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What export takes out of a book, row by row. What was withdrawn is left out, and so are plates
/// and VINs. Lengths are in the unit that a column's name ends in. Checked:
/// tests/cli/export_test.cpp.
namespace swarfbook::cli {

/// A vehicle's visit whose rows are asked for.
struct ExportedVisit {
    const Book* book;
    const Vehicle& vehicle;
    const Visit& visit;
};
using RowTaker = std::function<void(const ExportRow&)>;

/// One kind of rows: its name as typed, what it is, and how a visit's rows are handed on.
struct ExportTable {
    std::string_view name, help;
    std::function<void(const ExportedVisit&, const RowTaker&)> rowsOf;
    ExportRow empty; ///< its columns, for a file without rows
};

/// "visits", "photos", "pieces", "flushes", "observations" and "work-photos".
const std::vector<ExportTable>& exportTables();

} // namespace swarfbook::cli
