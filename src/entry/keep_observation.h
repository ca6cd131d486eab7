// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"
#include "bench/unit_names.h"
#include "bench/work_sheet.h"
#include "record/book.h"
#include "record/unit_charts.h"

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// The names of a chart's parts.
UnitNames unitNamesOf(const ApplicationChart& chart);

/// The unit of a visit's vehicle; empty if its chart is not known.
UnitAtHand unitOfVisit(const Book& book, const Visit& visit);

/// The work sheet of a visit: its head, and the rows of its unit if the chart is known.
/// Checked: tests/cli/work_sheet_test.cpp.
WorkSheetJob sheetJobOf(const Book& book, const Visit& visit);

/// An observation to put into the book.
struct ToKeep {
    Observation observation;
    std::string by;
    std::optional<std::int64_t> corrects;
    Sure sure = Sure::ask;
};

/// Puts observations into a visit, compares each with the visit's other readings and the unit's
/// chart, and says once what the step needs. Begin a transaction first, so that what it reads stays
/// true.
/// Checked: tests/cli/observe_test.cpp, tests/cli/several_observations_test.cpp.
class ObservationKeeper {
  public:
    ObservationKeeper(Book& book, const Visit& visit);

    /// Throws UsageError for a value that the visit, its other readings or the chart make unlikely.
    StoredObservation keep(ToKeep& given);
    /// Sentences about what was kept, each once: cautions that no earlier entry called for, and
    /// what a reading still lacks.
    std::vector<std::string> takeRemarks();
    /// Cautions that an observation of this kind needs and that were not shown before.
    std::vector<std::string> takeCautions(std::string_view kind);
    [[nodiscard]] const UnitNames& names() const { return names_; }

  private:
    void question(ToKeep& given) const;
    void fillFromChart(LevelCheck& check) const;
    void fillFromFlush(SolenoidReadings& solenoid);
    void remark(const Observation& observation);
    void remarkLeak(const SolenoidReadings& solenoid);

    Book& book_;
    Visit visit_;
    UnitAtHand unit_;
    UnitNames names_;
    std::set<std::string_view> told_; ///< cautions
    std::vector<std::string> remarks_;
};

/// The lines of one stored observation, for people or as JSON.
std::string observationText(std::int64_t visit, const Observation& observation,
                            const StoredObservation& stored, const std::string& remarks);
std::string observationJson(std::int64_t visit, const Observation& observation,
                            const StoredObservation& stored, bool stands);

} // namespace swarfbook
