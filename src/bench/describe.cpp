// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/codes.h"
#include "bench/copper.h"
#include "bench/describe_parts.h"
#include "bench/field_entry.h"
#include "bench/oil_level.h"

namespace swarfbook {
namespace {

using namespace describing;

// The joint phrase of several fields of a kind, at the place of the named field.

std::string together(const SinceClean& o, std::string_view /*field*/) {
    return o.distance
               ? fmt::format("{} since the last documented clean", typed(o.distance, "km", 0))
               : "distance since the last documented clean not known";
}
std::string together(const Codes& o, std::string_view field) {
    if (field == "when")
        return o.when == CodesWhen::after ? "read after the repair" : "";
    std::string text = o.codes.empty() ? "no codes stored" : "";
    for (const std::string& code : o.codes) {
        const TroubleCode read = parseCode(code);
        text += fmt::format("{}{} ({}: {})", text.empty() ? "" : ", ", code,
                            codeFamilyName(read.family), read.meaning);
    }
    return text;
}
std::string together(const Complaint& o, std::string_view field) {
    const std::string where = !o.gear.empty()    ? " in " + o.gear
                              : !o.shift.empty() ? " at the shift " + o.shift
                                                 : "";
    return field == "symptom" ? std::string(wordOf(o.symptom)) + where : "";
}
std::string together(const RoadTest& o, std::string_view field) {
    return together(static_cast<const Complaint&>(o), field);
}
std::string together(const LevelSeen& o, std::string_view field) {
    if (field != "found")
        return "";
    return o.by ? fmt::format("{} by {}", wordOf(o.found), typed(o.by, "l", 2))
                : std::string(wordOf(o.found));
}
std::string together(const OutsideCheck& o, std::string_view field) {
    return field == "item" ? fmt::format("{}: {}", wordOf(o.item), wordOf(o.result)) : "";
}
std::string together(const SolenoidReadings& o, std::string_view field) {
    if (field != "ohm" || !o.resistance)
        return {};
    std::string text = typed(o.resistance, "ohm", 1);
    text += o.at ? " at " + typed(o.at, "C", 0) : ", temperature not noted";
    if (o.at)
        text += fmt::format(" = {:.1f} ohm at 20 C",
                            resistanceAt20(o.resistance->value, o.at->value).value());
    return text;
}
std::string together(const PressureSeen& o, std::string_view field) {
    return field == "found"
               ? fmt::format("{} {}", o.gear.empty() ? "all ranges" : o.gear, wordOf(o.found))
               : "";
}
std::string together(const AirCheck& o, std::string_view field) {
    return field == "element" ? fmt::format("{} {}", o.element, wordOf(o.result)) : "";
}
std::string together(const DebrisSeen& o, std::string_view field) {
    return field == "what" ? fmt::format("{}: {}", wordOf(o.place), wordOf(o.what)) : "";
}
std::string together(const CoolerFlow& o, std::string_view field) {
    if (field != "amount_l" || !o.amount)
        return "";
    return o.in ? typed(o.amount, "l", 2) + " in " + typed(o.in, "s", 0) : typed(o.amount, "l", 2);
}
std::string together(const LevelCheck& o, std::string_view field) {
    return field == "window_low_c" && o.windowLow && o.windowHigh
               ? fmt::format("the maker's window {} to {}", typed(o.windowLow, "C", 0),
                             typed(o.windowHigh, "C", 0))
               : "";
}
std::string together(const AfterRepair& o, std::string_view field) {
    if (field != "did" || (o.did.empty() && o.work.empty()))
        return "";
    if (!o.work.empty())
        return "done: " + joined(o.work);
    return fmt::format("done: {}{}{}", o.did, o.parts.empty() ? "" : ", ", joined(o.parts));
}
std::string together(const RepairResult& o, std::string_view /*field*/) {
    constexpr std::string_view said[] = {"fixed", "it came back", "not known"};
    return std::string(said[static_cast<std::size_t>(o.held)]);
}
template <class Other> std::string together(const Other& /*of*/, std::string_view /*field*/) {
    return {};
}

/// Whose readings they are.
std::string nameOf(const Observation& observation) {
    if (const auto* solenoid = std::get_if<SolenoidReadings>(&observation))
        return solenoid->name + ": ";
    const auto* bore = std::get_if<BoreReadings>(&observation);
    return bore != nullptr ? bore->name + ": " : "";
}

} // namespace

std::string describe(const Observation& observation) {
    const std::string_view kind = observationKind(observation);
    Line line;
    for (const FieldEntry& field : fieldsOfKind(kind))
        line.add(
            field.about.told == fields::Told::byItself
                ? field.phrase(observation)
                : std::visit([&](const auto& o) { return together(o, field.name); }, observation));
    if (const auto* check = std::get_if<LevelCheck>(&observation))
        line.add(levelSentence(*check));
    std::string inWords(kind);
    std::replace(inWords.begin(), inWords.end(), '-', ' ');
    return fmt::format("{}: {}{}", inWords, nameOf(observation), line.text());
}

} // namespace swarfbook
