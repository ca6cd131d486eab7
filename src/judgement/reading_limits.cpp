// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/sensitivity.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// Collects a reading at both ends of its uncertainty.
class Ends {
  public:
    Ends(const std::vector<Observation>& recorded, std::vector<Counterfactual>& flips)
        : recorded_(recorded), flips_(flips) {}

    template <class Owner, class Unit>
    void add(std::size_t index, std::optional<Typed<Unit>> Owner::*member, Unit apart,
             const std::string& what) {
        const auto& held = std::get<Owner>(recorded_[index]).*member;
        if (!held)
            return;
        for (const double side : {-1.0, 1.0}) {
            Counterfactual flip{fmt::format("{} reads {}, which may be {} off; were it {}", what,
                                            held->typed, shown(apart),
                                            side < 0.0 ? "lower" : "higher"),
                                observationKind(recorded_[index]),
                                index,
                                false,
                                recorded_[index],
                                false};
            auto& changed = std::get<Owner>(*flip.instead).*member;
            changed->value = Unit(std::max(0.0, held->value.value() + side * apart.value()));
            flips_.push_back(std::move(flip));
        }
    }

  private:
    static std::string shown(Kilopascals p) {
        return fmt::format("{:.1f} inHg ({:.1f} kPa)", p.value() / kpaPerInHg, p.value());
    }
    static std::string shown(Ohms r) { return fmt::format("{:g} ohm", r.value()); }
    static std::string shown(Volts v) { return fmt::format("{:g} V", v.value()); }
    static std::string shown(Litres v) { return fmt::format("{:.2f} l", v.value()); }

    const std::vector<Observation>& recorded_;
    std::vector<Counterfactual>& flips_;
};

} // namespace

std::vector<Counterfactual> readingsAtTheirLimits(const std::vector<Observation>& recorded,
                                                  const SuggestionModel& model) {
    std::vector<Counterfactual> flips;
    Ends ends(recorded, flips);
    const std::size_t oldest = recorded.size() - std::min(recorded.size(), mostTried);
    for (std::size_t i = oldest; i < recorded.size(); ++i) {
        if (const auto* b = std::get_if<BoreReadings>(&recorded[i])) {
            ends.add(i, &BoreReadings::vacuum, model.readVacuum, "bore " + b->name);
            ends.add(i, &BoreReadings::newValve, model.readVacuum,
                     "bore " + b->name + " with a new valve");
        } else if (const auto* s = std::get_if<SolenoidReadings>(&recorded[i])) {
            const std::string name = "solenoid " + s->name;
            ends.add(i, &SolenoidReadings::resistance, model.readOhms, name);
            ends.add(i, &SolenoidReadings::hotResistance, model.readOhms, name + " hot");
            ends.add(i, &SolenoidReadings::pullIn, model.readVolts, name + " at pull-in");
            ends.add(i, &SolenoidReadings::dropOut, model.readVolts, name + " at drop-out");
        } else if (const auto* p = std::get_if<PressureSeen>(&recorded[i]); p && p->reading) {
            ends.add(i, &PressureSeen::reading, p->reading->value * model.readPressureShare,
                     "the pressure");
        } else if (const auto* c = std::get_if<CoolerFlow>(&recorded[i]); c && c->amount) {
            ends.add(i, &CoolerFlow::amount, c->amount->value * model.readFlowShare,
                     "the cooler's flow");
        }
    }
    return flips;
}

} // namespace swarfbook
