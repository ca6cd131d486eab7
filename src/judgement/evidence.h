// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/result.h"
#include "bench/observation.h"
#include "elimination/bench_tests.h"
#include "particles/flush_series.h"
#include "particles/magnet_finding.h"
#include "particles/particle.h"
#include "particles/sample_basis.h"
#include "unit/application_chart.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// Debris of one place in a photo: measured, or refused, or shown and not counted; the last two
/// give no figures.
struct DebrisSample {
    Place place = Place::pad;
    SampleBasis basis{};   ///< side of a filter, volume strained
    std::string sampling;  ///< how the sample was taken, as typed, with the basis (samplingOf);
                           ///< compare only like with like
    std::string photoName; ///< file name for sentences: "pan.jpg"
    std::optional<Refusal> refusal;
    std::optional<ShownOnly> shownOnly; ///< then there is no finding
    std::optional<DebrisFinding> finding;
    std::optional<MagnetFinding> magnet;
};

/// A part that was flushed at the visit, and the debris that its passes washed out.
struct FlushOfPart {
    std::int64_t id = 0;
    std::string part;              ///< as typed: "solenoid A"
    bool trayPhotographed = false; ///< clean, before the first pass
    FlushSeries series;
};

/// Everything the book holds of one visit that a judgement may read.
struct VisitEvidence {
    std::int64_t visitId = 0;
    std::string date; ///< YYYY-MM-DD
    std::optional<Kilometres> odometer;
    std::string complaint; ///< in the customer's words
    std::vector<DebrisSample> samples;
    std::vector<Observation> observations; ///< oldest first: the later reading counts
    /// Beside `observations`: their numbers in the book, 0 = entered with the visit. May be empty.
    std::vector<std::int64_t> observationNumbers;
    std::vector<FlushOfPart> flushes{}; ///< those that have a pass, oldest first
};

/// The chart of the unit at hand, and what the tests on it cost.
struct UnitKnown {
    ApplicationChart chart;
    BenchTests tests;
};

/// The visit to be judged, and the earlier visits of the same vehicle, oldest first.
struct Evidence {
    VisitEvidence now;
    std::vector<VisitEvidence> earlier;
    std::optional<UnitKnown> unit; ///< absent: nothing is eliminated
    std::string noUnit;            ///< why it is absent, "" when nobody asked
};

} // namespace swarfbook
