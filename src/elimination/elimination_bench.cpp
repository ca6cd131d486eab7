// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/text.h"
#include "bench/part_names.h"
#include "elimination/elimination_reader.h"
#include "unit/unit_solenoids.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// "clutch Q", "the Q brake", "Q": the element whose name is one of the words.
const ApplicationChart::Element* elementMeant(const ApplicationChart& chart,
                                              const std::string& typed) {
    const std::string text = " " + lowered(typed) + " ";
    for (const ApplicationChart::Element& e : chart.elements)
        if (lowered(e.name) == lowered(typed))
            return &e;
    for (const ApplicationChart::Element& e : chart.elements)
        if (text.find(" " + lowered(e.name) + " ") != std::string::npos)
            return &e;
    return nullptr;
}

class BenchReader {
  public:
    BenchReader(const ApplicationChart& chart, const BenchContext& context,
                EliminationEvidence& into)
        : chart_(chart), context_(context), into_(into) {}

    void read(const VisitFindings& findings) {
        if (findings.level)
            readLevel(*findings.level);
        for (const OutsideCheck& check : findings.outside)
            readOutside(check);
        for (const PressureFinding& pressure : findings.pressures)
            readPressure(pressure);
        for (const AirCheck& air : findings.airChecks)
            readAir(air);
        readWork(findings);
        for (const SolenoidVerdict& verdict : context_.solenoids.each)
            readSolenoid(verdict);
        if (!context_.bores.standDoubted && !context_.bores.allLowAlike)
            for (const BoreVerdict& verdict : context_.bores.each)
                readBore(verdict);
    }

  private:
    void note(const std::string& sentence) { into_.notes.push_back(sentence); }

    /// The later word on a part replaces the earlier.
    void tested(const PartName& part, bool inOrder, const std::string& sentence) {
        std::erase_if(into_.tested, [&](const PartTested& old) { return old.part == part; });
        into_.tested.push_back({part, inOrder, sentence});
    }

    void readLevel(const LevelSeen& level) {
        const bool right = level.found == LevelFound::right;
        tested({PartKind::common, fluidLevelPart}, right,
               right ? "The fluid level was found right."
                     : fmt::format("The fluid level was found {}.", wordOf(level.found)));
    }

    void readOutside(const OutsideCheck& check) {
        const bool good = check.result == Checked::good;
        const bool feeds = check.item == OutsideItem::supply || check.item == OutsideItem::earth ||
                           check.item == OutsideItem::controlUnit;
        if (feeds && (!good || check.item == OutsideItem::supply))
            tested({PartKind::common, supplyPart}, good,
                   fmt::format("The {} was found {}.",
                               check.item == OutsideItem::controlUnit ? "control unit"
                                                                      : wordOf(check.item),
                               good ? "good" : "at fault"));
    }

    void readPressure(const PressureFinding& p) {
        const PressureFound found = p.found;
        const bool everywhere = p.gear.empty();
        if (everywhere && found == PressureFound::normal) {
            tested({PartKind::common, linePressurePart}, true,
                   "The pressure is right in every range.");
        } else if (everywhere && found == PressureFound::low) {
            into_.oneOf.push_back({pressureParts(), "low pressure in every range"});
        } else if (chart_.gear(p.gear) != nullptr && found == PressureFound::normal) {
            into_.pressureGoodIn.push_back(p.gear);
        } else if (chart_.gear(p.gear) != nullptr && found == PressureFound::low) {
            into_.gears.push_back({p.gear, GearResult::slips, drivenWhenBad(into_, p.gear, {}),
                                   fmt::format("low pressure in {}", p.gear)});
        }
    }

    [[nodiscard]] std::vector<PartName> pressureParts() const {
        std::vector<PartName> parts{{PartKind::common, fluidLevelPart},
                                    {PartKind::common, linePressurePart}};
        for (const ApplicationChart::Solenoid& s : chart_.solenoids)
            if (s.common && !servesConverter(s)) {
                parts.push_back({PartKind::circuit, s.name});
                parts.push_back({PartKind::solenoid, s.name});
                for (PartName& bore : boresOf(chart_, s.name))
                    parts.push_back(std::move(bore));
            }
        return parts;
    }

    void readAir(const AirCheck& air) {
        into_.valveBodyOff = true;
        const ApplicationChart::Element* element = elementMeant(chart_, air.element);
        if (element == nullptr)
            return note(fmt::format("The air check of \"{}\" names no element of the chart of {}, "
                                    "so it is left out.",
                                    air.element, chart_.unit));
        std::erase(into_.airHolds, element->name);
        if (air.result == AirCheckResult::holds)
            into_.airHolds.push_back(element->name);
        else
            tested({PartKind::element, element->name}, false,
                   fmt::format("{} leaks on the air check.", element->name));
    }

    /// How far the unit has been taken apart, by what was tested.
    void readWork(const VisitFindings& findings) {
        into_.valveBodyOff = into_.valveBodyOff || !context_.bores.each.empty();
        into_.panOff = into_.valveBodyOff || !findings.debris.empty() ||
                       std::any_of(findings.solenoids.begin(), findings.solenoids.end(),
                                   [](const SolenoidReadings& s) {
                                       return s.leakOff != LeakSeen::notTested ||
                                              s.leakOn != LeakSeen::notTested ||
                                              s.swap != SwapResult::notSwapped;
                                   });
    }

    /// Whether the complaint was entered as bad only when hot.
    [[nodiscard]] bool onlyBadHot() const {
        bool anyBad = false;
        for (const GearSeen& seen : into_.gears) {
            if (seen.result == GearResult::good)
                continue;
            anyBad = true;
            if (seen.driven.warmth != Warmth::hot)
                return false;
        }
        return anyBad;
    }

    void readSolenoid(const SolenoidVerdict& v) {
        std::vector<std::string> names;
        if (const ApplicationChart::Solenoid* solenoid = solenoidMeant(chart_, v.name))
            names.push_back(solenoid->name);
        else if (standsForOthers(v.name))
            for (const ApplicationChart::Solenoid& s : chart_.solenoids)
                if (context_.solenoids.find(s.name) == nullptr)
                    names.push_back(s.name);
        if (names.empty())
            note(
                fmt::format("Solenoid \"{}\" is not in the chart of {}, so its tests are left out.",
                            v.name, chart_.unit));
        for (const std::string& name : names)
            readSolenoid(name, v);
    }

    void readSolenoid(const std::string& name, const SolenoidVerdict& v) {
        const PartName part{PartKind::solenoid, name};
        if (v.harness)
            tested({PartKind::circuit, name}, false, v.sentence);
        else if (v.circuitGood)
            tested({PartKind::circuit, name}, true,
                   fmt::format("The circuit of solenoid {} carries its current.", name));
        if (v.state == SolenoidState::proven)
            tested(part, false, v.sentence);
        else if (v.swap == SwapResult::stays)
            tested(
                part, true,
                fmt::format("The fault stayed where it was when solenoid {} was exchanged.", name));
        else if (v.state == SolenoidState::good && onlyBadHot() && !v.hotTested)
            note(
                fmt::format("Solenoid {} tests good, but cold, and the fault comes hot: repeat its "
                            "tests hot before it is cleared.",
                            name));
        else if (v.state == SolenoidState::good)
            tested(part, true, v.sentence);
    }

    void readBore(const BoreVerdict& v) {
        if (standsForOthers(v.name)) {
            for (const ApplicationChart::Bore& b : chart_.bores)
                if (!readAlone(b.name))
                    readBore(b.name, v);
            return;
        }
        const auto bore =
            std::find_if(chart_.bores.begin(), chart_.bores.end(),
                         [&](const auto& b) { return lowered(b.name) == lowered(v.name); });
        if (bore == chart_.bores.end())
            return note(fmt::format("Bore \"{}\" is not in the chart of {}, so its test is left "
                                    "out.",
                                    v.name, chart_.unit));
        readBore(bore->name, v);
    }

    /// The bore has an entry of its own.
    [[nodiscard]] bool readAlone(const std::string& name) const {
        return std::any_of(context_.bores.each.begin(), context_.bores.each.end(),
                           [&](const BoreVerdict& v) { return lowered(v.name) == lowered(name); });
    }

    void readBore(const std::string& name, const BoreVerdict& v) {
        if (v.state == BoreState::good || v.state == BoreState::pass)
            tested({PartKind::bore, name}, true, v.sentence);
        else if (v.state >= BoreState::low)
            tested({PartKind::bore, name}, false, v.sentence);
    }

    const ApplicationChart& chart_;
    const BenchContext& context_;
    EliminationEvidence& into_;
};

} // namespace

void readBenchForElimination(const ApplicationChart& chart, const VisitFindings& findings,
                             const BenchContext& context, EliminationEvidence& into) {
    BenchReader(chart, context, into).read(findings);
}

} // namespace swarfbook
