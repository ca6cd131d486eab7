// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/codes.h"
#include "bench/driven.h"
#include "bench/observation.h"
#include "bench/repair_steps.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// How it drives in a gear, over a shift or in general, under the conditions in which it was felt.
struct DriveFinding {
    Complaint felt; ///< as told
    Driven driven;
    bool afterRepair = false;
    bool ofConverter = false; ///< ends at a tap of the brake, or names the converter
    [[nodiscard]] bool good() const { return felt.symptom == Symptom::good; }
    [[nodiscard]] bool inGeneral() const { return felt.gear.empty() && felt.shift.empty(); }
};

struct CodeFinding {
    TroubleCode code;
    bool onlyHot = false; ///< set only after the unit was warm
};

struct PressureFinding {
    std::string gear; ///< "" in every range
    PressureFound found = PressureFound::normal;
};

/// Everything a visit's observations say, each thing once and with its conditions.
struct VisitFindings {
    bool driveTold = false;
    std::vector<DriveFinding> drive;
    std::vector<Noise> noises; ///< those that stand; one of kind none says where it is quiet
    bool codesRead = false;
    std::vector<CodeFinding> codes;
    std::vector<SolenoidReadings> solenoids; ///< as typed, oldest first: judgeSolenoids merges them
    std::vector<BoreReadings> bores;         ///< as typed, oldest first: judgeBores merges them
    std::optional<LevelSeen> level;
    std::vector<OutsideCheck> outside; ///< one for each item
    std::vector<PressureFinding> pressures;
    std::vector<AirCheck> airChecks; ///< one for each element
    FluidSeen fluid;                 ///< joined
    bool fluidTold = false;
    CoolerFlow cooler;       ///< joined
    ConverterSeen converter; ///< joined
    ValveBodySeen valveBody; ///< joined
    History history;         ///< joined
    std::optional<EndPlay> endPlay;
    std::optional<Adaptation> adaptation;
    std::optional<FilterNeckSeen> filterNeck;
    std::vector<DebrisSeen> debris;
    std::vector<FingerTest> finger; ///< one for each place and kind of pieces, as the next two
    std::vector<MagnetTest> magnet;
    std::vector<SqueezeTest> squeeze;
    std::vector<std::string> notInspected;
    std::optional<Overruled> overruled;
    std::vector<RepairStep> repairs; ///< oldest first

    [[nodiscard]] std::optional<PressureFound> pressureIn(const std::string& gear) const;
    /// The worst that the fingers felt, wherever it was.
    [[nodiscard]] std::optional<Feel> worstFeel() const;
};

/// Reads the observations of one visit, oldest first.
///
/// The later word counts on the same thing under the same conditions. A good drive takes back what
/// was bad only where it was driven as hard and as warm, and a drive in general takes back only
/// what was told in general; a correction in the book takes back anything. Of a repair that did not
/// hold, the codes and the drive after it count, where they were told.
/// Checked: tests/bench/visit_findings_test.cpp.
VisitFindings visitFindings(const std::vector<Observation>& observations,
                            const WarmthLimits& limits);

/// "slip in 3", "bind at the shift 2-3": what was felt, and where.
std::string symptomInWords(const Complaint& felt);
/// The same for customers too, with how it was driven: "slip in gear 3 (firm load, hot)", "flare
/// (the engine races) at the shift 2-3".
std::string inPlainWords(const DriveFinding& finding);

} // namespace swarfbook
