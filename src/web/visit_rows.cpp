// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/visit_rows.h"

#include "base/errors.h"
#include "entry/keep_observation.h"
#include "web/page_words.h"

#include <algorithm>

namespace swarfbook::web {
std::string SheetRow::title() const {
    std::string text = !entry.title.empty() ? entry.title : observationTitle(block->form);
    if (unnamed)
        text = "another " + block->form;
    return block->what.empty() ? text : text + ", " + block->what;
}

VisitRows::VisitRows(const Book& book, const Visit& visit)
    : steps_(workSheetSections(sheetJobOf(book, visit))) {
    kept_.read(book, visit);
}

std::vector<SheetRow> VisitRows::rowsOf(const SheetSection& step) const {
    std::vector<SheetRow> rows;
    for (const SheetBlock& block : step.blocks) {
        bool namesOne = false;
        for (const SheetEntry& entry : block.entries) {
            namesOne = namesOne || (block.again && entry.given.empty());
            rows.push_back({&block, entry, block.again && entry.given.empty()});
        }
        if (block.emptyRows > 0 && !namesOne)
            rows.push_back({&block, {}, true});
    }
    return rows;
}

bool VisitRows::isAnswered(const SheetRow& row) const {
    return kept_.isAnswered(*row.block, row.entry);
}

bool VisitRows::isLeftOut(const SheetRow& row) const {
    const std::vector<std::string> lines = said(row);
    return lines.size() == 1 && lines.front() == notInspected;
}

StepState VisitRows::stateOf(std::size_t step) const {
    StepState state;
    for (const SheetRow& row : rowsOf(steps_.at(step)))
        if (!row.unnamed) {
            ++state.rows;
            state.open += isAnswered(row) ? 0 : 1;
            state.leftOut += isLeftOut(row) ? 1 : 0;
        }
    return state;
}

std::vector<std::string> VisitRows::said(const SheetRow& row) const {
    return row.unnamed ? std::vector<std::string>() : kept_.said(*row.block, row.entry);
}

SheetRow VisitRows::row(const std::string& name, bool unnamed) const {
    for (const SheetSection& step : steps_)
        for (const SheetRow& one : rowsOf(step))
            if (one.name() == name && one.unnamed == unnamed)
                return one;
    throw UsageError("The work sheet of this visit has no such row.");
}

} // namespace swarfbook::web
