// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/solenoids.h"

#include "bench/copper.h"
#include "bench/observation_fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace swarfbook {
namespace {

std::optional<Ohms> coldAt20(const SolenoidReadings& s) {
    if (s.resistance && s.at)
        return resistanceAt20(s.resistance->value, s.at->value);
    return std::nullopt;
}

std::optional<Ohms> hotAt20(const SolenoidReadings& s) {
    if (s.hotResistance && s.hotAt)
        return resistanceAt20(s.hotResistance->value, s.hotAt->value);
    return std::nullopt;
}

/// Solenoids of one kind, to compare each with the others. Made once for all of them, so that the
/// work does not grow with the square of their number.
class Siblings {
  public:
    void add(const SolenoidReadings& s) {
        if (const auto at20 = coldAt20(s))
            ohms_.push_back(at20->value());
        for (std::size_t i = 0; i < states.size(); ++i) {
            tested_[i] += s.*states[i] != LeakSeen::notTested;
            sealing_[i] += s.*states[i] == LeakSeen::seals;
        }
    }
    /// To be called once all are added.
    void sort() { std::sort(ohms_.begin(), ohms_.end()); }

    /// Percent by which one coil of these differs from the median of the others.
    [[nodiscard]] std::optional<double> percentOff(const SolenoidReadings& one) const {
        const auto own = coldAt20(one);
        if (!own || ohms_.size() < 2)
            return std::nullopt;
        const double median = medianWithout(own->value());
        return median > 0.0 ? std::optional(100.0 * (own->value() / median - 1.0)) : std::nullopt;
    }
    /// Whether one of these leaks where every other that was tested seals, or cannot seal in either
    /// state.
    [[nodiscard]] bool leaksMore(const SolenoidReadings& one) const {
        if (one.leakOff == LeakSeen::leaks && one.leakOn == LeakSeen::leaks)
            return true;
        for (std::size_t i = 0; i < states.size(); ++i)
            if (one.*states[i] == LeakSeen::leaks && tested_[i] > 1 &&
                sealing_[i] == tested_[i] - 1)
                return true;
        return false;
    }

  private:
    static constexpr std::array states{&SolenoidReadings::leakOff, &SolenoidReadings::leakOn};

    /// The median of all but one that has this value.
    [[nodiscard]] double medianWithout(double own) const {
        const auto at = static_cast<std::size_t>(std::lower_bound(ohms_.begin(), ohms_.end(), own) -
                                                 ohms_.begin());
        const auto other = [&](std::size_t i) { return ohms_[i < at ? i : i + 1]; };
        const std::size_t others = ohms_.size() - 1, middle = others / 2;
        return others % 2 == 1 ? other(middle) : 0.5 * (other(middle - 1) + other(middle));
    }

    std::vector<double> ohms_;
    std::array<int, states.size()> tested_{}, sealing_{};
};

using SiblingsByKind = std::map<SolenoidKind, Siblings>;

SiblingsByKind siblingsAmong(const std::vector<SolenoidReadings>& all) {
    SiblingsByKind kinds;
    for (const SolenoidReadings& s : all)
        kinds[s.type].add(s);
    for (auto& [kind, siblings] : kinds)
        siblings.sort();
    return kinds;
}

/// -1 below its band, +1 above, 0 within or no band known.
int sideOfBand(const SolenoidReadings& s, Ohms at20) {
    if (s.bandLow && at20 < s.bandLow->value)
        return -1;
    return s.bandHigh && at20 > s.bandHigh->value ? 1 : 0;
}

/// Every coil outside its band on the same side by the same share: thermometer or leads.
bool allOffAlike(const std::vector<SolenoidReadings>& all, const SolenoidLimits& limits) {
    std::vector<double> percent;
    int side = 0;
    for (const SolenoidReadings& s : all) {
        const auto at20 = coldAt20(s);
        if (!at20 || !s.bandLow || !s.bandHigh)
            return false;
        const int own = sideOfBand(s, *at20);
        if (own == 0 || (side != 0 && own != side))
            return false;
        side = own;
        const Ohms middle = (s.bandLow->value + s.bandHigh->value) / 2.0;
        percent.push_back(100.0 * (*at20 / middle - 1.0));
    }
    if (percent.size() < 3)
        return false;
    const auto [low, high] = std::minmax_element(percent.begin(), percent.end());
    return *high - *low <= limits.alikePercent;
}

/// Why the coil itself is at fault; "" when nothing says so.
std::string coilFault(const SolenoidReadings& s, const SolenoidLimits& limits, bool bandsBelieved) {
    if (s.openCircuit == true)
        return "its coil is open";
    if (s.shorted == true || (s.resistance && s.resistance->value < limits.shortBelow))
        return "its coil is shorted";
    if (s.hotOpen == true)
        return s.hotAt ? fmt::format("its coil opens at {:.0f} C", s.hotAt->value.value())
                       : std::string("its coil opens when hot");
    const auto at20 = coldAt20(s);
    if (bandsBelieved && at20 && sideOfBand(s, *at20) != 0)
        return fmt::format("its coil has {:.1f} ohm at 20 C, outside the maker's {:.1f} to {:.1f}",
                           at20->value(), s.bandLow ? s.bandLow->value.value() : 0.0,
                           s.bandHigh ? s.bandHigh->value.value() : INFINITY);
    return {};
}

/// What the tests of movement and tightness hold against it; "" when nothing.
std::string responseFault(const SolenoidReadings& s, const Siblings& siblings,
                          const SolenoidLimits& limits) {
    if (siblings.leaksMore(s))
        return "it leaks where its siblings seal";
    if (s.siblings == AgainstSiblings::worse)
        return "it tests worse than its identical siblings";
    if (s.command == Movement::stuck)
        return "it does not move when commanded";
    if (s.hotCommand == Movement::stuck || s.hotCommand == Movement::weak)
        return "it sticks when hot";
    if (s.command == Movement::weak)
        return "it moves weakly";
    if (s.pullIn && s.pullIn->value > limits.pullInHigh)
        return fmt::format("it pulls in only at {:.1f} V", s.pullIn->value.value());
    if (s.dropOut && s.dropOut->value < limits.dropOutLow)
        return fmt::format("it lets go only at {:.1f} V", s.dropOut->value.value());
    return {};
}

bool movesAndSeals(const SolenoidReadings& s) {
    return s.siblings == AgainstSiblings::alike || s.command == Movement::works ||
           (s.leakOff != LeakSeen::notTested && s.leakOn != LeakSeen::notTested) ||
           s.swap == SwapResult::stays;
}

void judgeSiblingOhms(const SolenoidReadings& s, const SolenoidLimits& limits,
                      SolenoidVerdict& verdict) {
    const auto hot = hotAt20(s);
    if (hot && verdict.at20 &&
        std::abs(*hot / *verdict.at20 - 1.0) * 100.0 > limits.siblingPercent) {
        verdict.state = SolenoidState::suspect;
        verdict.sentence = fmt::format("Solenoid {}: brought to 20 C its coil reads {:.1f} ohm "
                                       "cold and {:.1f} ohm hot, which should agree.",
                                       s.name, verdict.at20->value(), hot->value());
    } else if (verdict.percentOffSiblings &&
               std::abs(*verdict.percentOffSiblings) > limits.siblingPercent) {
        verdict.state = SolenoidState::suspect;
        verdict.sentence =
            fmt::format("Solenoid {}: its coil is {:.0f} % off its siblings at 20 C.", s.name,
                        *verdict.percentOffSiblings);
    }
}

void judgeGood(const SolenoidReadings& s, SolenoidVerdict& verdict) {
    const bool compared = s.bandLow || s.bandHigh || verdict.percentOffSiblings;
    if (movesAndSeals(s)) {
        verdict.state = SolenoidState::good;
        verdict.sentence = fmt::format("Solenoid {} tests like its siblings.", s.name);
    } else if (verdict.at20 && !compared) {
        verdict.sentence = fmt::format("Solenoid {} reads {:.1f} ohm at 20 C; there is no band and "
                                       "no sibling to compare it with.",
                                       s.name, verdict.at20->value());
    } else if (verdict.at20) {
        verdict.state = SolenoidState::coilGood;
        verdict.sentence = fmt::format("Solenoid {}: the coil reads right; whether it moves and "
                                       "seals was not tested.",
                                       s.name);
    } else {
        verdict.sentence = s.resistance
                               ? fmt::format("Solenoid {}: a resistance without its temperature "
                                             "proves little.",
                                             s.name)
                               : fmt::format("Solenoid {} was not tested.", s.name);
    }
}

SolenoidVerdict judge(const SolenoidReadings& s, const Siblings& siblings,
                      const SolenoidLimits& limits, bool bandsBelieved) {
    SolenoidVerdict verdict;
    verdict.name = s.name;
    verdict.type = s.type;
    verdict.at20 = coldAt20(s);
    verdict.percentOffSiblings = siblings.percentOff(s);
    verdict.hotTested = s.hotOpen || s.hotResistance || s.hotCommand != Movement::notTested;
    verdict.swap = s.swap;
    const std::string coil = coilFault(s, limits, bandsBelieved);
    const std::string response = responseFault(s, siblings, limits);
    if (!coil.empty()) {
        verdict.coilFault = true;
        verdict.state = SolenoidState::proven;
        verdict.sentence = fmt::format("Solenoid {}: {}.", s.name, coil);
    } else if (s.swap == SwapResult::moves) {
        verdict.state = SolenoidState::proven;
        verdict.sentence =
            fmt::format("The fault moved with solenoid {} when it was exchanged.", s.name);
    } else if (!response.empty() && s.swap != SwapResult::stays) {
        const bool cleaned = s.flushed == true && s.demagnetised != false;
        verdict.state = cleaned ? SolenoidState::proven : SolenoidState::suspect;
        verdict.sentence = fmt::format("Solenoid {}: {}{}.", s.name, response,
                                       cleaned ? ", even after flushing" : "");
    } else {
        judgeGood(s, verdict);
        judgeSiblingOhms(s, limits, verdict);
    }
    return verdict;
}

} // namespace

const SolenoidVerdict* SolenoidTable::find(const std::string& name) const {
    const auto found = std::find_if(each.begin(), each.end(),
                                    [&](const SolenoidVerdict& v) { return v.name == name; });
    return found == each.end() ? nullptr : &*found;
}

std::vector<SolenoidReadings> mergedSolenoids(const std::vector<SolenoidReadings>& readings) {
    auto merged = fields::mergedByName(readings);
    std::sort(merged.begin(), merged.end(),
              [](const auto& a, const auto& b) { return a.name < b.name; });
    return merged;
}

SolenoidTable judgeSolenoids(const std::vector<SolenoidReadings>& readings,
                             const SolenoidLimits& limits) {
    const std::vector<SolenoidReadings> all = mergedSolenoids(readings);
    SolenoidTable table;
    table.allOffAlike = allOffAlike(all, limits);
    const SiblingsByKind kinds = siblingsAmong(all);
    for (const SolenoidReadings& s : all)
        table.each.push_back(judge(s, kinds.at(s.type), limits, !table.allOffAlike));
    return table;
}

} // namespace swarfbook
