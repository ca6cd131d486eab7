// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/unit_parts.h"

#include "bench/converter_clutch.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace swarfbook {
namespace {

bool applied(const ApplicationChart& chart, const ApplicationChart::Gear& gear,
             const ApplicationChart::Element& element) {
    return stateIn(chart, gear, element) != Applied::no;
}

bool holds(const ApplicationChart& chart, const ApplicationChart::Gear& gear,
           const std::string& element) {
    const ApplicationChart::Element* e = chart.element(element);
    return e != nullptr && stateIn(chart, gear, *e) == Applied::yes;
}

std::string dutyOf(SolenoidCommand state) {
    return state == SolenoidCommand::modulated ? "regulates" : std::string(wordOf(state));
}

std::string sealing(SolenoidCommand state) {
    return "seals, " + dutyOf(state);
}

bool contains(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

} // namespace

std::set<ElementRole> rolesAt(const ApplicationChart& chart, const ApplicationChart::Gear& from,
                              const ApplicationChart::Gear& to) {
    std::set<ElementRole> roles;
    for (const ApplicationChart::Element& e : chart.elements) {
        const bool before = applied(chart, from, e), after = applied(chart, to, e);
        if (before != after)
            roles.insert({e.name, after});
    }
    return roles;
}

std::vector<PartName> boresOf(const ApplicationChart& chart, const std::string& solenoid) {
    std::vector<PartName> bores;
    for (const ApplicationChart::Bore& bore : chart.bores)
        if (bore.solenoid == solenoid)
            bores.push_back({PartKind::bore, bore.name});
    return bores;
}

UnitParts::UnitParts(const ApplicationChart& chart) : chart_(chart) {
    for (const ApplicationChart::Element& e : chart.elements)
        parts_.push_back({PartKind::element, e.name});
    for (const ApplicationChart::Solenoid& s : chart.solenoids) {
        parts_.push_back({PartKind::solenoid, s.name});
        parts_.push_back({PartKind::circuit, s.name});
    }
    for (const ApplicationChart::Bore& b : chart.bores)
        parts_.push_back({PartKind::bore, b.name});
    for (const char* shared : {fluidLevelPart, linePressurePart, supplyPart, converterPart})
        parts_.push_back({PartKind::common, shared});
}

std::size_t UnitParts::number(const PartName& part) const {
    const auto found = std::find(parts_.begin(), parts_.end(), part);
    if (found == parts_.end())
        throw std::logic_error("no part " + part.name);
    return static_cast<std::size_t>(found - parts_.begin());
}

std::string UnitParts::label(std::size_t part) const {
    const PartName& p = parts_.at(part);
    switch (p.kind) {
    case PartKind::element: {
        const ElementKind kind = chart_.element(p.name)->kind;
        return fmt::format(
            "{} {}", kind == ElementKind::oneWayClutch ? "one-way clutch" : wordOf(kind), p.name);
    }
    case PartKind::solenoid:
        return "solenoid " + p.name;
    case PartKind::circuit:
        return "circuit of solenoid " + p.name;
    case PartKind::bore:
        return "bore " + p.name;
    case PartKind::common:
        break;
    }
    return p.name;
}

bool UnitParts::isConverterBore(const ApplicationChart::Bore& bore) const {
    const ApplicationChart::Solenoid* solenoid = chart_.solenoid(bore.solenoid);
    return namesConverterClutch(bore.name) || (solenoid != nullptr && servesConverter(*solenoid));
}

void UnitParts::addSolenoid(Duties& duties, const std::string& name,
                            const std::string& what) const {
    duties.insert({number({PartKind::solenoid, name}), what});
    duties.insert({number({PartKind::circuit, name}), what});
}

/// Bores on the way to the elements that hold the gear: each has to seal there, with its valve
/// where the solenoid puts it.
void UnitParts::addBores(Duties& duties, const ApplicationChart::Gear& gear) const {
    for (const ApplicationChart::Bore& bore : chart_.bores) {
        const bool feeds =
            std::any_of(bore.feeds.begin(), bore.feeds.end(),
                        [&](const std::string& e) { return holds(chart_, gear, e); });
        if (isConverterBore(bore) || (!feeds && !contains(bore.gears, gear.name)))
            continue;
        const SolenoidCommand state = stateIn(gear, bore.solenoid);
        duties.insert({number({PartKind::bore, bore.name}), sealing(state)});
    }
}

void UnitParts::addShared(Duties& duties) const {
    duties.insert({number({PartKind::common, fluidLevelPart}), "holds"});
    duties.insert({number({PartKind::common, linePressurePart}), "holds"});
    for (const ApplicationChart::Solenoid& s : chart_.solenoids)
        if (s.common && !servesConverter(s))
            addSolenoid(duties, s.name, "regulates");
}

Duties UnitParts::holding(const ApplicationChart::Gear& gear) const {
    Duties duties;
    for (const ApplicationChart::Element& e : chart_.elements)
        if (stateIn(chart_, gear, e) == Applied::yes)
            duties.insert({number({PartKind::element, e.name}), "holds"});
    for (const ApplicationChart::Solenoid& s : chart_.solenoids) {
        const SolenoidCommand state = stateIn(gear, s.name);
        const bool feeds = std::any_of(s.feeds.begin(), s.feeds.end(), [&](const auto& feed) {
            return holds(chart_, gear, feed.element);
        });
        if (!s.common && feeds && state != SolenoidCommand::any)
            addSolenoid(duties, s.name, dutyOf(state));
    }
    addBores(duties, gear);
    addShared(duties);
    return duties;
}

Duties UnitParts::stateOf(const ApplicationChart::Solenoid& solenoid,
                          const ApplicationChart::Gear& gear) const {
    Duties duties;
    const SolenoidCommand state = stateIn(gear, solenoid.name);
    if (state == SolenoidCommand::any)
        return duties;
    addSolenoid(duties, solenoid.name, dutyOf(state));
    for (const PartName& bore : boresOf(chart_, solenoid.name))
        duties.insert({number(bore), fmt::format("stands {}", dutyOf(state))});
    return duties;
}

Duties UnitParts::selecting(const ApplicationChart::Gear& gear) const {
    Duties duties;
    for (const ApplicationChart::Solenoid& s : chart_.solenoids)
        if (!s.common)
            duties.merge(stateOf(s, gear));
    return duties;
}

Duties UnitParts::shifting(const ApplicationChart::Gear& from,
                           const ApplicationChart::Gear& to) const {
    Duties duties;
    const std::set<ElementRole> roles = rolesAt(chart_, from, to);
    const auto takesPart = [&](const std::string& element) {
        return roles.contains({element, true}) || roles.contains({element, false});
    };
    for (const ElementRole& role : roles)
        duties.insert(
            {number({PartKind::element, role.element}), role.comesOn ? "comes on" : "lets go"});
    for (const ApplicationChart::Solenoid& s : chart_.solenoids) {
        const SolenoidCommand before = stateIn(from, s.name), after = stateIn(to, s.name);
        if (s.common || std::none_of(s.feeds.begin(), s.feeds.end(),
                                     [&](const auto& feed) { return takesPart(feed.element); }))
            continue;
        if (before != after)
            addSolenoid(duties, s.name, fmt::format("goes {}", wordOf(after)));
        else if (after == SolenoidCommand::modulated)
            addSolenoid(duties, s.name, "regulates");
    }
    for (const ApplicationChart::Bore& bore : chart_.bores) {
        const bool feeds = std::any_of(bore.feeds.begin(), bore.feeds.end(), takesPart);
        // judged by the elements it feeds, not by the gears it serves: it also feeds elements that
        // hold in both
        const bool between =
            bore.feeds.empty() && contains(bore.gears, from.name) && contains(bore.gears, to.name);
        if (isConverterBore(bore) || (!feeds && !between))
            continue;
        // a part that regulates all the time has the same duty at a shift as in a gear
        const ApplicationChart::Solenoid* solenoid = chart_.solenoid(bore.solenoid);
        const bool always = solenoid != nullptr && solenoid->common;
        duties.insert({number({PartKind::bore, bore.name}),
                       always ? sealing(stateIn(to, bore.solenoid))
                              : fmt::format("moves {}-{}", from.name, to.name)});
    }
    addShared(duties);
    return duties;
}

Duties UnitParts::converter() const {
    Duties duties{{number({PartKind::common, converterPart}), "holds"}};
    for (const ApplicationChart::Solenoid& s : chart_.solenoids)
        if (servesConverter(s))
            addSolenoid(duties, s.name, "regulates");
    for (const ApplicationChart::Bore& bore : chart_.bores)
        if (isConverterBore(bore))
            duties.insert({number({PartKind::bore, bore.name}), "regulates"});
    return duties;
}

} // namespace swarfbook
