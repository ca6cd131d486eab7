// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/rows_kept.h"

#include "record/evidence_of_visit.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// The fields that distinguish the rows of one kind.
bool isKey(std::string_view field) {
    static const std::vector<std::string_view> keys{"name", "gear",    "shift", "place",
                                                    "item", "element", "when"};
    return std::find(keys.begin(), keys.end(), field) != keys.end();
}

/// Whether it is of the same gear, part or place.
bool sameRow(const Observation& one, const Observation& other, std::string_view kind) {
    if (observationKind(one) != kind)
        return false;
    const auto a = toJson(one), b = toJson(other);
    for (const FieldEntry& field : fieldsOfKind(kind)) {
        const std::string name(field.name);
        if (isKey(name) &&
            a.value(name, nlohmann::ordered_json()) != b.value(name, nlohmann::ordered_json()))
            return false;
    }
    return true;
}

} // namespace

bool isNeeded(const ObservationForm& form, const SheetField& field) {
    return std::any_of(form.words.begin(), form.words.end(), [&](const FormWord& word) {
        return word.required && word.field == field.field->name;
    });
}

Observation startOf(const ObservationForm& form, const SheetEntry& entry) {
    Observation start = emptyObservation(form.kind);
    for (std::size_t i = 0; i < entry.given.size(); ++i)
        for (const FieldEntry& field : fieldsOfKind(form.kind))
            if (field.name == form.words.at(i).field)
                putAnswer(start, form, field, {entry.given[i]});
    return start;
}

std::string goesOnFrom(const std::string& name, const SheetField& field) {
    return fmt::format("{} from \"{}\" on", name, field.title());
}

void RowsKept::read(const Book& book, const Visit& visit) {
    kept_.clear();
    if (visit.sinceCleanKm)
        kept_.emplace_back(0, SinceClean{Typed<Kilometres>{Kilometres(*visit.sinceCleanKm), ""}});
    for (const StoredObservation& one : standing(book.observations(visit.id)))
        if (auto observation = observationIfReadable(book, one))
            kept_.emplace_back(one.id, std::move(*observation));
}

bool RowsKept::isLeftOut(const std::string& name) const {
    return std::any_of(kept_.begin(), kept_.end(), [&](const auto& one) {
        const auto* left = std::get_if<NotInspected>(&one.second);
        return left != nullptr && left->what == name;
    });
}

bool RowsKept::isAnswered(const SheetBlock& block, const SheetEntry& entry) const {
    const std::string name = block.nameOf(entry);
    const ObservationForm& form = observationForm(block.form);
    for (const SheetField& field : block.fields)
        if (isLeftOut(goesOnFrom(name, field)))
            return false;
    if (isLeftOut(name) || isLeftOut(block.nameOf({})) || isLeftOut(block.form))
        return true;
    const Observation start = startOf(form, entry);
    return std::any_of(kept_.begin(), kept_.end(),
                       [&](const auto& one) { return isOfRow(block, start, one.second); });
}

/// Whether the observation says something that the row asks.
bool RowsKept::isOfRow(const SheetBlock& block, const Observation& start, const Observation& one) {
    const ObservationForm& form = observationForm(block.form);
    return sameRow(one, start, form.kind) &&
           std::any_of(block.fields.begin(), block.fields.end(), [&](const SheetField& field) {
               return isNeeded(form, field) || field.field->given(one);
           });
}

std::vector<std::string> RowsKept::said(const SheetBlock& block, const SheetEntry& entry) const {
    const Observation start = startOf(observationForm(block.form), entry);
    std::vector<std::string> lines;
    for (const auto& [number, observation] : kept_)
        if (isOfRow(block, start, observation))
            lines.push_back(describe(observation));
    if (block.form == "since-clean" && lines.size() > 1)
        lines.erase(lines.begin(), lines.end() - 1); // one distance holds: what was said last
    if (lines.empty() && isAnswered(block, entry))
        lines.emplace_back(notInspected);
    return lines;
}

std::optional<RowsKept::Part> RowsKept::partOf(const SheetBlock& block, const std::string& name,
                                               const Observation& start) const {
    std::optional<Part> part;
    for (const auto& [number, observation] : kept_)
        if (const auto* left = std::get_if<NotInspected>(&observation))
            for (std::size_t i = 0; i < block.fields.size(); ++i)
                if (left->what == goesOnFrom(name, block.fields[i]))
                    part = Part{i, number, {}, start};
    if (!part)
        return part;
    for (const auto& [number, observation] : kept_)
        if (sameRow(observation, start, observationForm(block.form).kind)) {
            part->replaces = number;
            part->observation = observation;
        }
    return part;
}

} // namespace swarfbook
