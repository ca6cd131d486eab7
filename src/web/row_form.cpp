// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/row_form.h"

#include "base/errors.h"
#include "entry/rows_kept.h"
#include "web/html.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace swarfbook::web {
namespace {

using Style = SheetField::Style;

std::string nameOf(std::size_t field) {
    return fmt::format("f{}", field);
}

bool isAsked(const SheetField& field) {
    return field.use != SheetField::Use::printed;
}

/// The words that can be tapped.
std::vector<std::string> wordsToTap(const SheetField& field) {
    if (field.style == Style::yesNo)
        return {"yes", "no"};
    if (field.style == Style::tick)
        return {"yes"};
    return field.words;
}

/// Whether something else than those words may be said.
bool canBeTyped(const SheetField& field) {
    return field.style == Style::room || wordsToTap(field).empty() ||
           (field.style != Style::yesNo && field.style != Style::tick &&
            field.words.size() < field.field->words.size());
}

std::string tapped(const SheetField& field, const std::string& name, const std::string& chosen) {
    const std::vector<std::string> words = wordsToTap(field);
    if (words.empty())
        return {};
    std::string choices;
    for (const std::string& word : words)
        choices += answerToTap(name, word, word, word == chosen);
    return choices + answerToTap(name, "", "not said", chosen.empty());
}

std::string typedIn(const SheetField& field, const std::string& name, const std::string& value,
                    const std::string& label) {
    const bool afterWords = !wordsToTap(field).empty();
    const std::string words = afterWords ? label + ", other" : label;
    std::string hint = field.style == Style::room ? field.choices() : "";
    if (field.style != Style::room)
        for (const std::string& word : field.field->words)
            if (std::find(field.words.begin(), field.words.end(), word) == field.words.end())
                hint += (hint.empty() ? "" : ", ") + word;
    return swarfbook::web::field({name + "t", words, value, hint});
}

/// @param reading  what the sheet prints beside the boxes for the reading itself; null for nothing.
std::string fieldOf(const SheetField& field, const SheetField* reading, const std::string& name,
                    const Asked& asked, const std::string& rowTitle) {
    const std::string title = field.title().empty() ? rowTitle : field.title();
    // a column of the printed sheet is headed by the unit alone
    const std::string label = title.starts_with("\u00B0") ? "temperature, " + title : title;
    const std::string choices = tapped(field, name, asked.said(name));
    std::string html;
    if (!choices.empty())
        html += fmt::format("<fieldset><legend>{}</legend><div class=\"choices\">{}</div>"
                            "</fieldset>",
                            escaped(label), choices);
    if (reading != nullptr && !canBeTyped(field))
        html += swarfbook::web::field({name + "t", label + ", " + reading->title(),
                                       asked.said(name + "t"),
                                       std::string(reading->field->about.help)});
    if (canBeTyped(field))
        html += typedIn(field, name, asked.said(name + "t"), label);
    return html;
}

/// A bare number in the unit that the label names, as the form shows it: "at \u00B0C".
std::string withUnitOf(const SheetField& field, const std::string& typed) {
    static const std::array<std::string_view, 7> units{"\u00B0C", "ohm",    "V",  "A",
                                                       "Hz",      "ml/min", "kPa"};
    const std::string label = field.title();
    const bool bare =
        !typed.empty() && typed.find_first_not_of(" 0123456789.,-") == std::string::npos;
    for (const std::string_view unit : units)
        if (bare && (label == unit || label.ends_with(" " + std::string(unit))))
            return typed + " " + std::string(unit);
    return typed;
}

/// The field that names a part for which the sheet has an empty row.
const FieldEntry& nameField(const SheetRow& row) {
    const ObservationForm& form = observationForm(row.block->form);
    return form.field(form.words.front().field);
}

} // namespace

std::string rowFields(const SheetRow& row, const Asked& asked) {
    std::string html;
    if (row.unnamed && row.block->emptyRows > 0)
        html += field({"part", std::string(nameField(row).about.label), asked.said("part")});
    const std::vector<SheetField>& fields = row.block->fields;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        if (!isAsked(fields[i]))
            continue;
        const bool beside = i + 1 < fields.size() && !isAsked(fields[i + 1]);
        html +=
            fieldOf(fields[i], beside ? &fields[i + 1] : nullptr, nameOf(i), asked, row.title());
    }
    return html;
}

Observation rowFilledIn(const SheetRow& row, const Asked& asked, Sure sure) {
    const ObservationForm& form = observationForm(row.block->form);
    Observation observation = startOf(form, row.entry);
    bool anything = false;
    const auto put = [&](const FieldEntry& field, const std::string& answer) {
        if (answer.find_first_not_of(' ') == std::string::npos)
            return;
        putAnswer(observation, form, field, {answer, sure});
        anything = true;
    };
    if (row.unnamed && row.block->emptyRows > 0) {
        if (asked.said("part").empty())
            throw UsageError("Say which part it is.");
        put(nameField(row), asked.said("part"));
        anything = false;
    }
    for (std::size_t i = 0; i < row.block->fields.size(); ++i) {
        if (!isAsked(row.block->fields[i]))
            continue;
        const std::string typed = withUnitOf(row.block->fields[i], asked.said(nameOf(i) + "t"));
        put(*row.block->fields[i].field, typed.empty() ? asked.said(nameOf(i)) : typed);
    }
    if (!anything)
        throw UsageError("Nothing was filled in.");
    return observation;
}

} // namespace swarfbook::web
