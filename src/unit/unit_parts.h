// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "unit/application_chart.h"

#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace swarfbook {

enum class PartKind { element, solenoid, circuit, bore, common };
/// Parts that belong to no gear alone.
inline constexpr const char* fluidLevelPart = "fluid level";
inline constexpr const char* linePressurePart = "pump, filter and line pressure";
inline constexpr const char* supplyPart = "supply, earth and control unit";
inline constexpr const char* converterPart = "converter clutch";

struct PartName {
    PartKind kind = PartKind::element;
    std::string name;
    auto operator<=>(const PartName&) const = default;
};
/// Bores of the chart that a solenoid drives.
std::vector<PartName> boresOf(const ApplicationChart& chart, const std::string& solenoid);

/// Something that a part has to do in a gear or at a shift: "holds", "on", "comes on". A part can
/// fail in one duty and be good in another: a solenoid that sticks off is right in every gear in
/// which it is off, and a valve may stand right in a bore that leaks.
struct Duty {
    std::size_t part = 0;
    std::string what;
    auto operator<=>(const Duty&) const = default;
};
using Duties = std::set<Duty>;

/// An element coming on or letting go at a shift.
struct ElementRole {
    std::string element;
    bool comesOn = true; ///< else lets go
    auto operator<=>(const ElementRole&) const = default;
};
/// The elements that come on or let go between two gears: applied in one and not in the other.
std::set<ElementRole> rolesAt(const ApplicationChart& chart, const ApplicationChart::Gear& from,
                              const ApplicationChart::Gear& to);

/// The parts of a unit and what each has to do where.
///
/// The way to an element in a gear: supply and command, circuit, solenoid, its bore, the element
/// with its passage, seal and lining; and what all gears share: level, pump, filter, line pressure.
class UnitParts {
  public:
    explicit UnitParts(const ApplicationChart& chart);

    [[nodiscard]] const std::vector<PartName>& all() const { return parts_; }
    [[nodiscard]] std::size_t number(const PartName& part) const;
    /// "clutch Q", "solenoid B", "circuit of solenoid B", "bore 2-3 shift valve", "fluid level"
    [[nodiscard]] std::string label(std::size_t part) const;

    /// Duties that keep a gear from slipping.
    [[nodiscard]] Duties holding(const ApplicationChart::Gear& gear) const;
    /// Duties that select the gear: every solenoid that is not common, its circuit and its bores.
    [[nodiscard]] Duties selecting(const ApplicationChart::Gear& gear) const;
    /// The duties of one solenoid's state in a gear.
    [[nodiscard]] Duties stateOf(const ApplicationChart::Solenoid& solenoid,
                                 const ApplicationChart::Gear& gear) const;
    /// Duties at a shift.
    [[nodiscard]] Duties shifting(const ApplicationChart::Gear& from,
                                  const ApplicationChart::Gear& to) const;
    /// Duties of the converter's own chain.
    [[nodiscard]] Duties converter() const;

  private:
    void addSolenoid(Duties& duties, const std::string& name, const std::string& what) const;
    void addBores(Duties& duties, const ApplicationChart::Gear& gear) const;
    void addShared(Duties& duties) const;
    [[nodiscard]] bool isConverterBore(const ApplicationChart::Bore& bore) const;

    const ApplicationChart& chart_;
    std::vector<PartName> parts_;
};

} // namespace swarfbook
