// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/facts.h"

#include "base/errors.h"
#include "bench/observation_fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace swarfbook {
namespace {

bool isElectrical(OutsideItem item) {
    return item == OutsideItem::supply || item == OutsideItem::earth ||
           item == OutsideItem::connector || item == OutsideItem::harness ||
           item == OutsideItem::controlUnit;
}

/// Whether a fault of this kind can bring about what is told of the car.
bool canExplain(OutsideItem item, const SymptomFacts& s) {
    const bool input = s.has(CodeFamily::input);
    if (isElectrical(item))
        return !s.circuits().empty() || s.has(CodeFamily::supply) || s.failSafe || input ||
               !s.performances().empty() || s.wrongGear || s.has(CodeFamily::notListed);
    switch (item) {
    case OutsideItem::selector:
        return input || s.failSafe || s.wrongGear || s.noDrive || s.harshOrLate;
    case OutsideItem::speedSensor:
        return input || s.slips() || s.failSafe || !s.badShifts.empty() || s.harshOrLate;
    case OutsideItem::temperatureSensor:
    case OutsideItem::brakeSwitch:
        return input || s.converterSlip || s.harshOrLate || s.overheats;
    case OutsideItem::engine:
    case OutsideItem::exhaust:
        return s.shudder || s.has(CodeFamily::engine) || s.slipInGeneral || s.harshOrLate;
    case OutsideItem::mounts:
    case OutsideItem::driveline:
        return s.shudder || s.noise || s.harshOrLate;
    default:
        return s.slips() || s.overheats;
    }
}

bool nothingTold(const SymptomFacts& s) {
    return !s.anyBad() && !s.anyCode() && !s.harshOrLate;
}

void readOutside(const VisitEvidence& visit, Facts& facts) {
    std::vector<OutsideCheck> checks;
    for (const Observation& observation : visit.observations)
        if (const auto* check = std::get_if<OutsideCheck>(&observation)) {
            std::erase_if(checks, [&](const auto& old) { return old.item == check->item; });
            checks.push_back(*check);
        }
    for (const OutsideCheck& check : checks) {
        std::string what(wordOf(check.item));
        std::replace(what.begin(), what.end(), '-', ' ');
        if (check.result == Checked::good) {
            facts.foundGood.push_back(check.item);
            continue;
        }
        const std::string volts =
            check.volts ? fmt::format(" ({:.1f} V)", check.volts->value.value()) : "";
        facts.outside.push_back(
            {what,
             fmt::format("The {} is at fault{}{}.", what, volts,
                         check.detail.empty() ? "" : ": " + check.detail),
             canExplain(check.item, facts.symptoms) || nothingTold(facts.symptoms),
             isElectrical(check.item)});
    }
}

void readLevel(const VisitEvidence& visit, Facts& facts) {
    facts.level = latest<LevelSeen>(visit);
    if (facts.level == nullptr || facts.level->found == LevelFound::right)
        return;
    const LevelSeen& level = *facts.level;
    const std::string by = level.by ? fmt::format("{:.1f} litres ", level.by->value.value()) : "";
    const SymptomFacts& s = facts.symptoms;
    facts.outside.push_back(
        {"fluid level",
         fmt::format("The fluid is {}too {}{}.", by, wordOf(level.found),
                     level.leak.empty() ? "" : ", with a leak at the " + level.leak),
         s.slips() || s.overheats || !s.badShifts.empty() || s.noise || s.shudder ||
             s.harshOrLate || s.has(CodeFamily::pressure) || nothingTold(s),
         false});
}

PressureFound pressureOf(const PressureSeen& p) {
    if (p.reading && p.makersLow && p.reading->value < p.makersLow->value)
        return PressureFound::low;
    if (p.reading && p.makersHigh && p.reading->value > p.makersHigh->value)
        return PressureFound::high;
    return p.found;
}

void readPressures(const VisitEvidence& visit, Facts& facts) {
    for (const Observation& observation : visit.observations) {
        const auto* p = std::get_if<PressureSeen>(&observation);
        if (p == nullptr)
            continue;
        const bool everywhere = p->gear.empty() || p->gear == "all";
        const PressureFound found = pressureOf(*p);
        facts.pressureLowEverywhere |= everywhere && found == PressureFound::low;
        facts.pressureLowInRange |= !everywhere && found == PressureFound::low;
        facts.pressureDrops |= found == PressureFound::dropsWithTime;
        facts.pressureNormal |= found == PressureFound::normal;
    }
    facts.pressureNormal =
        facts.pressureNormal && !facts.pressureLowEverywhere && !facts.pressureLowInRange;
}

void readAirChecks(const VisitEvidence& visit, Facts& facts) {
    std::vector<const AirCheck*> checks;
    for (const Observation& observation : visit.observations)
        if (const auto* check = std::get_if<AirCheck>(&observation)) {
            std::erase_if(checks, [&](const auto* old) { return old->element == check->element; });
            checks.push_back(check);
        }
    for (const AirCheck* check : checks)
        (check->result == AirCheckResult::leaks ? facts.leakingElements : facts.holdingElements)
            .push_back(check);
}

void readCooler(const VisitEvidence& visit, const SuggestionModel& model, Facts& facts) {
    for (const Observation& observation : visit.observations) {
        const auto* cooler = std::get_if<CoolerFlow>(&observation);
        if (cooler == nullptr)
            continue;
        if (cooler->flushed)
            facts.coolerFlushed = cooler->flushed;
        if (cooler->result)
            facts.coolerFlowLow = *cooler->result == Checked::fault;
        if (cooler->amount && cooler->in && cooler->in->value.value() > 0.0) {
            const double rate = cooler->amount->value.value() / cooler->in->value.value();
            if (!cooler->result)
                facts.coolerFlowLow = rate < model.coolerLitresPerSecond;
            facts.coolerSentence =
                fmt::format("The cooler passes {:.1f} litres in {:.0f} seconds",
                            cooler->amount->value.value(), cooler->in->value.value());
        }
    }
}

void readPast(const VisitEvidence& visit, Facts& facts) {
    for (const Observation& observation : visit.observations) {
        if (const auto* history = std::get_if<History>(&observation)) {
            facts.firstOpening |= history->firstOpening;
            facts.wipedWithoutRecord |= history->wipedWithoutRecord;
            if (history->sinceRebuild)
                facts.sinceRebuild = history->sinceRebuild->value;
            if (history->coolerFlushed)
                facts.coolerFlushed = history->coolerFlushed;
        } else if (const auto* skipped = std::get_if<NotInspected>(&observation)) {
            facts.notInspected.push_back(skipped->what);
        } else if (const auto* overruled = std::get_if<Overruled>(&observation)) {
            facts.overruled =
                overruled->outcome + (overruled->note.empty() ? "" : ": " + overruled->note);
        }
    }
    facts.sinceClean = sinceClean(visit);
    facts.customersWords = visit.complaint;
}

void readFilterNeck(const FilterNeckSeen& neck, Facts& facts) {
    const bool sealBad = neck.seal != SealFound::good && neck.seal != SealFound::notLooked;
    facts.filterNeckBad = neck.neck == Checked::fault || sealBad;
    facts.filterNeckSentence =
        sealBad ? fmt::format("The seal of the filter's neck is {}, so the pump can draw air.",
                              wordOf(neck.seal))
                : "The filter's neck is at fault, so the pump can draw air.";
}

void readInside(const VisitEvidence& visit, Facts& facts) {
    for (const Observation& observation : visit.observations) {
        if (const auto* c = std::get_if<ConverterSeen>(&observation)) {
            if (c->drain)
                facts.converterDrainDirty = *c->drain == Checked::fault;
            if (c->hub)
                facts.converterHubBad = *c->hub == Checked::fault;
            if (c->blued)
                facts.converterBlued = c->blued;
            if (c->coolantInside)
                facts.converterCoolant = c->coolantInside;
        } else if (const auto* body = std::get_if<ValveBodySeen>(&observation)) {
            fields::addLater(facts.valveBody, *body);
        } else if (const auto* neck = std::get_if<FilterNeckSeen>(&observation)) {
            readFilterNeck(*neck, facts);
        } else if (const auto* play = std::get_if<EndPlaySeen>(&observation)) {
            facts.endPlay = play->result;
        } else if (const auto* adaptation = std::get_if<AdaptationSeen>(&observation)) {
            facts.adaptation = adaptation->result;
        }
    }
    // dirt seen in the converter's drain by eye says the same as the check of it
    for (const DebrisItem& item : facts.debris->items)
        if (item.place == Where::converterDrain)
            facts.converterDrainDirty =
                facts.converterDrainDirty.value_or(false) || item.what != DebrisKind::clean;
}

/// By solenoids and bores as judged from the readings, before codes are weighed with them.
void eliminateParts(const Evidence& evidence, Facts& facts) {
    facts.noUnit = evidence.noUnit;
    if (!evidence.unit)
        return;
    const auto& [chart, tests] = *evidence.unit;
    facts.elimination = eliminate(chart,
                                  eliminationEvidence(chart, evidence.now.observations,
                                                      {facts.solenoids, facts.bores, tests}),
                                  tests);
}

void compareWithEarlier(const Evidence& evidence, Facts& facts) {
    for (auto before = evidence.earlier.rbegin(); before != evidence.earlier.rend(); ++before) {
        try {
            facts.change = compareVisits(*before, evidence.now);
            facts.noComparison.clear();
            return;
        } catch (const EvidenceRefused& no) {
            if (facts.noComparison.empty())
                facts.noComparison = no.what();
        }
    }
}

template <class T> std::vector<T> allOf(const VisitEvidence& visit) {
    std::vector<T> found;
    for (const Observation& observation : visit.observations)
        if (const auto* held = std::get_if<T>(&observation))
            found.push_back(*held);
    return found;
}

/// A circuit code that names a coil apart from its siblings: two lines that agree prove it.
void promoteCoils(const SolenoidLimits& limits, Facts& facts) {
    for (const TroubleCode* code : facts.symptoms.circuits()) {
        const SolenoidVerdict* named = facts.solenoidOf(*code);
        if (named == nullptr || named->state != SolenoidState::suspect ||
            std::abs(named->percentOffSiblings.value_or(0.0)) <= limits.siblingPercent)
            continue;
        for (SolenoidVerdict& v : facts.solenoids.each)
            if (v.name == named->name) {
                v.state = SolenoidState::proven;
                v.coilFault = true;
            }
    }
}

} // namespace

Facts factsOf(const Evidence& evidence, const SuggestionModel& model, ReadAt readAt) {
    Facts facts;
    facts.debris = debrisFacts(evidence.now, model, readAt);
    facts.symptoms = symptomFacts(evidence.now);
    facts.solenoids = judgeSolenoids(allOf<SolenoidReadings>(evidence.now), model.solenoids);
    facts.bores = judgeBores(allOf<BoreReadings>(evidence.now), model.bores);
    promoteCoils(model.solenoids, facts);
    readOutside(evidence.now, facts);
    readLevel(evidence.now, facts);
    readPressures(evidence.now, facts);
    readAirChecks(evidence.now, facts);
    readPast(evidence.now, facts);
    readCooler(evidence.now, model, facts);
    readInside(evidence.now, facts);
    compareWithEarlier(evidence, facts);
    eliminateParts(evidence, facts);
    return facts;
}

} // namespace swarfbook
