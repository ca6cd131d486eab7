// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/work_sheet.h"
#include "entry/keep_observation.h"
#include "entry/rows_kept.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace swarfbook::cli {

/// Who stopped the walk, and where.
struct WalkEnd {
    bool stopped = false;
    std::string at;                 ///< the question that was open, "gear 3: load"
    std::size_t kept = 0, left = 0; ///< observations kept, and things not inspected
};

/// What can be typed besides an answer, a line each.
std::string walkHelp();

/// Asks the questions of the work sheet in its order and keeps each answer as soon as its row is
/// whole. What the visit holds already is not asked again.
///
/// An empty answer leaves the box empty; a row of which nothing is said is kept as not inspected.
/// "next" ends a row, "skip all" leaves out the rest of a part's rows, "again" begins the row anew,
/// "stop" stops; so does the end of the answers; "?" shows walkHelp(). A row that was stopped in is
/// kept as far as it goes, with where it goes on. Checked: tests/cli/walk_test.cpp.
class Walk {
  public:
    Walk(Book& book, const Visit& visit, std::istream& answers, std::ostream& talk);

    /// @param afterRepair  ask the step that follows the repair, else all steps before it.
    WalkEnd ask(const WorkSheetJob& job, bool afterRepair);
    [[nodiscard]] const UnitNames& names() const { return keeper_.names(); }

  private:
    /// One entry being asked.
    struct Row {
        const SheetBlock& block;
        const ObservationForm& form;
        std::string name;  ///< "solenoid A coil"
        std::string title; ///< "A"
        Observation observation;
        Sure sure = Sure::ask;
        bool anything = false;                  ///< an answer was given
        bool leftOut = false;                   ///< said to be not inspected
        bool unnamed = false;                   ///< the sheet does not say which part it is of
        std::size_t from = 0;                   ///< the field to begin with
        std::size_t at = 0;                     ///< the field being asked
        std::optional<std::int64_t> replaces{}; ///< the part of the row that was kept before
        std::optional<std::int64_t> marker{};   ///< where it goes on
    };

    void askBlock(const SheetSection& section, const SheetBlock& block, bool laterAnswered);
    bool askRow(const SheetBlock& block, const SheetEntry& entry, bool more);
    bool askFields(Row& row);
    bool askName(Row& row);
    static bool isWanted(const Row& row, const SheetField& field);
    bool askField(Row& row, const SheetField& field);
    bool keepRow(Row& row);
    static std::vector<ToKeep> entriesOf(const Row& row);
    void takeUp(Row& row) const;
    void keepAsFar(const Row& row, const std::string& goesOn);
    void leaveOut(const std::string& what);
    void keep(std::vector<ToKeep> entries);
    std::string lineTo(const std::string& question);
    std::string answerTo(const std::string& question);
    void say(const std::string& sentence);

    Book& book_;
    Visit visit_;
    std::istream& answers_;
    std::ostream& talk_;
    ObservationKeeper keeper_;
    RowsKept kept_;
    std::string section_; ///< the step being asked
    WalkEnd end_;
};

} // namespace swarfbook::cli
