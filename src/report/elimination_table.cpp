// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/elimination_table.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

bool isShown(const EliminatedPart& part) {
    if (part.part.kind == PartKind::circuit)
        return part.state == PartState::suspect;
    return part.part.kind != PartKind::common || part.state != PartState::untested;
}

std::string stateWords(const EliminatedPart& part) {
    if (part.state == PartState::cleared && !part.surely)
        return "cleared, if driven alike";
    return std::string(partStateName(part.state));
}

} // namespace

std::vector<std::vector<std::string>> eliminationRows(const Elimination& e) {
    std::vector<std::vector<std::string>> rows{{"Part"}, {"Seen in that gear"}};
    rows[0].insert(rows[0].end(), e.gears.begin(), e.gears.end());
    rows[0].emplace_back("State");
    rows[1].insert(rows[1].end(), e.seenIn.begin(), e.seenIn.end());
    rows[1].emplace_back();
    for (const EliminatedPart& part : e.parts) {
        if (!isShown(part))
            continue;
        std::vector<std::string> row{part.label};
        for (const std::string& cell : part.cells)
            row.push_back(cell == "open" ? "not driven" : cell);
        row.push_back(stateWords(part));
        rows.push_back(std::move(row));
    }
    return rows;
}

std::string eliminationLegend() {
    return "A cell says what was seen in a gear that needs the part; an empty cell says that "
           "the gear does not need it. Suspect means to be tested, not found bad.";
}

std::vector<std::string> eliminationSentences(const Elimination& e) {
    std::vector<std::string> sentences, untested;
    for (const PartState state : {PartState::suspect, PartState::cleared})
        for (const EliminatedPart* part : e.inState(state))
            if (isShown(*part))
                sentences.push_back(part->sentence);
    for (const EliminatedPart* part : e.inState(PartState::untested))
        if (isShown(*part))
            untested.push_back(part->label);
    if (!untested.empty())
        sentences.push_back(
            fmt::format("Neither suspect nor shown to be good: {}.", listInWords(untested)));
    return sentences;
}

} // namespace swarfbook
