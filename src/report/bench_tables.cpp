// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/bench_tables.h"

#include "bench/bores.h"
#include "bench/copper.h"
#include "bench/describe_parts.h"
#include "bench/solenoids.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

using describing::typed;

template <class T> std::vector<T> allOf(const VisitEvidence& visit) {
    std::vector<T> found;
    for (const Observation& observation : visit.observations)
        if (const auto* held = std::get_if<T>(&observation))
            found.push_back(*held);
    return found;
}

/// "a / b"; "" if both are missing.
std::string pairOf(const std::string& a, const std::string& b) {
    if (a.empty() && b.empty())
        return {};
    return fmt::format("{} / {}", a.empty() ? "-" : a, b.empty() ? "-" : b);
}

std::string yesNo(const std::optional<bool>& value) {
    return value ? *value ? "yes" : "no" : "";
}

template <HasNames Enum> std::string word(Enum value, Enum nothing) {
    return value == nothing ? std::string() : std::string(wordOf(value));
}

std::string coilReading(const SolenoidReadings& s) {
    if (s.openCircuit == true)
        return "open";
    if (s.shorted == true)
        return "shorted";
    if (!s.resistance)
        return {};
    return typed(s.resistance, "ohm", 1) +
           (s.at ? " at " + typed(s.at, "C", 0) : ", temperature not noted");
}

std::string at20(const SolenoidReadings& s, const SuggestionModel& model) {
    if (!s.resistance || !s.at)
        return {};
    return fmt::format("{:.1f}\u00a0\u00b1\u00a0{:.1f}",
                       resistanceAt20(s.resistance->value, s.at->value).value(),
                       resistanceAt20(model.readOhms, s.at->value).value());
}

std::string band(const SolenoidReadings& s) {
    if (!s.bandLow || !s.bandHigh)
        return {};
    return fmt::format("{:g} to {:g}", s.bandLow->value.value(), s.bandHigh->value.value());
}

std::string siblings(const SolenoidReadings& s, const SolenoidVerdict& verdict) {
    std::string text = word(s.siblings, AgainstSiblings::notCompared);
    if (verdict.percentOffSiblings)
        text = fmt::format("{:+.1f}\u00a0%{}", *verdict.percentOffSiblings,
                           text.empty() ? "" : ", " + text);
    return text;
}

std::string hot(const SolenoidReadings& s) {
    std::string text;
    if (s.hotOpen)
        text = *s.hotOpen ? "opens" : "holds";
    else if (s.hotResistance)
        text = typed(s.hotResistance, "ohm", 1);
    if (s.hotCommand != Movement::notTested)
        text += (text.empty() ? "" : ", ") + std::string(wordOf(s.hotCommand));
    return text.empty() || !s.hotAt ? text : text + " at " + typed(s.hotAt, "C", 0);
}

std::string drive(const SolenoidReadings& s) {
    return pairOf(typed(s.current, "A", 2), typed(s.frequency, "Hz", 0));
}

std::string moved(const SolenoidReadings& s) {
    std::string text = word(s.command, Movement::notTested);
    if (s.swap != SwapResult::notSwapped)
        text += (text.empty() ? "" : ", ") + fmt::format("exchanged: fault {}", wordOf(s.swap));
    return text;
}

/// Leaves out the columns that no row fills.
ReportedTable withoutEmptyColumns(const ReportedTable& table) {
    ReportedTable kept = table;
    kept.columns.clear();
    kept.rows.assign(table.rows.size(), {});
    for (std::size_t column = 0; column < table.columns.size(); ++column) {
        const bool filled = std::any_of(table.rows.begin(), table.rows.end(),
                                        [&](const auto& row) { return !row[column].empty(); });
        if (!filled)
            continue;
        kept.columns.push_back(table.columns[column]);
        for (std::size_t row = 0; row < table.rows.size(); ++row)
            kept.rows[row].push_back(table.rows[row][column]);
    }
    return kept;
}

ReportedTable solenoidTable(const VisitEvidence& visit, const SuggestionModel& model,
                            const SolenoidTable& verdicts) {
    const auto readings = mergedSolenoids(allOf<SolenoidReadings>(visit));
    ReportedTable table{
        "solenoids",
        "Solenoids",
        {{"name", "Solenoid", 1.3},
         {"resistance", "Coil as read", 1.4},
         {"at_20_c", "At 20\u00a0\u00b0C, ohm", 1.5},
         {"band", "Maker's band, ohm", 1.0},
         {"siblings", "Beside the others", 1.2},
         {"leak_off_on", "Leak off / on", 1.2},
         {"pull_in_drop_out", "Pull-in / drop-out", 1.2},
         {"current_frequency", "Current / Hz", 1.1},
         {"command", "Moves", 1.0},
         {"hot", "Hot repeat", 1.1},
         {"flushed_demagnetised", "Flushed / demag.", 1.2},
         {"verdict", "Verdict", 2.7}},
        {},
        fmt::format("A coil's reading may be {:g} ohm off (meter leads), a voltage "
                    "{:g} V. Converted to 20 \u00b0C with copper's 0.00393 per \u00b0C. "
                    "Good resistance alone does not clear a solenoid.",
                    model.readOhms.value(), model.readVolts.value())};
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const SolenoidReadings& s = readings[i];
        const SolenoidVerdict& verdict = verdicts.each.at(i);
        const std::string kind = word(s.type, SolenoidKind::notSaid);
        table.rows.push_back(
            {s.name + (kind.empty() ? "" : " (" + kind + ")"), coilReading(s), at20(s, model),
             band(s), siblings(s, verdict),
             pairOf(word(s.leakOff, LeakSeen::notTested), word(s.leakOn, LeakSeen::notTested)),
             pairOf(typed(s.pullIn, "V", 1), typed(s.dropOut, "V", 1)), drive(s), moved(s), hot(s),
             pairOf(yesNo(s.flushed), yesNo(s.demagnetised)),
             verdict.sentence + (s.note.empty() ? "" : " " + s.note)});
    }
    return withoutEmptyColumns(table);
}

/// "12 inHg (40.6 kPa)", with its share of the stand's dead-head if that was read.
std::string vacuum(const BoreReadings& b, const BoreVerdict& verdict) {
    std::string text = typed(b.vacuum, "kPa", 1);
    if (verdict.standRatio)
        text += fmt::format(", {:.0f} % of the stand's reach", 100.0 * *verdict.standRatio);
    return text;
}

ReportedTable boreTable(const VisitEvidence& visit, const SuggestionModel& model,
                        const BoreTable& verdicts) {
    const auto readings = mergedBores(allOf<BoreReadings>(visit));
    ReportedTable table{"bores",
                        "Valve-body bores",
                        {{"name", "Bore", 1.4},
                         {"concerns", "Concerns", 1.1},
                         {"vacuum", "Vacuum", 1.6},
                         {"stand_open_blocked", "Stand open / blocked", 1.4},
                         {"stand_jet", "Stand's jet (usual)", 1.2},
                         {"film", "Wet or dry", 0.7},
                         {"wet_air", "Wet air", 0.8},
                         {"new_valve", "With a new valve", 1.2},
                         {"repaired", "After the repair", 1.2},
                         {"verdict", "Verdict", 2.6}},
                        {},
                        fmt::format("Vacuum readings vary by {:.0f} inHg ({:.1f} kPa). Tight: "
                                    "{:g} inHg or more on a stand that reaches {:g} (common "
                                    "practice, no source). {}",
                                    model.limit("reading_vacuum").value, model.readVacuum.value(),
                                    model.limit("bore_good").value,
                                    model.limit("stand_blocked").value, verdicts.standSentence)};
    // Both are in the order first seen; the stand's own entry has no verdict.
    auto verdict = verdicts.each.begin();
    for (const BoreReadings& b : readings) {
        const bool stand = verdict == verdicts.each.end() || verdict->name != b.name;
        const std::string usual = b.jetUsual ? " (" + typed(b.jetUsual, "kPa", 1) + ")" : "";
        table.rows.push_back(
            {b.name, b.concerns, stand ? "" : vacuum(b, *verdict),
             pairOf(typed(b.open, "kPa", 1), typed(b.blocked, "kPa", 1)),
             b.jet || b.jetUsual ? typed(b.jet, "kPa", 1) + usual : "",
             b.wet ? *b.wet ? "wet" : "dry" : "", word(b.wetAir, WetAir::notTested),
             typed(b.newValve, "kPa", 1), typed(b.repaired, "kPa", 1),
             (stand ? "" : verdict->sentence) + (b.note.empty() ? "" : " " + b.note)});
        verdict += stand ? 0 : 1;
    }
    return withoutEmptyColumns(table);
}

std::string stepOf(const Observation& observation) {
    if (std::holds_alternative<AfterRepair>(observation))
        return "Work finished";
    if (std::holds_alternative<Refill>(observation))
        return "Refill";
    if (std::holds_alternative<LevelCheck>(observation))
        return "Level";
    if (std::holds_alternative<RoadTest>(observation))
        return "Road test";
    if (std::holds_alternative<RepairResult>(observation))
        return "At the next contact";
    if (const auto* codes = std::get_if<Codes>(&observation))
        return codes->when == CodesWhen::after ? "Codes again" : "";
    return {};
}

ReportedTable afterRepairTable(const VisitEvidence& visit) {
    ReportedTable table{"after_repair",
                        "After the repair",
                        {{"step", "Step", 1.0}, {"observation", "What was done and found", 5.0}},
                        {},
                        "Fluid expands when warm (about 0.07 % per \u00b0C): check the level at "
                        "the maker's temperature."};
    for (const Observation& observation : visit.observations) {
        const std::string step = stepOf(observation);
        if (step.empty())
            continue;
        const std::string text = describe(observation);
        table.rows.push_back({step, text.substr(text.find(": ") + 2)});
    }
    return table;
}

} // namespace

std::vector<ReportedTable> benchTables(const VisitEvidence& visit, const SuggestionModel& model,
                                       const PartVerdicts& parts) {
    std::vector<ReportedTable> tables;
    for (const ReportedTable& table :
         {solenoidTable(visit, model, parts.solenoids), boreTable(visit, model, parts.bores),
          afterRepairTable(visit)})
        if (!table.rows.empty())
            tables.push_back(table);
    return tables;
}

bool isInBenchTables(const Observation& observation) {
    return std::holds_alternative<SolenoidReadings>(observation) ||
           std::holds_alternative<BoreReadings>(observation) || !stepOf(observation).empty();
}

} // namespace swarfbook
