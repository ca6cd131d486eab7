// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/work_sheet.h"

#include "base/shown_units.h"
#include "bench/cautions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace swarfbook {
namespace {

using Style = SheetField::Style;

bool isPrinted(const SheetField& field) {
    return field.use != SheetField::Use::asked;
}

std::string unitOf(const SheetField& field) {
    const bool writesUnit = field.field->unit == "kPa"; // inHg, psi or kPa: written with the value
    if (writesUnit || field.label.find("\u00b0C") != std::string::npos)
        return "";
    const std::string unit(inShownUnit(0.0, field.field->unit).unit);
    return unit == "C" || unit == "F" ? "\u00b0" + unit : unit;
}

/// Longer for words than for a number.
std::string strokesOf(const SheetField& field) {
    using fields::Typing;
    const Typing typing = field.field->about.typing;
    const bool range = typing == Typing::lowEnd;
    const bool isShort = typing == Typing::gear || !field.field->unit.empty();
    const std::string unit = unitOf(field);
    const std::string room = range ? "__ to __" : isShort ? "__" : "____";
    return unit.empty() ? room : room + " " + unit;
}

std::string boxesOf(const SheetField& field) {
    std::string text;
    for (const std::string& word : field.words)
        text += (text.empty() ? "[] " : "  [] ") + word;
    return text;
}

/// The part to fill in, without its label.
std::string blank(const SheetField& field) {
    switch (field.style) {
    case Style::boxes:
    case Style::columns:
        return boxesOf(field);
    case Style::yesNo:
        return "[]y []n";
    case Style::letters: {
        std::string text;
        for (const std::string& word : field.words)
            text += fmt::format("{}[]{:c}", text.empty() ? "" : " ",
                                std::toupper(static_cast<unsigned char>(word[0])));
        return text;
    }
    case Style::tick:
        return "[]";
    case Style::room:
        break;
    }
    return strokesOf(field);
}

/// With its label, in a line: "smell [] none  [] burnt", "[] first opening".
std::string labelled(const SheetField& field) {
    const std::string label = field.title();
    if (field.style == Style::tick)
        return "[] " + label;
    if (field.style == Style::room && !field.words.empty())
        return boxesOf(field) + "   " + label + " " + blank(field);
    return label.empty() ? blank(field) : label + " " + blank(field);
}

std::string lineOf(const SheetBlock& block, const std::string& title) {
    std::string line = title;
    for (const SheetField& field : block.fields)
        if (isPrinted(field))
            line += (line.empty() || field.title().empty() ? (line.empty() ? "" : " ")
                     : line == title && !title.empty()     ? " "
                                                           : "   ") +
                    labelled(field);
    return line;
}

/// Titles of a field's columns.
std::vector<std::string> columnsOf(const SheetField& field) {
    if (field.style != Style::columns)
        return {field.title()};
    std::vector<std::string> titles = field.words;
    if (titles.size() < field.field->words.size())
        titles.emplace_back("other");
    return titles;
}

} // namespace

std::string SheetField::title() const {
    return label;
}

std::string SheetField::choices() const {
    if (style == Style::yesNo || style == Style::tick)
        return "y, n";
    if (style == Style::room)
        return field->about.help.empty() ? std::string(field->unit)
                                         : std::string(field->about.help);
    std::string list;
    for (const std::string& word : words)
        list += (list.empty() ? "" : ", ") + word;
    return words.size() < field->words.size() ? list + ", ..." : list;
}

std::string SheetBlock::nameOf(const SheetEntry& entry) const {
    std::string name = form;
    for (const std::string& word : entry.given)
        name += " " + word;
    return what.empty() ? name : name + " " + what;
}

std::vector<std::string> SheetSection::forms() const {
    std::vector<std::string> list;
    for (const SheetBlock& block : blocks)
        if (std::find(list.begin(), list.end(), block.form) == list.end())
            list.push_back(block.form);
    return list;
}

std::vector<std::string> sheetLines(const SheetBlock& block) {
    std::string line;
    for (const SheetEntry& entry : block.entries)
        line += (line.empty() ? "" : "   ") + lineOf(block, entry.title);
    for (std::size_t i = 0; i < block.emptyRows; ++i)
        line += (line.empty() ? "" : "   ") +
                lineOf(block, observationForm(block.form).name + " of ____");
    return {line};
}

std::vector<std::string> gridTitles(const SheetBlock& block) {
    std::vector<std::string> titles{block.rowTitle};
    for (const SheetField& field : block.fields)
        if (isPrinted(field))
            for (const std::string& title : columnsOf(field))
                titles.push_back(title);
    return titles;
}

std::vector<std::vector<std::string>> gridRows(const SheetBlock& block) {
    std::vector<std::string> cells;
    for (const SheetField& field : block.fields) {
        if (!isPrinted(field))
            continue;
        if (field.style == Style::columns) {
            cells.insert(cells.end(), field.words.size(), "[]");
            if (field.words.size() < field.field->words.size())
                cells.emplace_back("");
        } else {
            cells.push_back(field.style == Style::room ? "" : blank(field));
        }
    }
    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < block.entries.size() + block.emptyRows; ++i) {
        rows.push_back({i < block.entries.size() ? block.entries[i].given.front() : ""});
        rows.back().insert(rows.back().end(), cells.begin(), cells.end());
    }
    return rows;
}

namespace {

std::string blockText(const SheetBlock& block) {
    std::string text;
    if (block.rowTitle.empty()) {
        for (const std::string& line : sheetLines(block))
            text += line + "\n";
        return text;
    }
    const auto row = [](const std::vector<std::string>& cells, const char* empty) {
        std::string line;
        for (std::size_t i = 0; i < cells.size(); ++i)
            line += (i == 0 ? "" : " | ") + (cells[i].empty() ? empty : cells[i]);
        return line + "\n";
    };
    text += row(gridTitles(block), "");
    for (const auto& cells : gridRows(block))
        text += row(cells, "____");
    return text;
}

} // namespace

std::string workSheetText(const WorkSheetJob& job) {
    const auto orRoom = [](const std::string& text) {
        return text.empty() ? "____________" : text;
    };
    std::string text = fmt::format(
        "WORK SHEET\nVehicle {}   Transmission {}   Visit {}   Date {}\n", orRoom(job.vehicle),
        orRoom(job.unit), orRoom(job.visit), orRoom(dateWords(job.date)));
    text += "n/i beside what was not inspected\n";
    for (const SheetSection& section : workSheetSections(job)) {
        text += "\n" + section.title + "\n";
        for (const std::string& caution : section.cautions)
            text += "! " + caution + "\n";
        for (const std::string& note : section.notes)
            text += note + "\n";
        for (const SheetBlock& block : section.blocks) {
            text += blockText(block);
            text += fmt::format("  typed: {}\n", observationForm(block.form).example);
        }
    }
    return text + "\n" + std::string(standingLine()) + "\n";
}

} // namespace swarfbook
