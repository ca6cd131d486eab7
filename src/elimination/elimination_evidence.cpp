// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/elimination_evidence.h"

#include "elimination/elimination_reader.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

std::optional<GearResult> gearResult(Symptom symptom) {
    switch (symptom) {
    case Symptom::good:
        return GearResult::good;
    case Symptom::slip:
    case Symptom::flare:
        return GearResult::slips;
    case Symptom::noDrive:
        return GearResult::noDrive;
    default:
        return std::nullopt;
    }
}

std::optional<ShiftResult> shiftResult(Symptom symptom) {
    switch (symptom) {
    case Symptom::good:
        return ShiftResult::good;
    case Symptom::slip:
    case Symptom::flare:
        return ShiftResult::flares;
    case Symptom::bind:
        return ShiftResult::binds;
    default:
        return std::nullopt;
    }
}

/// Gears of the chart that the typed word means; automatic ranges only.
std::vector<std::string> gearsMeant(const ApplicationChart& chart, const std::string& word) {
    const bool all = word == "all" || word == "every" || word == "any";
    const bool forward = word == "forward";
    std::vector<std::string> names;
    for (const ApplicationChart::Gear& gear : chart.gears)
        if (gear.name == word ||
            (!gear.manualRange && drives(gear) && (all || (forward && gear.name != "R"))))
            names.push_back(gear.name);
    return names;
}

class DriveReader {
  public:
    DriveReader(const ApplicationChart& chart, const VisitFindings& findings,
                EliminationEvidence& into)
        : chart_(chart), findings_(findings), into_(into) {}

    void read(const DriveFinding& finding) {
        const Complaint& c = finding.felt;
        if (finding.ofConverter) {
            if (!finding.good())
                into_.converterBad.push_back(symptomInWords(c));
        } else if (!c.shift.empty()) {
            readShift(finding);
        } else if (c.symptom == Symptom::failSafe) {
            note("It was in its fail-safe gear, so a gear that it did not take says nothing about "
                 "clutches. Read the codes first.");
        } else if (!c.gear.empty()) {
            readGear(finding);
        } else if (finding.good()) {
            readGood(finding);
        } else if (gearResult(c.symptom)) {
            note(fmt::format("\"{}\" names no gear, so it eliminates nothing: type it by gear.",
                             symptomInWords(c)));
        }
    }

  private:
    void note(const std::string& sentence) { into_.notes.push_back(sentence); }

    /// Good in general means good in every gear without a complaint.
    void readGood(const DriveFinding& finding) {
        for (const std::string& gear : gearsMeant(chart_, "all")) {
            const bool bad = std::any_of(
                findings_.drive.begin(), findings_.drive.end(), [&](const DriveFinding& other) {
                    return !other.good() && !other.felt.gear.empty() &&
                           contains(gearsMeant(chart_, other.felt.gear), gear);
                });
            if (!bad)
                into_.gears.push_back({gear, GearResult::good, finding.driven, "good"});
        }
    }

    static bool contains(const std::vector<std::string>& gears, const std::string& gear) {
        return std::find(gears.begin(), gears.end(), gear) != gears.end();
    }

    void readGear(const DriveFinding& finding) {
        const Complaint& c = finding.felt;
        const std::vector<std::string> gears = gearsMeant(chart_, c.gear);
        if (gears.empty())
            return note(fmt::format("Gear {} is not in the chart of {}.", c.gear, chart_.unit));
        if (c.symptom == Symptom::wrongGear)
            return readObtained(finding);
        const auto result = gearResult(c.symptom);
        if (!result)
            return note(fmt::format("\"{}\" eliminates nothing: it points to pressure and command "
                                    "rather than to the elements that hold that gear.",
                                    symptomInWords(c)));
        for (const std::string& gear : gears) {
            into_.gears.push_back({gear, *result, finding.driven, symptomInWords(c)});
            if (c.manualRangeGood)
                readManualRange(finding, gear);
        }
    }

    void readManualRange(const DriveFinding& finding, const std::string& gear) {
        const ApplicationChart::Gear* manual = chart_.manualRangeOf(gear);
        if (manual == nullptr)
            return note(fmt::format("The chart has no row for gear {} picked by hand, so its "
                                    "behaviour there cannot be used.",
                                    gear));
        const bool good = *finding.felt.manualRangeGood;
        into_.gears.push_back({manual->name, good ? GearResult::good : GearResult::slips,
                               finding.driven,
                               fmt::format("{} in {}", good ? "good" : "slip", manual->name)});
    }

    void readObtained(const DriveFinding& finding) {
        const Complaint& c = finding.felt;
        if (c.obtainedGear.empty())
            return note(fmt::format("\"{}\" does not say which gear came instead: type it with "
                                    "--obtained.",
                                    symptomInWords(c)));
        if (chart_.gear(c.obtainedGear) == nullptr && c.obtainedGear != "N")
            return note(
                fmt::format("Gear {} is not in the chart of {}.", c.obtainedGear, chart_.unit));
        into_.obtained.push_back(
            {c.gear, c.obtainedGear == "N" ? "" : c.obtainedGear, finding.driven,
             fmt::format("{} commanded, {} obtained", c.gear, c.obtainedGear)});
    }

    void readShift(const DriveFinding& finding) {
        const Complaint& c = finding.felt;
        const std::size_t dash = c.shift.find('-');
        const std::string from = c.shift.substr(0, dash), to = c.shift.substr(dash + 1);
        if (chart_.gear(from) == nullptr || chart_.gear(to) == nullptr)
            return note(
                fmt::format("The shift {} is not one of the chart of {}.", c.shift, chart_.unit));
        const auto result = shiftResult(c.symptom);
        if (!result)
            return note(fmt::format("\"{}\" eliminates nothing: it points to pressure and command "
                                    "rather than to one element.",
                                    symptomInWords(c)));
        into_.shifts.push_back({from, to, *result, finding.driven, symptomInWords(c)});
    }

    const ApplicationChart& chart_;
    const VisitFindings& findings_;
    EliminationEvidence& into_;
};

} // namespace

EliminationEvidence eliminationEvidence(const ApplicationChart& chart,
                                        const VisitFindings& findings, const BenchContext& tables) {
    EliminationEvidence evidence;
    DriveReader drive(chart, findings, evidence);
    for (const DriveFinding& finding : findings.drive)
        drive.read(finding);
    readCodesForElimination(chart, findings, {tables.solenoids, tables.settings}, evidence);
    readBenchForElimination(chart, findings, tables, evidence);
    return evidence;
}

} // namespace swarfbook
