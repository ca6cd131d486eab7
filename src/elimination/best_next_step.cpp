// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/best_next_step.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <optional>

namespace swarfbook {
namespace {

/// How likely a test is to come out bad if this set of parts is the cause.
using Likelihood = std::function<double(std::size_t)>;

class Chooser {
  public:
    Chooser(const CandidateContext& c, const BenchTests& settings) : c_(c), settings_(settings) {
        for (const ComponentSet& set : c.explanations.sets)
            implicated_.push_back(dutiesOf(set));
    }

    std::vector<TestChoice> all() {
        if (c_.explanations.sets.empty() || c_.explanations.sets.front().empty())
            return {};
        if (c_.explanations.sets.size() >
            1) { // a drive separates candidates but proves none of them
            addDrives();
            addShifts();
        }
        addShared();
        addSolenoids();
        addInside();
        const double candidates = static_cast<double>(c_.explanations.sets.size());
        const auto worth = [&](const TestChoice& t) {
            return (candidates - t.expectedLeft) / t.minutes;
        };
        std::stable_sort(choices_.begin(), choices_.end(), [&](const auto& a, const auto& b) {
            return worth(a) != worth(b) ? worth(a) > worth(b) : a.minutes < b.minutes;
        });
        return std::move(choices_);
    }

  private:
    /// Duties by which the set explains the bad observations.
    [[nodiscard]] Duties dutiesOf(const ComponentSet& set) const {
        Duties duties;
        for (const DutiesSeen& bad : c_.seen)
            if (bad.bad)
                for (const Duty& duty : openDuties(bad, c_.seen, c_.explanations.clearing))
                    if (std::binary_search(set.begin(), set.end(), duty.part))
                        duties.insert(duty);
        return duties;
    }

    /// A test is worth making if some answers would leave fewer candidates, or prove the last one.
    void add(const std::string& what, double minutes, const Likelihood& bad) {
        const auto& sets = c_.explanations.sets;
        TestChoice choice{what, minutes, 0.0, {}, {}};
        double badShare = 0.0;
        for (std::size_t i = 0; i < sets.size(); ++i) {
            const double p = bad(i);
            badShare += p / static_cast<double>(sets.size());
            if (p > 0.0)
                choice.leftIfBad.push_back(explanationInWords(c_.parts, sets[i]));
            if (p < 1.0)
                choice.leftIfGood.push_back(explanationInWords(c_.parts, sets[i]));
        }
        choice.expectedLeft = badShare * static_cast<double>(choice.leftIfBad.size()) +
                              (1.0 - badShare) * static_cast<double>(choice.leftIfGood.size());
        const bool splits = choice.expectedLeft < static_cast<double>(sets.size()) - 1e-9;
        if (badShare > 0.0 && (splits || sets.size() == 1))
            choices_.push_back(std::move(choice));
    }

    void addByDuties(const std::string& what, double minutes, const Duties& asked) {
        add(what, minutes, [&](std::size_t i) {
            return std::any_of(implicated_[i].begin(), implicated_[i].end(),
                               [&](const Duty& duty) { return asked.contains(duty); })
                       ? 1.0
                       : 0.0;
        });
    }

    /// A test of some parts themselves; `finds` is the chance that it finds their fault.
    void addOfParts(const std::string& what, double minutes, const std::vector<PartName>& parts,
                    double finds = 1.0) {
        std::vector<std::size_t> numbers;
        for (const PartName& part : parts)
            if (!isTested(part))
                numbers.push_back(c_.parts.number(part));
        add(what, minutes, [&](std::size_t i) {
            const ComponentSet& set = c_.explanations.sets[i];
            return std::any_of(
                       numbers.begin(), numbers.end(),
                       [&](std::size_t n) { return std::binary_search(set.begin(), set.end(), n); })
                       ? finds
                       : 0.0;
        });
    }

    [[nodiscard]] bool isTested(const PartName& part) const {
        return std::any_of(c_.evidence.tested.begin(), c_.evidence.tested.end(),
                           [&](const PartTested& test) { return test.part == part; });
    }

    [[nodiscard]] double driving(const char* name) const {
        return settings_.minutes(name) +
               (c_.evidence.panOff ? settings_.minutes("refit_for_a_drive") : 0.0);
    }
    [[nodiscard]] double panOff(const char* name) const {
        return settings_.minutes(name) +
               (c_.evidence.panOff ? 0.0 : settings_.minutes("take_pan_off"));
    }
    [[nodiscard]] double bodyOff(const char* name) const {
        return panOff(name) +
               (c_.evidence.valveBodyOff ? 0.0 : settings_.minutes("take_valve_body_off"));
    }

    [[nodiscard]] bool seenBad(const std::string& where) const {
        return std::any_of(c_.seen.begin(), c_.seen.end(),
                           [&](const DutiesSeen& seen) { return seen.bad && seen.where == where; });
    }

    /// "with firm load, hot, as where it is bad"; the hardest drive that was entered.
    [[nodiscard]] std::string asDriven() const {
        Driven hardest;
        for (const DutiesSeen& seen : c_.seen)
            if (seen.bad) {
                hardest.load = std::max(hardest.load, seen.driven.load);
                hardest.warmth = std::max(hardest.warmth, seen.driven.warmth);
            }
        const std::string words = inWords(hardest);
        return words.empty() ? "as hard and as warm as where it is bad" : "with " + words;
    }

    void addDrives() {
        for (const ApplicationChart::Gear& gear : c_.chart.gears) {
            if (!drives(gear) || seenBad(gear.name))
                continue;
            Duties asked = c_.parts.holding(gear);
            asked.merge(c_.parts.selecting(gear));
            addByDuties(fmt::format("Drive {}{} {}", gear.manualRange ? "" : "gear ", gear.name,
                                    asDriven()),
                        driving("drive_a_gear"), asked);
        }
    }

    /// Shifts are tried where shifts are bad; where only steady gears are bad, driving gears is
    /// surer.
    void addShifts() {
        if (std::none_of(c_.evidence.shifts.begin(), c_.evidence.shifts.end(),
                         [](const ShiftSeen& s) { return s.result != ShiftResult::good; }))
            return;
        const ApplicationChart::Gear* before = nullptr;
        for (const ApplicationChart::Gear& gear : c_.chart.gears) {
            if (!drives(gear) || gear.manualRange || gear.name == "R")
                continue;
            if (before != nullptr && !seenBad(shiftInWords(before->name, gear.name)))
                addByDuties(fmt::format("Drive through the shift {}-{} {}", before->name, gear.name,
                                        asDriven()),
                            driving("drive_a_shift"), c_.parts.shifting(*before, gear));
            before = &gear;
        }
    }

    void addShared() {
        addOfParts("Check the fluid level at the temperature the maker states",
                   driving("check_level"), {{PartKind::common, fluidLevelPart}});
        std::vector<PartName> pressure{{PartKind::common, linePressurePart}};
        for (const ApplicationChart::Solenoid& s : c_.chart.solenoids)
            if (s.common && !servesConverter(s)) {
                pressure.push_back({PartKind::solenoid, s.name});
                pressure.push_back({PartKind::circuit, s.name});
            }
        addOfParts("Gauge the line pressure in every range", driving("gauge_line_pressure"),
                   pressure);
        addOfParts("Measure supply and earth at the unit's connector under load",
                   settings_.minutes("check_supply"), {{PartKind::common, supplyPart}});
        addOfParts("Touch the brake lightly where it shudders or slips: the converter clutch lets "
                   "go",
                   driving("test_converter"), {{PartKind::common, converterPart}});
    }

    void addSolenoids() {
        for (const ApplicationChart::Solenoid& s : c_.chart.solenoids) {
            const PartName circuit{PartKind::circuit, s.name}, itself{PartKind::solenoid, s.name};
            addOfParts(fmt::format("Measure the circuit of solenoid {} at the case connector, "
                                   "ignition off, and under load",
                                   s.name),
                       settings_.minutes("measure_circuit"), {circuit});
            addOfParts(
                fmt::format("Command solenoid {} and listen, beside an identical one", s.name),
                settings_.minutes("command_solenoid"), {circuit, itself}, 0.5);
            addOfParts(fmt::format("Test solenoid {} for movement and leak on the bench, cold and "
                                   "hot, beside its siblings",
                                   s.name),
                       panOff("bench_solenoid"), {itself});
            if (const auto sibling = identicalTo(s))
                addOfParts(fmt::format("Exchange solenoid {} with the identical {} and drive again",
                                       s.name, *sibling),
                           panOff("exchange_solenoids") + settings_.minutes("refit_for_a_drive"),
                           {itself});
        }
    }

    [[nodiscard]] std::optional<std::string>
    identicalTo(const ApplicationChart::Solenoid& one) const {
        for (const ApplicationChart::Solenoid& other : c_.chart.solenoids)
            if (other.name != one.name && !one.siblings.empty() && other.siblings == one.siblings &&
                !one.calibrated && !other.calibrated)
                return other.name;
        return std::nullopt;
    }

    void addInside() {
        for (const ApplicationChart::Bore& b : c_.chart.bores)
            addOfParts(fmt::format("Vacuum-test the bore {}", b.name), bodyOff("vacuum_test_bore"),
                       {{PartKind::bore, b.name}});
        for (const ApplicationChart::Element& e : c_.chart.elements) {
            const auto& holds = c_.evidence.airHolds;
            if (e.kind == ElementKind::oneWayClutch ||
                std::find(holds.begin(), holds.end(), e.name) != holds.end())
                continue;
            const PartName part{PartKind::element, e.name};
            // If the circuit holds air, only the lining can be at fault: half of the ways to fail.
            addOfParts(fmt::format("Air-check the {} at its port, valve body off",
                                   c_.parts.label(c_.parts.number(part))),
                       bodyOff("air_check"), {part}, 0.5);
        }
    }

    const CandidateContext& c_;
    const BenchTests& settings_;
    std::vector<Duties> implicated_;
    std::vector<TestChoice> choices_;
};

} // namespace

std::vector<TestChoice> testsByWorth(const CandidateContext& candidates,
                                     const BenchTests& settings) {
    return Chooser(candidates, settings).all();
}

std::string explanationInWords(const UnitParts& parts, const ComponentSet& set) {
    std::string text;
    for (const std::size_t part : set)
        text += (text.empty() ? "" : " with ") + parts.label(part);
    return text;
}

} // namespace swarfbook
