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
    /// The n-th word and all that follow, joined by blanks: "no drive". UsageError as value().
    [[nodiscard]] std::string valuesFrom(std::size_t n, std::string_view what) const;
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
    void quantity(const std::string& option, Typed<Unit> (*read)(std::string_view, Sure),
                  std::optional<Typed<Unit>>& into) const {
        if (const auto given = text(option))
            into = read(*given, sure());
    }
    /// Whether what is unusual was confirmed.
    [[nodiscard]] Sure sure() const { return flag("sure") ? Sure::meant : Sure::ask; }

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
/// Of what follows the repair, and of taking an entry back.
std::vector<ObserveKind> afterKinds();

/// A gear as people write it ("3", "3rd", "third", "r", "reverse") as "3" or "R"; "all", "forward"
/// and "converter" stay. UsageError for anything else.
std::string gearOf(const std::string& text);
/// "2-3", "2>3", "2 to 3" as "2-3".
std::string shiftOf(const std::string& text);
/// Fills in how it drives from the options; `drivingOptions()` names them.
void readDriving(const ObserveWords& words, Complaint& complaint);
const std::set<std::string>& drivingOptions();
/// "11-15", "60 to 90 psi", "13 +- 2": both ends, the unit at the end standing for both.
std::pair<std::string, std::string> endsOf(const std::string& text);

/// An outcome's name, however it is capitalised; UsageError listing all there are.
std::string outcomeAsNamed(const std::string& given);

/// All of them, in the order of a job.
const std::vector<ObserveKind>& observeKinds();

/// Options that any kind takes, with their help.
const std::vector<std::pair<std::string, std::string>>& observeOptions();
/// Those that stand alone, without a value.
const std::set<std::string>& observeFlags();

} // namespace swarfbook::cli
