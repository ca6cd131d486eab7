// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/unit_diagnosis.h"

#include "elimination/stuck_pattern.h"

#include <algorithm>
#include <map>

namespace swarfbook {
namespace {

class SeenReader {
  public:
    SeenReader(const ApplicationChart& chart, const UnitParts& parts,
               const EliminationEvidence& evidence)
        : chart_(chart), parts_(parts), evidence_(evidence) {}

    std::vector<DutiesSeen> read() {
        for (const GearSeen& seen : evidence_.gears)
            readGear(seen);
        for (const ShiftSeen& seen : evidence_.shifts)
            readShift(seen);
        for (const GearObtained& seen : evidence_.obtained)
            readObtained(seen);
        for (const std::string& told : evidence_.converterBad)
            all_.push_back({true, parts_.converter(), {}, "the converter", told});
        return std::move(all_);
    }

  private:
    void readGear(const GearSeen& seen) {
        const ApplicationChart::Gear* gear = chart_.gear(seen.gear);
        if (gear == nullptr)
            return;
        Duties duties = parts_.holding(*gear);
        if (seen.result == GearResult::good || seen.result == GearResult::wrongRatio)
            duties.merge(parts_.selecting(*gear));
        if (seen.result == GearResult::noDrive)
            addNeutralMakers(*gear, duties);
        const bool bad = seen.result != GearResult::good;
        if (bad && std::find(evidence_.pressureGoodIn.begin(), evidence_.pressureGoodIn.end(),
                             seen.gear) != evidence_.pressureGoodIn.end())
            keepElements(duties);
        all_.push_back({bad, std::move(duties), seen.driven, seen.gear, seen.told});
    }

    /// Solenoids whose other state makes a pattern of no gear.
    void addNeutralMakers(const ApplicationChart::Gear& gear, Duties& duties) const {
        for (const ApplicationChart::Solenoid& s : chart_.solenoids) {
            const SolenoidCommand state = stateIn(gear, s.name);
            const bool other = state == SolenoidCommand::off;
            if (!s.common && state != SolenoidCommand::any &&
                obtainedWhenStuck(chart_, gear.name, s.name, other).empty())
                duties.merge(parts_.stateOf(s, gear));
        }
    }

    /// The right pressure with slip leaves the elements alone.
    void keepElements(Duties& duties) const {
        std::erase_if(duties, [&](const Duty& duty) {
            return parts_.all()[duty.part].kind != PartKind::element;
        });
    }

    void readShift(const ShiftSeen& seen) {
        const ApplicationChart::Gear *from = chart_.gear(seen.from), *to = chart_.gear(seen.to);
        if (from != nullptr && to != nullptr)
            all_.push_back({seen.result != ShiftResult::good, parts_.shifting(*from, *to),
                            seen.driven, shiftInWords(seen.from, seen.to), seen.told, true});
    }

    /// Each solenoid whose state differs in the gear obtained did not do its duty; each with the
    /// same state did.
    void readObtained(const GearObtained& seen) {
        const ApplicationChart::Gear* commanded = chart_.gear(seen.commanded);
        const ApplicationChart::Gear* obtained = chart_.gear(seen.obtained);
        if (commanded == nullptr)
            return;
        if (obtained == nullptr) {
            GearSeen neutral{seen.commanded, GearResult::noDrive, seen.driven, seen.told};
            return readGear(neutral);
        }
        for (const ApplicationChart::Solenoid& s : chart_.solenoids) {
            const SolenoidCommand asked = stateIn(*commanded, s.name),
                                  came = stateIn(*obtained, s.name);
            if (s.common || asked == SolenoidCommand::any || came == SolenoidCommand::any)
                continue;
            const bool on = asked != SolenoidCommand::off, cameOn = came != SolenoidCommand::off;
            Duties duties = parts_.stateOf(s, *commanded);
            if (on)
                duties.insert({parts_.number({PartKind::common, supplyPart}), "feeds"});
            all_.push_back(
                {on != cameOn, std::move(duties), seen.driven, seen.commanded, seen.told});
        }
    }

    const ApplicationChart& chart_;
    const UnitParts& parts_;
    const EliminationEvidence& evidence_;
    std::vector<DutiesSeen> all_;
};

bool leavesAnElement(const UnitParts& parts, const std::vector<ComponentSet>& sets) {
    return std::any_of(sets.begin(), sets.end(), [&](const ComponentSet& set) {
        return std::any_of(set.begin(), set.end(), [&](std::size_t part) {
            return parts.all()[part].kind == PartKind::element;
        });
    });
}

bool anyBadGear(const EliminationEvidence& evidence) {
    return std::any_of(evidence.gears.begin(), evidence.gears.end(), [](const GearSeen& seen) {
        return seen.result == GearResult::slips || seen.result == GearResult::noDrive;
    });
}

std::vector<std::string> badOnes(const std::vector<DutiesSeen>& seen,
                                 const EliminationEvidence& evidence) {
    std::vector<std::string> told;
    const auto add = [&](const std::string& text) {
        if (std::find(told.begin(), told.end(), text) == told.end())
            told.push_back(text);
    };
    for (const DutiesSeen& one : seen)
        if (one.bad && openDuties(one, seen, Clearing::onlySure).empty())
            add(one.told);
    for (const OneOfThese& one : evidence.oneOf)
        add(one.told);
    return told;
}

} // namespace

std::string shiftInWords(const std::string& from, const std::string& to) {
    return "the shift " + from + "-" + to;
}

std::vector<DutiesSeen> dutiesSeen(const ApplicationChart& chart, const UnitParts& parts,
                                   const EliminationEvidence& evidence) {
    return SeenReader(chart, parts, evidence).read();
}

Asked askedAs(const DutiesSeen& good, const DutiesSeen& bad) {
    return good.told == bad.told ? Asked::asMuch : compare(good.driven, bad.driven);
}

bool clears(const DutiesSeen& good, const DutiesSeen& bad, Clearing clearing) {
    const Asked asked = askedAs(good, bad);
    return !good.bad && bad.bad &&
           (clearing == Clearing::onlySure ? asked == Asked::asMuch : asked != Asked::less);
}

Duties openDuties(const DutiesSeen& bad, const std::vector<DutiesSeen>& seen, Clearing clearing) {
    Duties open = bad.duties;
    for (const DutiesSeen& good : seen)
        if (clears(good, bad, clearing))
            std::erase_if(open, [&](const Duty& duty) { return good.duties.contains(duty); });
    return open;
}

ComponentModel modelOfUnit(const UnitParts& parts, const std::vector<DutiesSeen>& seen,
                           const EliminationEvidence& evidence, Clearing clearing) {
    ComponentModel model;
    for (std::size_t part = 0; part < parts.all().size(); ++part)
        model.addComponent(parts.label(part));
    for (const DutiesSeen& bad : seen) {
        if (!bad.bad)
            continue;
        const Duties open = openDuties(bad, seen, clearing);
        std::vector<int> oneNotDone;
        for (const Duty& duty : bad.duties) {
            const int done = model.addVariable();
            model.addClause({-model.inOrder(duty.part), done});
            if (!open.contains(duty))
                model.addClause({done});
            oneNotDone.push_back(-done);
        }
        model.addClause(std::move(oneNotDone));
    }
    for (const PartTested& test : evidence.tested) {
        const int inOrder = model.inOrder(parts.number(test.part));
        model.addClause({test.inOrder ? inOrder : -inOrder});
    }
    for (const OneOfThese& one : evidence.oneOf) {
        std::vector<int> clause;
        for (const PartName& part : one.parts)
            clause.push_back(-model.inOrder(parts.number(part)));
        model.addClause(std::move(clause));
    }
    return model;
}

Explanations explain(const UnitParts& parts, const std::vector<DutiesSeen>& seen,
                     const EliminationEvidence& evidence) {
    Explanations result;
    const auto proven = static_cast<std::size_t>(
        std::count_if(evidence.tested.begin(), evidence.tested.end(),
                      [](const PartTested& test) { return !test.inOrder; }));
    const std::size_t fewest = std::max<std::size_t>(proven, 1);
    const auto find = [&](Clearing clearing, std::size_t mostFaults) {
        return minimalDiagnoses(modelOfUnit(parts, seen, evidence, clearing),
                                {.mostFaults = mostFaults, .smallestOnly = true});
    };
    const Diagnoses told = find(Clearing::unlessLess, fewest);
    if (!told.sets.empty() && (leavesAnElement(parts, told.sets) || !anyBadGear(evidence))) {
        result.sets = told.sets;
        return result;
    }
    result.clearing = Clearing::onlySure;
    const Diagnoses sure = find(Clearing::onlySure, fewest + 1);
    result.sets = sure.sets;
    result.pairs = !sure.sets.empty() && sure.sets.front().size() > fewest;
    result.contradictory = sure.contradictory;
    if (sure.sets.empty())
        result.quarrelling = badOnes(seen, evidence);
    return result;
}

} // namespace swarfbook
