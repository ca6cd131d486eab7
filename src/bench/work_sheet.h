// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/typed_observation.h"
#include "bench/unit_names.h"

#include <string>
#include <vector>

/// The work sheet: the questions at the bench, in order. It is printed and filled in by hand, or
/// asked question by question. Both come from here, and all words come from the descriptions of the
/// fields.
namespace swarfbook {

/// The job that the sheet is for; "" leaves room to write.
struct WorkSheetJob {
    std::string workshop, vehicle, date;
    std::string visit; ///< its number, "" = none yet
    UnitNames names;   ///< rows for its parts; without a chart R and 1 to 6 and empty rows
    std::string unit;  ///< as the vehicle's entry has it
};

/// One field to fill in.
struct SheetField {
    enum class Style {
        room,    ///< room to write
        boxes,   ///< a box for each word
        yesNo,   ///< a box for y and one for n
        letters, ///< a box for the first letter of each word
        columns, ///< of a grid: a column for each word
        tick     ///< one box
    };
    const FieldEntry* field = nullptr;
    Style style = Style::room;
    std::string label;              ///< "" = the field's own
    std::vector<std::string> words; ///< the words that have a box; others are written in by hand
    enum class Use { both, printed, asked };
    Use use = Use::both;                ///< printed alone if another field takes the answer
    std::vector<std::string> onlyAfter; ///< asked only if one of these was answered before

    [[nodiscard]] std::string title() const; ///< its label
    /// The choices of a question: the words as they are printed ("..." if there are more), or what
    /// to write.
    [[nodiscard]] std::string choices() const;
};

/// One observation: a row of a grid or a part of a line.
struct SheetEntry {
    std::vector<std::string> given; ///< words after the kind that are already there: "3"
    std::string title;              ///< "gear 3"; "" if the label says enough
};

struct SheetBlock {
    std::string form; ///< how it is typed
    std::string what; ///< name if there are several blocks of one form: "coil"; else ""
    std::vector<SheetField> fields;
    std::vector<SheetEntry> entries;
    std::string rowTitle;      ///< title of a grid's first column; "" = no grid but lines
    std::size_t emptyRows = 0; ///< to name parts by hand
    bool beside = false;       ///< printed beside the block before
    bool again = false;        ///< asked again until there is nothing more

    /// "gear 3", "solenoid A coil": the name under which a left-out entry is kept as not inspected.
    [[nodiscard]] std::string nameOf(const SheetEntry& entry) const;
};

struct SheetSection {
    std::string title;
    std::vector<std::string> notes; ///< what the classes mean
    std::vector<SheetBlock> blocks;
    std::vector<std::string> cautions{}; ///< cautions of the step that no earlier step gave
    bool afterRepair = false;

    /// The kinds it holds, as they are typed, each once.
    [[nodiscard]] std::vector<std::string> forms() const;
};

/// All steps in order. Each caution stands at the first step that needs it.
/// Checked: tests/cli/work_sheet_test.cpp (order as observe takes them; every box understood).
std::vector<SheetSection> workSheetSections(const WorkSheetJob& job);

/// The printed form of a block. In a text "[]" is a box to tick and "_" to "____" is room to write,
/// longer with each stroke.
std::vector<std::string> sheetLines(const SheetBlock& block);            ///< of no grid
std::vector<std::string> gridTitles(const SheetBlock& block);            ///< of a grid
std::vector<std::vector<std::string>> gridRows(const SheetBlock& block); ///< beside the titles

/// The sheet as plain text.
std::string workSheetText(const WorkSheetJob& job);

} // namespace swarfbook
