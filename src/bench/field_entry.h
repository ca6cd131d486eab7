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

/// What can be done with a field's value by its type alone; `value` points to one of that type.
struct ValueKind {
    bool (*understands)(const fields::About& about, const std::string& text);
    void (*read)(const fields::About& about, const std::string& text, Sure sure, void* value);
    bool (*given)(const void* value);
    std::string (*phrase)(const fields::About& about, const void* value);
};

/// One field of a kind of observation, without its type: what option lists, readers, help, work
/// sheet and texts are derived from.
struct FieldEntry {
    std::string_view name;  ///< stored under
    fields::About about;    ///< as bench/observation_fields.h describes it
    bool flag = false;      ///< stands alone: set by its option without a value
    bool onlyWords = false; ///< takes its own words alone: an enumeration, yes and no, a mark
    std::string_view unit;  ///< of a quantity, else ""
    std::vector<std::string> words; ///< of an enumeration, or for yes and no, as the sheet has them
    const ValueKind* kind = nullptr;
    void* (*kept)(Observation& of) = nullptr; ///< what an observation of this kind holds, whole
    std::ptrdiff_t offset = 0;                ///< of the value in that, in bytes

    /// Whether the text is one of the words; any text is where words are not all it takes.
    [[nodiscard]] bool understands(const std::string& text) const;
    /// Puts what the text means into an observation of this kind. UsageError saying what to type
    /// instead; nothing is put in for "not known" and "not inspected".
    void read(Observation& into, const std::string& text, Sure sure) const;
    [[nodiscard]] bool given(const Observation& of) const;
    /// Its phrase in the text of the observation, "" when it is not given or told with others.
    [[nodiscard]] std::string phrase(const Observation& of) const;
    /// What to type, in one line: "yes or no", "light, medium, firm".
    [[nodiscard]] std::string help() const;
};

/// The fields of a kind as observationKind() names it, in the order in which they are told.
/// std::logic_error for another name.
/// Checked: tests/bench/typed_observation_test.cpp.
const std::vector<FieldEntry>& fieldsOfKind(std::string_view kind);

/// An observation of this kind of which nothing is said yet.
Observation emptyObservation(std::string_view kind);

} // namespace swarfbook
