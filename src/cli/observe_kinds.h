// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"
#include "cli/words.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

/// The kinds of observation as they are typed: swarfbook observe --visit N KIND ...
/// Checked: tests/cli/observe_test.cpp.
namespace swarfbook::cli {

/// The words after KIND, and the options.
class ObserveWords {
  public:
    ObserveWords(const Words& options, std::vector<std::string> values)
        : options_(options), values_(std::move(values)) {}

    [[nodiscard]] const std::vector<std::string>& values() const { return values_; }
    /// The n-th word after the kind; throws UsageError asking for `what`.
    [[nodiscard]] std::string value(std::size_t n, std::string_view what) const;
    [[nodiscard]] std::optional<std::string> maybeValue(std::size_t n) const;
    /// Refuses more words than the kind takes.
    void atMost(std::size_t count) const;
    [[nodiscard]] std::optional<std::string> text(const std::string& option) const {
        return maybeTextOf(options_, option);
    }
    [[nodiscard]] bool flag(const std::string& option) const { return has(options_, option); }
    /// "yes" or "no".
    [[nodiscard]] std::optional<bool> yesNo(const std::string& option) const;
    /// "1,R" or "1 R" as a list of gears.
    [[nodiscard]] std::vector<std::string> list(const std::string& option) const;
    template <class Enum> void word(const std::string& option, Enum& into) const {
        if (const auto given = text(option))
            into = fromWord<Enum>(*given);
    }
    template <class Unit>
    void quantity(const std::string& option, Typed<Unit> (*read)(std::string_view),
                  std::optional<Typed<Unit>>& into) const {
        if (const auto given = text(option))
            into = read(*given);
    }

  private:
    const Words& options_;
    std::vector<std::string> values_;
};

struct ObserveKind {
    std::string name;
    std::string help;    ///< one line
    std::string usage;   ///< what follows KIND
    std::string example; ///< what follows `swarfbook observe --visit 4`, KIND included
    std::set<std::string> options;
    Observation (*read)(const ObserveWords& words);
};

/// Of the drive, the codes, the fluid and what lies outside the unit.
std::vector<ObserveKind> driveKinds();
/// Of the bench: solenoids, bores, pressures, air checks, cooler, converter.
std::vector<ObserveKind> benchKinds();
/// Of the debris by eye and hand, and of what was not looked at.
std::vector<ObserveKind> debrisKinds();
/// All of them, in the order of a job.
const std::vector<ObserveKind>& observeKinds();

/// Options that any kind takes, with their help.
const std::vector<std::pair<std::string, std::string>>& observeOptions();
/// Those that stand alone, without a value.
const std::set<std::string>& observeFlags();

} // namespace swarfbook::cli
