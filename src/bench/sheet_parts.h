// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/work_sheet.h"

#include <fmt/format.h>

#include <stdexcept>

/// Parts of the steps of the work sheet.
namespace swarfbook::sheet {

using Style = SheetField::Style;
using Entries = std::vector<SheetEntry>;

/// Makes the fields of one kind by their names.
class FieldsOf {
  public:
    explicit FieldsOf(std::string_view form) : kind_(observationForm(std::string(form)).kind) {}

    SheetField operator()(std::string_view name, Style style) const {
        for (const FieldEntry& field : fieldsOfKind(kind_))
            if (field.name == name)
                return {&field,
                        style,
                        std::string(field.about.label),
                        style == Style::room ? std::vector<std::string>() : field.words,
                        SheetField::Use::both,
                        {}};
        throw std::logic_error("the sheet asks for a field that there is not");
    }
    /// Written in by hand.
    SheetField room(std::string_view name) const { return (*this)(name, Style::room); }
    SheetField boxes(std::string_view name) const { return (*this)(name, Style::boxes); }
    SheetField yesNo(std::string_view name) const { return (*this)(name, Style::yesNo); }
    SheetField tick(std::string_view name) const { return (*this)(name, Style::tick); }

  private:
    std::string_view kind_;
};

inline SheetField called(SheetField field, const std::string& label) {
    field.label = label;
    return field;
}
inline SheetField printedOnly(SheetField field) {
    field.use = SheetField::Use::printed;
    return field;
}
inline SheetField askedOnly(SheetField field) {
    field.use = SheetField::Use::asked;
    return field;
}
inline SheetField onlyAfter(SheetField field, const std::vector<std::string>& words) {
    field.onlyAfter = words;
    return field;
}

/// A block without rows of its own: one observation.
inline SheetBlock one(const std::string& form, std::vector<SheetField> fields) {
    return {form, "", std::move(fields), {{{}, ""}}, "", 0, false, false};
}

/// A row for each name of a kind of part.
inline Entries rowsOf(const std::string& kind, const std::vector<std::string>& names) {
    Entries entries;
    for (const std::string& name : names)
        entries.push_back({{name}, fmt::format("{} {}", kind, name)});
    return entries;
}

/// The steps at the bench, once the valve body is off, and after the repair.
SheetSection solenoidStep(const UnitNames& names);
SheetSection boreStep(const UnitNames& names);
SheetSection insideStep(const UnitNames& names);
SheetSection stepAfterRepair();

} // namespace swarfbook::sheet
