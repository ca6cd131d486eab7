// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/field.h"
#include "bench/observation.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// Operations on a field's value that need its type alone; `value` points to one of that type.
struct ValueKind {
    bool (*understands)(const fields::About& about, const std::string& text);
    void (*read)(const fields::About& about, const std::string& text, Sure sure, void* value);
    bool (*given)(const void* value);
    std::string (*phrase)(const fields::About& about, const void* value);
};

/// One field of a kind of observation, without its type. Option lists, readers, help, work sheet
/// and texts are derived from it.
struct FieldEntry {
    std::string_view name;  ///< stored under
    fields::About about;    ///< as bench/observation_fields.h describes it
    bool flag = false;      ///< set by its option alone, without a value
    bool onlyWords = false; ///< takes its own words alone: an enumeration, yes and no, a mark
    std::string_view unit;  ///< of a quantity, else ""
    std::vector<std::string> words; ///< of an enumeration, or for yes and no, as the sheet has them
    const ValueKind* kind = nullptr;
    void* (*kept)(Observation& of) = nullptr; ///< the whole content of an observation of this kind
    std::ptrdiff_t offset = 0;                ///< place of the value in that, in bytes

    /// Whether the text is one of the words; true for any text if the field takes other text as
    /// well.
    [[nodiscard]] bool understands(const std::string& text) const;
    /// Puts the meaning of the text into an observation of this kind. Throws UsageError, which says
    /// what to type instead. Changes nothing for "not known" and "not inspected".
    void read(Observation& into, const std::string& text, Sure sure) const;
    [[nodiscard]] bool given(const Observation& of) const;
    /// Its phrase in the text of the observation; "" if it is not given or another phrase says it.
    [[nodiscard]] std::string phrase(const Observation& of) const;
    /// What to type, in one line: "yes or no", "light, medium, firm".
    [[nodiscard]] std::string help() const;
};

/// The fields of a kind as observationKind() names it, in the order of the text. std::logic_error
/// for another name.
/// Checked: tests/bench/typed_observation_test.cpp.
const std::vector<FieldEntry>& fieldsOfKind(std::string_view kind);

/// An empty observation of this kind.
Observation emptyObservation(std::string_view kind);

} // namespace swarfbook
