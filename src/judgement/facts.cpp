// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/facts.h"

#include "base/errors.h"
#include "judgement/facts_by_chart.h"

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
        return s.shudder || s.has(CodeFamily::engine) || s.slipInGeneral || s.harshOrLate ||
               s.overheats || input;
    case OutsideItem::exhaust:
        return s.shudder || s.has(CodeFamily::engine) || s.slipInGeneral || s.harshOrLate;
    case OutsideItem::mounts:
        return s.shudder || s.noise || s.harshOrLate;
    case OutsideItem::driveline: // a broken driveshaft or axle does not drive either
        return s.shudder || s.noise || s.harshOrLate || s.noDrive;
    default:
        return s.slips() || s.overheats;
    }
}

bool nothingTold(const SymptomFacts& s) {
    return !s.anyBad() && !s.anyCode() && !s.harshOrLate;
}

void readOutside(Facts& facts) {
    for (const OutsideCheck& check : facts.findings->outside) {
        std::string what(wordOf(check.item));
        std::replace(what.begin(), what.end(), '-', ' ');
        if (check.result == Checked::good)
            continue;
        const std::string volts =
            check.volts ? fmt::format(" ({:.1f} V)", check.volts->value.value()) : "";
        facts.outside.push_back(
            {what, check.item,
             fmt::format("The {} is at fault{}{}.", what, volts,
                         check.detail.empty() ? "" : ": " + check.detail),
             canExplain(check.item, facts.symptoms) || nothingTold(facts.symptoms),
             isElectrical(check.item)});
    }
}

/// A coil that is bad at the case connector and right at its own pins: the wires between them.
void readHarness(Facts& facts) {
    for (const SolenoidVerdict& v : facts.solenoids.each)
        if (v.harness)
            facts.outside.push_back({"harness", OutsideItem::harness, v.sentence, true, true});
}

bool fluidExplains(const SymptomFacts& s) {
    return s.slips() || s.overheats || !s.badShifts.empty() || s.whine || s.shudder ||
           s.harshOrLate || s.has(CodeFamily::pressure) || nothingTold(s);
}

void readLevel(Facts& facts) {
    if (facts.findings->fluid.type == FluidType::wrong)
        facts.outside.push_back({"fluid", std::nullopt,
                                 "The fluid is not the one that the maker asks for.",
                                 fluidExplains(facts.symptoms), false});
    if (!facts.findings->level)
        return;
    facts.level = &*facts.findings->level;
    if (facts.level->found == LevelFound::right)
        return;
    const LevelSeen& level = *facts.level;
    const std::string by = level.by ? fmt::format("{:.1f} litres ", level.by->value.value()) : "";
    facts.outside.push_back(
        {"fluid level", std::nullopt,
         fmt::format("The fluid level is {}too {}{}.", by, wordOf(level.found),
                     level.leak.empty() ? "" : ", with a leak at the " + level.leak),
         fluidExplains(facts.symptoms), false});
}

void readPressures(Facts& facts) {
    for (const PressureFinding& p : facts.findings->pressures) {
        facts.pressureLowEverywhere |= p.gear.empty() && p.found == PressureFound::low;
        facts.pressureLowInRange |= !p.gear.empty() && p.found == PressureFound::low;
        facts.pressureDrops |= p.found == PressureFound::dropsWithTime;
        facts.pressureNormal |= p.found == PressureFound::normal;
    }
    facts.pressureNormal =
        facts.pressureNormal && !facts.pressureLowEverywhere && !facts.pressureLowInRange;
}

void readAirChecks(Facts& facts) {
    for (const AirCheck& check : facts.findings->airChecks)
        (check.result == AirCheckResult::leaks ? facts.leakingElements : facts.holdingElements)
            .push_back(&check);
}

void readCooler(const SuggestionModel& model, Facts& facts) {
    const CoolerFlow& cooler = facts.findings->cooler;
    if (cooler.flushed)
        facts.coolerFlushed = cooler.flushed;
    if (cooler.result)
        facts.coolerFlowLow = *cooler.result == Checked::fault;
    if (!cooler.amount || !cooler.in || !(cooler.in->value.value() > 0.0))
        return;
    const double rate = cooler.amount->value.value() / cooler.in->value.value();
    if (!cooler.result)
        facts.coolerFlowLow = rate < model.coolerLitresPerSecond;
    facts.coolerSentence = fmt::format("The cooler passes {:.1f} litres in {:.0f} seconds",
                                       cooler.amount->value.value(), cooler.in->value.value());
}

void readPast(const VisitEvidence& visit, Facts& facts) {
    const History& history = facts.findings->history;
    facts.wipedWithoutRecord = history.wipedWithoutRecord;
    if (history.sinceRebuild)
        facts.sinceRebuild = history.sinceRebuild->value;
    facts.coolerFlushed = history.coolerFlushed;
    facts.notInspected = facts.findings->notInspected;
    if (const auto& overruled = facts.findings->overruled)
        facts.overruled =
            overruled->outcome + (overruled->note.empty() ? "" : ": " + overruled->note);
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

std::optional<bool> isFault(const std::optional<Checked>& checked) {
    return checked ? std::optional(*checked == Checked::fault) : std::nullopt;
}

void readInside(Facts& facts) {
    const VisitFindings& f = *facts.findings;
    facts.converterDrainDirty = isFault(f.converter.drain);
    facts.converterHubBad = isFault(f.converter.hub);
    facts.converterBlued = f.converter.blued;
    facts.converterCoolant = f.converter.coolantInside;
    facts.valveBody = f.valveBody;
    facts.endPlay = f.endPlay;
    facts.adaptation = f.adaptation;
    if (f.filterNeck)
        readFilterNeck(*f.filterNeck, facts);
    // dirt seen in the converter's drain by eye says the same as the check of it
    for (const DebrisItem& item : facts.debris->items)
        if (item.place == Where::converterDrain)
            facts.converterDrainDirty =
                facts.converterDrainDirty.value_or(false) || item.what != DebrisKind::clean;
}

std::string exchangedSentence(const std::string& solenoid) {
    return fmt::format("Solenoid {} has been exchanged already, and it did not cure it.", solenoid);
}

std::string repairedSentence(const std::string& bore) {
    return fmt::format("Bore {} has been repaired already, and it did not cure it.", bore);
}

/// By solenoids and bores as judged from the readings, before codes are weighed with them.
void eliminateParts(const Evidence& evidence, Facts& facts) {
    facts.noUnit = evidence.noUnit;
    if (!evidence.unit)
        return;
    const auto& [chart, tests] = *evidence.unit;
    EliminationEvidence told =
        eliminationEvidence(chart, *facts.findings, {facts.solenoids, facts.bores, tests});
    const auto inOrder = [&](const PartName& part, const std::string& sentence) {
        const bool tested = std::any_of(told.tested.begin(), told.tested.end(),
                                        [&](const PartTested& t) { return t.part == part; });
        if (!tested)
            told.tested.push_back({part, true, sentence});
    };
    for (const ApplicationChart::Solenoid& s : chart.solenoids)
        if (facts.doneInVain("solenoid " + s.name))
            inOrder({PartKind::solenoid, s.name}, exchangedSentence(s.name));
    for (const ApplicationChart::Bore& bore : chart.bores)
        if (facts.doneInVain("bore " + bore.name))
            inOrder({PartKind::bore, bore.name}, repairedSentence(bore.name));
    facts.elimination = eliminate(chart, told, tests);
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

/// A solenoid that was exchanged in vain is a new part, and a bore that was repaired in vain is
/// another: what was read before is of the old one. It is not suggested again; what is bad of it
/// now asks for its cause.
void discountExchanged(Facts& facts) {
    for (SolenoidVerdict& v : facts.solenoids.each) {
        if (!facts.doneInVain("solenoid " + v.name))
            continue;
        v.exchangedBefore = true;
        v.coilFault = false;
        if (v.state != SolenoidState::proven && v.state != SolenoidState::suspect)
            continue;
        v.state = SolenoidState::good;
        v.sentence = exchangedSentence(v.name);
    }
    for (BoreVerdict& bore : facts.bores.each)
        if (facts.doneInVain("bore " + bore.name)) {
            bore.state = BoreState::good;
            bore.sentence = repairedSentence(bore.name);
        }
}

} // namespace

Facts factsOf(const Evidence& evidence, const SuggestionModel& model, ReadAt readAt) {
    Facts facts;
    facts.flushes = &evidence.now.flushes;
    facts.findings = std::make_shared<const VisitFindings>(
        visitFindings(evidence.now.observations, model.warmth));
    facts.debris = debrisFacts(evidence.now, *facts.findings, model, readAt);
    facts.symptoms = symptomFacts(*facts.findings);
    std::vector<SolenoidReadings> solenoids = facts.findings->solenoids;
    if (evidence.unit) {
        nameSolenoids(evidence.unit->chart, facts.symptoms.codes);
        solenoids = withChart(std::move(solenoids), evidence.unit->chart);
    }
    facts.failedRepairs = failedRepairs(evidence, *facts.findings, model);
    facts.solenoids = judgeSolenoids(solenoids, model.solenoids);
    facts.bores = judgeBores(facts.findings->bores, model.bores);
    promoteCoils(model.solenoids, facts);
    discountExchanged(facts);
    readOutside(facts);
    readHarness(facts);
    readLevel(facts);
    readPressures(facts);
    readAirChecks(facts);
    readPast(evidence.now, facts);
    readCooler(model, facts);
    readInside(facts);
    compareWithEarlier(evidence, facts);
    eliminateParts(evidence, facts);
    return facts;
}

} // namespace swarfbook
