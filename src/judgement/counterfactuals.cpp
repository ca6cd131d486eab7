// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/counterfactuals.h"

#include "judgement/sensitivity.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace swarfbook {
namespace {

using namespace otherwise;

Others othersOf(const Codes& o) {
    Others others;
    if (o.when == CodesWhen::after)
        return others;
    for (const std::string& code : o.codes)
        others.push_back(changed(o, fmt::format("code {} not stored (recorded: stored)", code),
                                 [&](Codes& c) { std::erase(c.codes, code); }));
    return others;
}

Others othersOf(const Complaint& o) {
    const std::string where = !o.gear.empty()    ? "gear " + o.gear
                              : !o.shift.empty() ? "shift " + o.shift
                                                 : "driving";
    if (o.symptom == Symptom::good)
        return {changed(
            o, where + (o.shift.empty() ? ": slip" : ": flare") + " (recorded: good)",
            [](Complaint& c) { c.symptom = c.shift.empty() ? Symptom::slip : Symptom::flare; })};
    Others others{changed(o,
                          fmt::format("{}: good (recorded: {})", where, spaced(wordOf(o.symptom))),
                          [](Complaint& c) { c.symptom = Symptom::good; })};
    if (o.stopsOnBrakeTap)
        others.push_back(changed(
            o,
            *o.stopsOnBrakeTap ? "the shudder goes on at a tap of the brake (recorded: it stops)"
                               : "the shudder stops at a tap of the brake (recorded: it goes on)",
            [](Complaint& c) { c.stopsOnBrakeTap = !*c.stopsOnBrakeTap; }));
    return others;
}

Others othersOf(const Noise& o) {
    if (o.noise == NoiseKind::none)
        return {changed(o, "a whine (recorded: no noise)",
                        [](Noise& n) { n.noise = NoiseKind::whine; })};
    return {changed(o, fmt::format("no noise (recorded: {})", wordOf(o.noise)),
                    [](Noise& n) { n.noise = NoiseKind::none; })};
}

Others othersOf(const FluidSeen& o) {
    Others others;
    if (o.milky)
        others.push_back(changed(
            o, *o.milky ? "fluid not milky (recorded: milky)" : "fluid milky (recorded: not milky)",
            [](FluidSeen& f) { f.milky = !*f.milky; }));
    if (o.smell == Smell::burnt)
        others.push_back(changed(o, "fluid without smell (recorded: burnt)",
                                 [](FluidSeen& f) { f.smell = Smell::none; }));
    if (o.glitter == Glitter::silver || o.glitter == Glitter::gold)
        others.push_back(
            changed(o, fmt::format("fluid does not glitter (recorded: {})", wordOf(o.glitter)),
                    [](FluidSeen& f) { f.glitter = Glitter::none; }));
    else if (o.glitter == Glitter::none)
        others.push_back(changed(o, "fluid glitters silver (recorded: it does not)",
                                 [](FluidSeen& f) { f.glitter = Glitter::silver; }));
    return others;
}

Others othersOf(const LevelSeen& o) {
    if (o.found == LevelFound::right)
        return {changed(o, "level low (recorded: right)",
                        [](LevelSeen& l) { l.found = LevelFound::low; })};
    return {
        changed(o, fmt::format("level right (recorded: {})", wordOf(o.found)), [](LevelSeen& l) {
            l.found = LevelFound::right;
            l.by.reset();
        })};
}

Others othersOf(const OutsideCheck& o) {
    const bool good = o.result == Checked::good;
    return {changed(o,
                    fmt::format("{} {} (recorded: {})", spaced(wordOf(o.item)),
                                good ? "at fault" : "good", good ? "good" : "at fault"),
                    [&](OutsideCheck& c) { c.result = good ? Checked::fault : Checked::good; })};
}

/// " at its own pins": where a coil was read; follows the reading.
const char* whereRead(const SolenoidReadings& o) {
    switch (o.coilAt) {
    case MeasuredAt::pins:
        return " at its own pins";
    case MeasuredAt::connector:
        return " at the case connector";
    case MeasuredAt::notSaid:
        break;
    }
    return "";
}

void coilOthers(const SolenoidReadings& o, const std::string& name, const SuggestionModel& model,
                Others& others) {
    const auto rightCoil = [&](SolenoidReadings& s) {
        s.openCircuit = s.shorted = s.hotOpen = false;
        if (s.bandLow && s.bandHigh)
            s.resistance = Typed<Ohms>{(s.bandLow->value + s.bandHigh->value) / 2.0, "in its band"};
        else if (!s.resistance)
            s.resistance =
                Typed<Ohms>{model.tryCoil, fmt::format("{:g} ohm", model.tryCoil.value())};
        if (!s.bandLow || !s.bandHigh) { // right by any band that fits it
            s.bandLow = Typed<Ohms>{s.resistance->value * (1.0 - model.tryBandShare), "its band"};
            s.bandHigh = Typed<Ohms>{s.resistance->value * (1.0 + model.tryBandShare), "its band"};
        }
        s.at = Typed<Celsius>{Celsius(20.0), "20 C"};
    };
    if (o.openCircuit == true || o.shorted == true)
        others.push_back(
            changed(o,
                    fmt::format("{}: coil measures right{} (recorded: {})", name, whereRead(o),
                                o.openCircuit == true ? "open" : "shorted"),
                    rightCoil));
    else if (o.resistance)
        others.push_back(changed(
            o,
            fmt::format("{}: coil open{} (recorded: {})", name, whereRead(o), o.resistance->typed),
            [](SolenoidReadings& s) { s.openCircuit = true; }));
    if (o.hotOpen)
        others.push_back(
            changed(o,
                    fmt::format("{}: {} hot (recorded: it {})", name,
                                *o.hotOpen ? "holds" : "opens", *o.hotOpen ? "opens" : "holds"),
                    [](SolenoidReadings& s) { s.hotOpen = !*s.hotOpen; }));
}

/// The opposite readings once it is flushed: compared with its siblings, and moved on command. A
/// reading of all solenoids is taken to concern this one.
void flushedOthers(const SolenoidReadings& o, const std::string& name, Others& others) {
    const bool all = o.name == "all";
    const auto oneOfAll = [&](SolenoidReadings& s) {
        if (all)
            s.name = theOneConcerned;
    };
    if (o.siblings != AgainstSiblings::notCompared) {
        const bool alike = o.siblings == AgainstSiblings::alike;
        others.push_back(
            changed(o,
                    fmt::format("{}: {} its siblings, flushed (recorded: {})", name,
                                alike ? "worse than" : "like", alike ? "alike" : "worse"),
                    [&](SolenoidReadings& s) {
                        oneOfAll(s);
                        s.siblings = alike ? AgainstSiblings::worse : AgainstSiblings::alike;
                        s.flushed = true;
                    }));
    }
    if (o.command != Movement::notTested) {
        const bool works = o.command == Movement::works;
        others.push_back(changed(o,
                                 fmt::format("{}: {} on command, flushed (recorded: {})", name,
                                             works ? "stuck" : "works", wordOf(o.command)),
                                 [&](SolenoidReadings& s) {
                                     oneOfAll(s);
                                     s.command = works ? Movement::stuck : Movement::works;
                                     s.flushed = true;
                                 }));
    }
}

Others othersOf(const SolenoidReadings& o, const SuggestionModel& model) {
    const bool all = o.name == "all";
    const std::string name = all ? "one solenoid" : "solenoid " + o.name;
    Others others;
    coilOthers(o, name, model, others);
    if (o.swap != SwapResult::notSwapped) {
        const bool moves = o.swap == SwapResult::moves;
        others.push_back(changed(
            o,
            fmt::format("{}: the fault {} at the exchange (recorded: {})", name,
                        moves ? "stays" : "moves", moves ? "moves" : "stays"),
            [&](SolenoidReadings& s) { s.swap = moves ? SwapResult::stays : SwapResult::moves; }));
    }
    if (o.leakOff == LeakSeen::leaks || o.leakOn == LeakSeen::leaks)
        others.push_back(changed(o, name + ": seals (recorded: leaks)", [](SolenoidReadings& s) {
            s.leakOff = s.leakOn = LeakSeen::seals;
        }));
    flushedOthers(o, name, others);
    return others;
}

Typed<Kilopascals> inInHg(Kilopascals vacuum) {
    return {vacuum, fmt::format("{:.3g} inHg", vacuum.value() / kpaPerInHg)};
}

Others othersOf(const BoreReadings& o, const SuggestionModel& model) {
    if (!o.vacuum || o.name == "stand")
        return {};
    const bool tight = o.vacuum->value >= model.bores.pass;
    const Typed<Kilopascals> other = inInHg(tight ? model.tryLeaking : model.tryTight);
    const bool oneOfAll = o.name == "all" && tight;
    return {changed(o,
                    fmt::format("{}: {} (recorded: {}{})",
                                oneOfAll ? "the bore concerned" : "bore " + o.name, other.typed,
                                oneOfAll ? "all " : "", o.vacuum->typed),
                    [&](BoreReadings& b) {
                        if (oneOfAll)
                            b.name = theOneConcerned;
                        b.vacuum = other;
                        b.wetAir = tight ? b.wetAir : WetAir::quiet;
                    })};
}

Others othersOf(const PressureSeen& o) {
    const bool normal = o.found == PressureFound::normal;
    return {
        changed(o,
                fmt::format("pressure{} {} (recorded: {})", o.gear.empty() ? "" : " in " + o.gear,
                            normal ? "low" : "normal", spaced(wordOf(o.found))),
                [&](PressureSeen& p) {
                    p.found = normal ? PressureFound::low : PressureFound::normal;
                    p.reading.reset();
                })};
}

Others othersOf(const AirCheck& o) {
    const bool leaks = o.result == AirCheckResult::leaks;
    return {changed(
        o,
        fmt::format("air check of {}: {} (recorded: {})", o.element, leaks ? "holds" : "leaks",
                    wordOf(o.result)),
        [&](AirCheck& c) { c.result = leaks ? AirCheckResult::holds : AirCheckResult::leaks; })};
}

Others othersOf(const ConverterSeen& o) {
    if (!o.drain)
        return {};
    const bool dirty = *o.drain == Checked::fault;
    return {changed(o,
                    dirty ? "the converter drains clean (recorded: dirty)"
                          : "the converter drains dirty (recorded: clean)",
                    [&](ConverterSeen& c) { c.drain = dirty ? Checked::good : Checked::fault; })};
}

Others othersOf(const EndPlaySeen& o) {
    const bool excess = o.result == EndPlay::excess;
    return {changed(
        o, excess ? "end play normal (recorded: too much)" : "end play too much (recorded: normal)",
        [&](EndPlaySeen& e) { e.result = excess ? EndPlay::normal : EndPlay::excess; })};
}

Others othersOf(const AdaptationSeen& o) {
    const bool limit = o.result == Adaptation::atLimit;
    return {changed(
        o,
        limit ? "adaptation normal (recorded: at its limit)"
              : "adaptation at its limit (recorded: normal)",
        [&](AdaptationSeen& a) { a.result = limit ? Adaptation::normal : Adaptation::atLimit; })};
}

/// Single facts: a past, a casting, a cooler or a filter neck is tried as if it had not been
/// entered.
template <class T> Others othersOf(const T& o) {
    if constexpr (std::is_same_v<T, History> || std::is_same_v<T, ValveBodySeen> ||
                  std::is_same_v<T, CoolerFlow> || std::is_same_v<T, FilterNeckSeen>)
        return {{fmt::format("without \"{}\"", describe(Observation(o))), std::nullopt}};
    else
        return {};
}

} // namespace

std::vector<Counterfactual> counterfactuals(const std::vector<Observation>& recorded,
                                            const SuggestionModel& model) {
    std::vector<Counterfactual> flips;
    bool asked = false;
    const std::size_t oldest = recorded.size() - std::min(recorded.size(), mostTried);
    for (std::size_t i = oldest; i < recorded.size(); ++i) {
        const Others others = std::visit(
            [&](const auto& o) {
                if constexpr (requires { othersOf(o, model); })
                    return othersOf(o, model);
                else
                    return othersOf(o);
            },
            recorded[i]);
        for (const Other& other : others) {
            // a chip where there was none is tried once, not for every place
            if (other.unexpected && std::exchange(asked, true))
                continue;
            flips.push_back({other.label, observationKind(recorded[i]), i, false, other.instead,
                             other.unexpected});
        }
    }
    return flips;
}

} // namespace swarfbook
