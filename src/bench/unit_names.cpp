// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/unit_names.h"

#include "base/errors.h"
#include "base/text.h"
#include "bench/enum_names.h"
#include "bench/gear_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace swarfbook {
namespace {

using Names = std::vector<std::string>;

std::string listed(const Names& names) {
    std::string list;
    for (const std::string& name : names)
        list += (list.empty() ? "" : ", ") + name;
    return list;
}

const std::string* sameName(const Names& names, const std::string& typed) {
    const auto found = std::find_if(names.begin(), names.end(), [&](const std::string& name) {
        return wordAsTyped(name) == wordAsTyped(typed);
    });
    return found == names.end() ? nullptr : &*found;
}

bool isOneOf(std::initializer_list<std::string_view> words, const std::string& typed) {
    const std::string word = wordAsTyped(typed);
    return std::find(words.begin(), words.end(), word) != words.end();
}

[[noreturn]] void ask(std::string_view what, const std::string& typed, const UnitNames& unit,
                      const Names& names) {
    throw UsageError(
        fmt::format("The chart of {} has no {} {}; it has {}. Check the name; if it is "
                    "really so, type the same again with --sure.",
                    unit.unit, what, typed, listed(names)));
}

/// A gear by its chart; "all" and its like stand for several, N, P and D are of every selector.
void questionGear(const std::string& gear, const UnitNames& unit) {
    const bool general = isOneOf({"", "all", "forward", "converter", "n", "p", "d"}, gear);
    if (!general && !unit.gears.empty() && sameName(unit.gears, gear) == nullptr &&
        sameName(unit.ranges, gear) == nullptr)
        ask("gear", gear, unit, unit.gears);
}

void questionShift(const std::string& shift, const UnitNames& unit) {
    const std::size_t dash = shift.find('-');
    if (dash == std::string::npos)
        return;
    questionGear(shift.substr(0, dash), unit);
    questionGear(shift.substr(dash + 1), unit);
}

void question(Complaint& complaint, const UnitNames& unit) {
    questionGear(complaint.gear, unit);
    questionGear(complaint.obtainedGear, unit);
    questionShift(complaint.shift, unit);
}

void question(RoadTest& test, const UnitNames& unit) {
    question(static_cast<Complaint&>(test), unit);
}

void question(Noise& noise, const UnitNames& unit) {
    for (const Names& gears : {noise.heardIn, noise.quietIn})
        for (const std::string& gear : gears)
            questionGear(gear, unit);
}

void question(PressureSeen& pressure, const UnitNames& unit) {
    questionGear(pressure.gear, unit);
}

void question(SolenoidReadings& solenoid, const UnitNames& unit) {
    if (unit.solenoids.empty() || isOneOf({"rest", "all", "others", "converter"}, solenoid.name))
        return;
    const std::string* name = sameName(unit.solenoids, solenoid.name);
    if (name == nullptr)
        ask("solenoid", solenoid.name, unit, unit.solenoids);
    solenoid.name = *name;
}

void question(BoreReadings& bore, const UnitNames& unit) {
    if (const std::string* name = sameName(unit.bores, bore.name))
        bore.name = *name;
}

bool isGearWord(const std::string& word, const UnitNames& unit) {
    try {
        return sameName(unit.gears, gearOf(word)) != nullptr;
    } catch (const UsageError&) {
        return false;
    }
}

/// "Q", "clutch Q", "the Q clutch", or by the gear that it holds: "reverse clutch".
bool isElementOf(const UnitNames& unit, const std::string& typed) {
    Names words;
    std::istringstream each(typed);
    for (std::string word; each >> word;)
        if (!isOneOf({"the", "clutch", "brake", "band", "one-way", "element", "of", "gear"}, word))
            words.push_back(word);
    const bool named = std::any_of(words.begin(), words.end(), [&](const std::string& word) {
        return isGearWord(word, unit) ||
               std::any_of(unit.elements.begin(), unit.elements.end(), [&](const auto& element) {
                   return lowered(element.name) == lowered(word);
               });
    });
    return named || std::any_of(unit.elements.begin(), unit.elements.end(), [&](const auto& e) {
               return wordAsTyped(e.name) == wordAsTyped(typed);
           });
}

void question(AirCheck& check, const UnitNames& unit) {
    for (const std::string& gear : check.gears)
        questionGear(gear, unit);
    if (unit.elements.empty() || isElementOf(unit, check.element))
        return;
    Names names;
    for (const UnitNames::Element& element : unit.elements)
        names.push_back(element.kind + " " + element.name);
    ask("clutch or brake", check.element, unit, names);
}

/// A solenoid at the start of a text, called as the chart has it: "solenoid a cleaned" as "solenoid
/// A cleaned". One that the chart does not have is asked about.
void nameSolenoid(std::string& text, const UnitNames& unit) {
    constexpr std::string_view kind = "solenoid ";
    if (!text.starts_with(kind) || unit.solenoids.empty())
        return;
    for (const std::string& name : unit.solenoids) {
        const std::string meant = std::string(kind) + name;
        const bool whole = text.size() == meant.size() ||
                           (text.size() > meant.size() && text[meant.size()] == ' ');
        if (whole && lowered(text).starts_with(lowered(meant))) {
            text.replace(0, meant.size(), meant);
            return;
        }
    }
    ask("solenoid", text.substr(kind.size(), text.find(' ', kind.size()) - kind.size()), unit,
        unit.solenoids);
}

void questionParts(Names& texts, const UnitNames& unit) {
    for (std::string& text : texts)
        nameSolenoid(text, unit);
}

void question(AfterRepair& after, const UnitNames& unit) {
    questionParts(after.parts, unit);
    questionParts(after.work, unit);
}

void question(RepairResult& outcome, const UnitNames& unit) {
    questionParts(outcome.parts, unit);
}

template <class Other> void question(Other& /*names no part*/, const UnitNames& /*unit*/) {}

} // namespace

void questionAgainstUnit(Observation& observation, const UnitNames& names) {
    if (!names.unit.empty())
        std::visit([&](auto& held) { question(held, names); }, observation);
}

std::string partOfUnit(std::string part, const UnitNames& names) {
    if (names.unit.empty())
        return part;
    const std::string word = lowered(part);
    if (word.starts_with("solenoid ")) {
        part.replace(0, std::string_view("solenoid").size(), "solenoid");
        nameSolenoid(part, names);
        return part;
    }
    if (const std::string* name = sameName(names.solenoids, part))
        return "solenoid " + *name;
    for (const std::string_view kind : {"clutch ", "brake ", "band ", "one-way clutch "})
        if (word.starts_with(kind)) {
            AirCheck check{part, {}, AirCheckResult::holds};
            question(check, names);
        }
    return part;
}

bool isBoreOf(const UnitNames& names, const std::string& bore) {
    return names.bores.empty() || isOneOf({"rest", "all", "others", "stand"}, bore) ||
           sameName(names.bores, bore) != nullptr;
}

} // namespace swarfbook
