// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/keep_observation.h"

#include "assess/assess.h"
#include "base/errors.h"
#include "base/shown_units.h"
#include "bench/cautions.h"
#include "bench/field_entry.h"
#include "bench/sibling_question.h"
#include "entry/free_text.h"
#include "judgement/flush_words.h"
#include "record/evidence_of_visit.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace swarfbook {
namespace {

void questionDistance(const SinceClean& since, const Visit& visit) {
    if (since.distance && visit.odometerKm && since.distance->value.value() > *visit.odometerKm &&
        !visit.odometerReplaced)
        throw UsageError(
            fmt::format("{} since the last clean is more than the odometer shows at this visit "
                        "({}): check the digits and the unit. If it is really so, type the "
                        "same again with --sure.",
                        since.distance->typed, distanceWords(*visit.odometerKm)));
}

/// A reason for another decision or for taking something back is not a finding.
void questionNoteOf(const Observation& observation) {
    const std::string_view kind = observationKind(observation);
    if (kind == "overrule" || kind == "taken-back")
        return;
    for (const FieldEntry& field : fieldsOfKind(kind))
        if (field.name == "note")
            questionNote(field.phrase(observation), Sure::ask);
}

/// Whether a leak was tested, and every leak that an earlier reading of this solenoid recorded.
bool readsLeaksAgain(const SolenoidReadings& now, const std::vector<Observation>& before) {
    const auto off = [](const SolenoidReadings& s) {
        return s.leakOff != LeakSeen::notTested || s.leakOffFlow;
    };
    const auto on = [](const SolenoidReadings& s) {
        return s.leakOn != LeakSeen::notTested || s.leakOnFlow;
    };
    for (const Observation& one : before)
        if (const auto* earlier = std::get_if<SolenoidReadings>(&one);
            earlier && earlier->name == now.name &&
            ((off(*earlier) && !off(now)) || (on(*earlier) && !on(now))))
            return false;
    return off(now) || on(now);
}

} // namespace

UnitNames unitNamesOf(const ApplicationChart& chart) {
    UnitNames names;
    names.unit = chart.unit;
    for (const auto& gear : chart.gears)
        (drives(gear) && !gear.manualRange ? names.gears : names.ranges).push_back(gear.name);
    for (const auto& solenoid : chart.solenoids)
        names.solenoids.push_back(solenoid.name);
    for (const auto& bore : chart.bores)
        names.bores.push_back(bore.name);
    for (const auto& element : chart.elements) {
        std::string kind(wordOf(element.kind));
        std::replace(kind.begin(), kind.end(), '-', ' ');
        names.elements.push_back({kind, element.name});
    }
    return names;
}

UnitAtHand unitOfVisit(const Book& book, const Visit& visit) {
    const ChartFolders folders{unitsFolder(book.folder()), dataFolder() / "models" / "units"};
    return unitAtHand(folders, book.vehicle(visit.vehicleId).unit);
}

WorkSheetJob sheetJobOf(const Book& book, const Visit& visit) {
    const Vehicle vehicle = book.vehicle(visit.vehicleId);
    WorkSheetJob job;
    job.vehicle = vehicle.label;
    job.unit = vehicle.unit;
    job.date = visit.date;
    job.visit = fmt::format("{}", visit.id);
    if (const UnitAtHand unit = unitOfVisit(book, visit); unit.chart)
        job.names = unitNamesOf(*unit.chart);
    return job;
}

ObservationKeeper::ObservationKeeper(Book& book, const Visit& visit)
    : book_(book), visit_(visit), unit_(unitOfVisit(book, visit)) {
    if (unit_.chart)
        names_ = unitNamesOf(*unit_.chart);
    for (const StoredObservation& one : book.observations(visit.id))
        for (const std::string_view caution : cautionsAt(one.kind))
            told_.insert(caution);
}

StoredObservation ObservationKeeper::keep(ToKeep& given) {
    question(given);
    if (auto* check = std::get_if<LevelCheck>(&given.observation))
        fillFromChart(*check);
    if (auto* solenoid = std::get_if<SolenoidReadings>(&given.observation))
        fillFromFlush(*solenoid);
    StoredObservation stored;
    stored.visitId = visit_.id;
    stored.kind = observationKind(given.observation);
    stored.json = toJson(given.observation).dump();
    stored.by = given.by;
    stored.corrects = given.corrects;
    stored = book_.addObservation(stored);
    remark(given.observation);
    return stored;
}

void ObservationKeeper::question(ToKeep& given) const {
    if (given.sure == Sure::meant)
        return;
    questionNoteOf(given.observation);
    questionAgainstUnit(given.observation, names_);
    if (const auto* since = std::get_if<SinceClean>(&given.observation))
        questionDistance(*since, visit_);
    if (const auto* solenoid = std::get_if<SolenoidReadings>(&given.observation))
        questionAgainstSiblings(*solenoid, evidenceOfOneVisit(book_, visit_).observations);
}

std::vector<std::string> ObservationKeeper::takeRemarks() {
    return std::exchange(remarks_, {});
}

std::vector<std::string> ObservationKeeper::takeCautions(std::string_view kind) {
    std::vector<std::string> cautions;
    for (const std::string_view caution : cautionsAt(kind))
        if (told_.insert(caution).second)
            cautions.push_back(fmt::format("caution: {}", caution));
    return cautions;
}

/// Window and volume from the unit's chart, if they were not typed in.
void ObservationKeeper::fillFromChart(LevelCheck& check) const {
    if (!unit_.chart)
        return;
    const auto celsius = [](Celsius t) {
        return Typed<Celsius>{t, fmt::format("{:g}C", t.value())};
    };
    const ApplicationChart& chart = *unit_.chart;
    if (!check.windowLow && chart.levelFrom && chart.levelTo) {
        check.windowLow = celsius(*chart.levelFrom);
        check.windowHigh = celsius(*chart.levelTo);
    }
    if (!check.total && chart.fluidTotal)
        check.total =
            Typed<Litres>{*chart.fluidTotal, fmt::format("{:g} l", chart.fluidTotal->value())};
}

/// A leak test after the solenoid's flush is in the book counts as tested flushed. If a leak read
/// before is not read again, it is not known whether it is gone.
void ObservationKeeper::fillFromFlush(SolenoidReadings& solenoid) {
    if (solenoid.flushed)
        return;
    const VisitEvidence evidence = evidenceOfOneVisit(book_, visit_);
    const FlushOfPart* flush = flushOfSolenoid(evidence.flushes, solenoid.name);
    if (flush == nullptr || !readsLeaksAgain(solenoid, evidence.observations))
        return;
    const FlushVerdict verdict = flush->series.decay.verdict;
    if (verdict != FlushVerdict::clean && verdict != FlushVerdict::nothingCame) {
        remarks_.push_back(flushVerdictSentence(*flush) + " So this does not count as tested "
                                                          "flushed; add --flushed if it was.");
        return;
    }
    solenoid.flushed = true;
    const auto& passes = flush->series.passes;
    if (!solenoid.demagnetised && std::any_of(passes.begin(), passes.end(), [](const auto& pass) {
            return pass.step == FlushStep::demagnetise;
        }))
        solenoid.demagnetised = true;
    remarks_.push_back(flushVerdictSentence(*flush) +
                       " So this counts as tested flushed; type it with --flushed no if it was "
                       "tested before.");
}

void ObservationKeeper::remark(const Observation& observation) {
    for (const std::string& caution : takeCautions(observationKind(observation)))
        remarks_.push_back(caution);
    if (const auto* s = std::get_if<SolenoidReadings>(&observation)) {
        if (s->resistance && !s->at)
            remarks_.emplace_back("a resistance without its temperature proves little: add --at "
                                  "20C, or what it was.");
        remarkLeak(*s);
    }
    if (const auto* bore = std::get_if<BoreReadings>(&observation);
        bore && !isBoreOf(names_, bore->name))
        remarks_.push_back(fmt::format("the chart of {} does not list the bore {}, so elimination "
                                       "cannot use its reading.",
                                       names_.unit, bore->name));
    if (const auto* play = std::get_if<EndPlaySeen>(&observation);
        play && play->result == EndPlay::notSaid)
        remarks_.emplace_back("a reading of the end play alone says neither normal nor too much: "
                              "add the maker's limits with --makers.");
    if (const auto* debris = std::get_if<DebrisSeen>(&observation);
        debris && debris->what == DebrisKind::rust)
        remarks_.emplace_back("rust says that water was in the unit: look whether the fluid is "
                              "milky and type it: fluid --milky yes or no.");
}

/// A leak's amount is useful only beside its siblings' amounts.
void ObservationKeeper::remarkLeak(const SolenoidReadings& solenoid) {
    for (const bool off : {true, false}) {
        const auto flow = [&](const SolenoidReadings& s) {
            return off ? s.leakOffFlow : s.leakOnFlow;
        };
        if (!flow(solenoid))
            continue;
        std::string others;
        for (const Observation& one : evidenceOfOneVisit(book_, visit_).observations)
            if (const auto* s = std::get_if<SolenoidReadings>(&one);
                s && s->name != solenoid.name && flow(*s))
                others += fmt::format("{}{} {:g} ml/min", others.empty() ? "" : ", ", s->name,
                                      flow(*s)->value.value());
        if (!others.empty())
            remarks_.push_back(fmt::format("solenoid {} passes {:g} ml/min when {}; beside it: {}.",
                                           solenoid.name, flow(solenoid)->value.value(),
                                           off ? "off" : "on", others));
    }
}

std::string observationText(std::int64_t visit, const Observation& observation,
                            const StoredObservation& stored, const std::string& remarks) {
    return fmt::format("visit {}: {} (number {}{}{}{})\n", visit, describe(observation), stored.id,
                       stored.by.empty() ? "" : ", by " + stored.by,
                       stored.corrects ? fmt::format(", corrects {}", *stored.corrects) : "",
                       remarks.empty() ? "" : ", " + remarks);
}

std::string observationJson(std::int64_t visit, const Observation& observation,
                            const StoredObservation& stored, bool stands) {
    const nlohmann::ordered_json document{
        {"format", "swarfbook observation 1"},
        {"visit", visit},
        {"number", stored.id},
        {"kind", stored.kind},
        {"recorded_at", stored.recordedAt},
        {"by", stored.by},
        {"corrects", stored.corrects ? nlohmann::json(*stored.corrects) : nlohmann::json(nullptr)},
        {"stands", stands},
        {"observation", toJson(observation)},
        {"text", describe(observation)}};
    return document.dump() + "\n";
}

} // namespace swarfbook
