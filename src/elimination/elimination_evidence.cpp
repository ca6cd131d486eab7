// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/elimination_evidence.h"

#include "elimination/elimination_reader.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

Asked compareLoad(Load one, Load other) {
    if (one == Load::notSaid || other == Load::notSaid)
        return Asked::notSaid;
    return one >= other ? Asked::asMuch : Asked::less;
}

Asked compareWarmth(Warmth one, Warmth other) {
    if (one == Warmth::notSaid || other == Warmth::notSaid)
        return Asked::notSaid;
    return one == other || one == Warmth::both || other == Warmth::both ? Asked::asMuch
                                                                        : Asked::less;
}

Driven drivenOf(const Complaint& c, const BenchTests& settings) {
    Driven driven{c.load, c.warmth};
    if (driven.warmth == Warmth::notSaid && c.temperature) {
        if (c.temperature->value < settings.coldBelow())
            driven.warmth = Warmth::cold;
        else if (c.temperature->value >= settings.hotFrom())
            driven.warmth = Warmth::hot;
    }
    return driven;
}

std::string told(const Complaint& c) {
    std::string words(wordOf(c.symptom));
    std::replace(words.begin(), words.end(), '-', ' ');
    if (!c.gear.empty())
        return words + " in " + c.gear;
    return c.shift.empty() ? words : words + " at the shift " + c.shift;
}

std::optional<GearResult> gearResult(Symptom symptom) {
    switch (symptom) {
    case Symptom::good:
        return GearResult::good;
    case Symptom::slip:
    case Symptom::flare:
        return GearResult::slips;
    case Symptom::noDrive:
        return GearResult::noDrive;
    default:
        return std::nullopt;
    }
}

std::optional<ShiftResult> shiftResult(Symptom symptom) {
    switch (symptom) {
    case Symptom::good:
        return ShiftResult::good;
    case Symptom::slip:
    case Symptom::flare:
        return ShiftResult::flares;
    case Symptom::bind:
        return ShiftResult::binds;
    default:
        return std::nullopt;
    }
}

/// Gears of the chart that the typed word means; automatic ranges only.
std::vector<std::string> gearsMeant(const ApplicationChart& chart, const std::string& word) {
    const bool all = word == "all" || word == "every" || word == "any";
    const bool forward = word == "forward";
    std::vector<std::string> names;
    for (const ApplicationChart::Gear& gear : chart.gears)
        if (gear.name == word ||
            (!gear.manualRange && drives(gear) && (all || (forward && gear.name != "R"))))
            names.push_back(gear.name);
    return names;
}

class ComplaintReader {
  public:
    ComplaintReader(const ApplicationChart& chart, const BenchTests& settings,
                    EliminationEvidence& into)
        : chart_(chart), settings_(settings), into_(into) {}

    void read(const Complaint& c) {
        if (c.stopsOnBrakeTap == true || c.gear == "converter") {
            if (c.symptom != Symptom::good)
                into_.converterBad.push_back(told(c));
        } else if (!c.shift.empty()) {
            readShift(c);
        } else if (c.symptom == Symptom::failSafe) {
            note("It was in its fail-safe gear: a gear that it did not take then says nothing of "
                 "clutches. Read the codes first.");
        } else if (!c.gear.empty()) {
            readGear(c);
        } else if (c.symptom == Symptom::good) {
            for (const std::string& gear : gearsMeant(chart_, "all"))
                into_.gears.push_back({gear, GearResult::good, drivenOf(c, settings_), "good"});
        } else if (gearResult(c.symptom)) {
            note(fmt::format("\"{}\" names no gear, so it eliminates nothing: tell it by gear.",
                             told(c)));
        }
    }

  private:
    void note(const std::string& sentence) { into_.notes.push_back(sentence); }

    void readGear(const Complaint& c) {
        const std::vector<std::string> gears = gearsMeant(chart_, c.gear);
        if (gears.empty())
            return note(fmt::format("Gear {} is not in the chart of {}.", c.gear, chart_.unit));
        if (c.symptom == Symptom::wrongGear)
            return readObtained(c);
        const auto result = gearResult(c.symptom);
        if (!result)
            return note(fmt::format("\"{}\" eliminates nothing: it points to pressure and command "
                                    "rather than to what holds that gear.",
                                    told(c)));
        for (const std::string& gear : gears) {
            into_.gears.push_back({gear, *result, drivenOf(c, settings_), told(c)});
            if (c.manualRangeGood)
                readManualRange(c, gear);
        }
    }

    void readManualRange(const Complaint& c, const std::string& gear) {
        const ApplicationChart::Gear* manual = chart_.manualRangeOf(gear);
        if (manual == nullptr)
            return note(fmt::format("The chart has no row for gear {} picked by hand, so what it "
                                    "does there cannot be used.",
                                    gear));
        const bool good = *c.manualRangeGood;
        into_.gears.push_back({manual->name, good ? GearResult::good : GearResult::slips,
                               drivenOf(c, settings_),
                               fmt::format("{} in {}", good ? "good" : "slip", manual->name)});
    }

    void readObtained(const Complaint& c) {
        if (c.obtainedGear.empty())
            return note(fmt::format("\"{}\" does not say which gear came instead: type it with "
                                    "--obtained.",
                                    told(c)));
        if (chart_.gear(c.obtainedGear) == nullptr && c.obtainedGear != "N")
            return note(
                fmt::format("Gear {} is not in the chart of {}.", c.obtainedGear, chart_.unit));
        into_.obtained.push_back(
            {c.gear, c.obtainedGear == "N" ? "" : c.obtainedGear, drivenOf(c, settings_),
             fmt::format("{} commanded, {} obtained", c.gear, c.obtainedGear)});
    }

    void readShift(const Complaint& c) {
        const std::size_t dash = c.shift.find('-');
        const std::string from = c.shift.substr(0, dash), to = c.shift.substr(dash + 1);
        if (chart_.gear(from) == nullptr || chart_.gear(to) == nullptr)
            return note(
                fmt::format("The shift {} is not one of the chart of {}.", c.shift, chart_.unit));
        const auto result = shiftResult(c.symptom);
        if (!result)
            return note(fmt::format("\"{}\" eliminates nothing: it points to pressure and command "
                                    "rather than to one element.",
                                    told(c)));
        into_.shifts.push_back({from, to, *result, drivenOf(c, settings_), told(c)});
    }

    const ApplicationChart& chart_;
    const BenchTests& settings_;
    EliminationEvidence& into_;
};

/// Of one gear or shift the later word counts when it was driven alike, or when it says nothing of
/// how it was driven.
std::vector<Complaint> latest(const std::vector<Observation>& observations,
                              const BenchTests& settings) {
    std::vector<Complaint> kept;
    for (const Observation& observation : observations) {
        const auto* c = std::get_if<Complaint>(&observation);
        if (c == nullptr)
            continue;
        const Driven now = drivenOf(*c, settings);
        const bool plain = now.load == Load::notSaid && now.warmth == Warmth::notSaid;
        const bool allGood = c->gear.empty() && c->shift.empty() && c->symptom == Symptom::good;
        std::erase_if(kept, [&](const Complaint& old) {
            const Driven then = drivenOf(old, settings);
            const bool alike = then.load == now.load && then.warmth == now.warmth;
            const bool same = old.gear == c->gear && old.shift == c->shift;
            return (allGood && plain) || (same && (plain || alike));
        });
        kept.push_back(*c);
    }
    return kept;
}

} // namespace

Asked compare(const Driven& one, const Driven& other) {
    const Asked load = compareLoad(one.load, other.load);
    const Asked warmth = compareWarmth(one.warmth, other.warmth);
    return std::max(load, warmth);
}

std::string inWords(const Driven& driven) {
    std::string words;
    if (driven.load != Load::notSaid)
        words = fmt::format("{} load", wordOf(driven.load));
    if (driven.warmth != Warmth::notSaid)
        words +=
            fmt::format("{}{}", words.empty() ? "" : ", ",
                        driven.warmth == Warmth::both ? "cold and hot" : wordOf(driven.warmth));
    return words;
}

EliminationEvidence eliminationEvidence(const ApplicationChart& chart,
                                        const std::vector<Observation>& observations,
                                        const BenchContext& tables) {
    EliminationEvidence evidence;
    ComplaintReader complaints(chart, tables.settings, evidence);
    for (const Complaint& complaint : latest(observations, tables.settings))
        complaints.read(complaint);
    readCodesForElimination(chart, observations, {tables.solenoids, tables.settings}, evidence);
    readBenchForElimination(chart, observations, tables, evidence);
    return evidence;
}

} // namespace swarfbook
