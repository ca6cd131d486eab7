// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/walk_questions.h"
#include "entry/repair_done.h"

#include <fmt/format.h>

#include <iostream>
#include <utility>

namespace swarfbook::cli {

/// The row as it goes into the book, in the place of what was kept of it before.
std::vector<ToKeep> Walk::entriesOf(const Row& row) {
    std::vector<ToKeep> entries;
    if (row.marker)
        entries.push_back({TakenBack{"the row went on"}, "", row.marker});
    Observation whole = row.observation;
    completeObservation(whole, row.sure);
    std::optional<std::int64_t> replaces = row.replaces;
    for (Observation& one : withWorkRead(whole, WorkAsked::partsAlone, row.sure)) {
        entries.push_back({std::move(one), "", replaces, row.sure});
        replaces.reset();
    }
    return entries;
}

/// Keeps the row; where it cannot be so, asks whether it is meant. False: ask the row anew.
bool Walk::keepRow(Row& row) {
    if (row.leftOut) {
        leaveOut(row.name);
        return true;
    }
    for (;;) {
        try {
            keep(entriesOf(row));
            return true;
        } catch (const UsageError& wrong) {
            say(wrong.what());
            const std::string answer = answerTo(
                "Is it so? \"sure\" keeps it as it is, \"again\" asks this row once more.");
            if (wordAsTyped(answer) != "sure" || row.sure == Sure::meant)
                return false;
            row.sure = Sure::meant;
        }
    }
}

/// Goes on in a row that was stopped in.
void Walk::takeUp(Row& row) const {
    const auto part = kept_.partOf(row.block, row.name, row.observation);
    if (!part)
        return;
    row.from = part->from;
    row.marker = part->marker;
    row.replaces = part->replaces;
    row.observation = part->observation;
}

/// Keeps what was answered in a row that is not asked to its end.
/// @param goesOn  what is to be kept as not inspected; "" = nothing
void Walk::keepAsFar(const Row& row, const std::string& goesOn) {
    if (!row.anything || row.leftOut)
        return;
    try {
        std::vector<ToKeep> entries = entriesOf(row);
        if (!goesOn.empty())
            entries.push_back({NotInspected{goesOn}, "", {}});
        keep(std::move(entries));
    } catch (const UsageError& wrong) {
        say(fmt::format("The row was not kept, it will be asked again: {}", wrong.what()));
    }
}

void Walk::leaveOut(const std::string& what) {
    keep({{NotInspected{what}, "", {}}});
}

/// All of them or none.
void Walk::keep(std::vector<ToKeep> entries) {
    BookTransaction transaction = book_.begin();
    std::string told;
    WalkEnd counted = end_;
    for (ToKeep& one : entries) {
        const StoredObservation stored = keeper_.keep(one);
        told += observationText(visit_.id, one.observation, stored, "");
        if (std::holds_alternative<NotInspected>(one.observation))
            ++counted.left;
        else if (!std::holds_alternative<TakenBack>(one.observation))
            ++counted.kept;
    }
    transaction.commit();
    end_ = counted;
    std::cout << told << std::flush;
    for (const std::string& remark : keeper_.takeRemarks())
        say(remark);
    kept_.read(book_, visit_);
}

} // namespace swarfbook::cli
