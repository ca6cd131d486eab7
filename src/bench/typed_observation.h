// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/field_entry.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

/// Observations as they are typed: KIND WORD... --option VALUE ...
namespace swarfbook {

/// One word after the kind.
struct FormWord {
    enum class Takes { one, allBeforeLast, rest };
    std::string_view field; ///< the name that it is stored under
    std::string shown{};    ///< in the usage; "" = the words there are
    Takes takes = Takes::one;
    bool required = true;
};

/// One way to type an observation. Several can lead to the same kind: "gear", "shift" and
/// "complaint" all are complaints.
struct ObservationForm {
    std::string name;
    std::string_view kind; ///< as it is stored
    std::string help;      ///< one line
    std::vector<FormWord> words;
    std::string example; ///< what follows `swarfbook observe --visit 4`

    /// The field that is stored under this name, which the form has.
    [[nodiscard]] const FieldEntry& field(std::string_view stored) const;
    /// The fields that are typed as options, each once; what shares an option shares its entry.
    [[nodiscard]] std::vector<const FieldEntry*> options() const;
    /// What follows the name: "right|low|high [AMOUNT] [options]".
    [[nodiscard]] std::string usage() const;
};

/// All of them, in the order of a job and of the printed work sheet.
const std::vector<ObservationForm>& observationForms();
/// The form that a typed word names: its name in any case, singular or plural, or another usual
/// word for it ("code", "dtc", "oil"); null for any other word.
/// Checked: tests/bench/typed_observation_test.cpp.
const ObservationForm* formNamed(const std::string& typed);
/// The same; UsageError with the kinds that were perhaps meant, or with all there are.
const ObservationForm& observationForm(const std::string& name);
/// An option's name as it is stored here: "color" is "colour".
std::string optionAsNamed(const std::string& typed);

/// An option that stands alone for another one with its value: --at-pins.
struct ShortOption {
    std::string_view name, option, value, help;
};
const std::vector<ShortOption>& shortOptions();

/// What was typed, taken apart.
struct TypedLine {
    std::string form;
    std::vector<std::string> values;            ///< the words after the kind
    std::map<std::string, std::string> options; ///< without "--"; "" for one that stands alone
};

/// The observation that the line means; one that says it was not looked at is a NotInspected. What
/// a box of the work sheet says, typed as it stands there, is understood, or refused with a
/// question. UsageError for what cannot be read, cannot be, or (unless `sure`) is hardly ever so.
/// Checked: tests/bench/typed_observation_test.cpp, tests/cli/observe_test.cpp.
Observation observationTyped(const TypedLine& line, Sure sure = Sure::ask);

/// What was said of one field.
struct FieldAnswer {
    std::string text;
    Sure sure = Sure::ask;
};
/// Puts an answer into an observation of this form: a word after the kind, or what an option would
/// take. UsageError for what cannot be read.
void putAnswer(Observation& into, const ObservationForm& form, const FieldEntry& field,
               const FieldAnswer& answer);
/// Whether the answer says that the thing was not looked at: "not inspected", "not driven", "n/i".
bool saysLeftOut(const std::string& text);

/// Completes what follows from other fields and refuses what cannot be so. UsageError.
void completeObservation(Observation& observation, Sure sure);

/// "gold flakes", "steel chip", "rust": what lies there, with the size and the amount that the
/// trade's words carry. UsageError naming the kinds there are.
/// Sizes of the words: common practice, no source. Checked: tests/bench/typed_observation_test.cpp.
void readDebrisWords(const std::string& words, DebrisSeen& into);

} // namespace swarfbook
