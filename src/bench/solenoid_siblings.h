// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/solenoids.h"

#include <array>
#include <map>
#include <optional>
#include <vector>

/// Solenoids of one kind, to compare each with the others. Counted once for all of them, so that
/// the work does not grow with the square of their number. Parts of judgeSolenoids().
/// Checked: tests/bench/solenoids_test.cpp (against comparing each with every other).
namespace swarfbook {

/// How many of a kind were tested for leaks, and how many seal, without current and with it.
class SiblingLeaks {
  public:
    void add(const SolenoidReadings& s) { count(s, 1); }
    void remove(const SolenoidReadings& s) { count(s, -1); }
    /// Whether one of these leaks where all others that were tested seal, or seals in neither
    /// state.
    [[nodiscard]] bool leaksMore(const SolenoidReadings& one) const;

  private:
    static constexpr std::array states{&SolenoidReadings::leakOff, &SolenoidReadings::leakOn};
    void count(const SolenoidReadings& s, int by);
    std::array<int, states.size()> tested_{}, sealing_{};
};

struct Siblings {
    SiblingLeaks leaks;
    std::vector<double> ohms; ///< at 20 C, ascending

    /// Percent by which one coil of these differs from the median of the others; nothing without
    /// its own reading or another's.
    [[nodiscard]] std::optional<double> percentOff(const SolenoidReadings& one) const;
};

std::map<SolenoidKind, Siblings> siblingsAmong(const std::vector<SolenoidReadings>& all);

} // namespace swarfbook
