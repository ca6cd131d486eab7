// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/visit_findings.h"

#include "bench/drive_findings.h"
#include "bench/observation_fields.h"

#include <algorithm>

namespace swarfbook {
namespace {

/// The later test of the same place and pieces replaces the earlier; another does not.
template <class Test> void addTest(const Test& test, std::vector<Test>& standing) {
    std::erase_if(standing, [&](const Test& old) {
        return old.place == test.place && old.pieces == test.pieces;
    });
    standing.push_back(test);
}

template <class T, class Key> void addByKey(const T& seen, std::vector<T>& standing, Key T::*key) {
    std::erase_if(standing, [&](const T& old) { return old.*key == seen.*key; });
    standing.push_back(seen);
}

PressureFinding pressureFinding(const PressureSeen& p) {
    PressureFinding finding{p.gear == "all" ? "" : p.gear, p.found};
    if (p.reading && p.makersLow && p.reading->value < p.makersLow->value)
        finding.found = PressureFound::low;
    else if (p.reading && p.makersHigh && p.reading->value > p.makersHigh->value)
        finding.found = PressureFound::high;
    return finding;
}

/// One reader for each kind of observation; what follows a repair is kept apart until it is known
/// whether the repair held.
class Reader {
  public:
    explicit Reader(const WarmthLimits& limits) : limits_(limits) {}

    VisitFindings read(const std::vector<Observation>& observations) {
        for (const Observation& observation : observations)
            std::visit([&](const auto& o) { add(o); }, observation);
        judgeRepair();
        return std::move(all_);
    }

  private:
    void add(const SinceClean& /*told of the distance, not of the unit*/) {}
    void add(const History& o) { fields::addLater(all_.history, o); }
    void add(const Codes& o) {
        if (o.when == CodesWhen::after) {
            codesReadAfter_ = true;
            all_.repair.made = true;
            return addCodes(o, codesAfter_);
        }
        all_.codesRead = true;
        addCodes(o, all_.codes);
    }
    void add(const Complaint& o) {
        all_.driveTold = true;
        addFelt(driveFinding(o, limits_, false), all_.drive);
    }
    void add(const RoadTest& o) {
        all_.repair.made = true;
        addFelt(driveFinding(o, limits_, true), driveAfter_);
    }
    void add(const Noise& o) {
        all_.driveTold = true;
        addHeard(o, all_.noises);
    }
    void add(const FluidSeen& o) {
        all_.fluidTold = true;
        fields::addLater(all_.fluid, o);
    }
    void add(const LevelSeen& o) { all_.level = o; }
    void add(const OutsideCheck& o) { addByKey(o, all_.outside, &OutsideCheck::item); }
    void add(const SolenoidReadings& o) { all_.solenoids.push_back(o); }
    void add(const BoreReadings& o) { all_.bores.push_back(o); }
    void add(const PressureSeen& o) {
        addByKey(pressureFinding(o), all_.pressures, &PressureFinding::gear);
    }
    void add(const AirCheck& o) { addByKey(o, all_.airChecks, &AirCheck::element); }
    void add(const FingerTest& o) { addTest(o, all_.finger); }
    void add(const MagnetTest& o) { addTest(o, all_.magnet); }
    void add(const SqueezeTest& o) { addTest(o, all_.squeeze); }
    void add(const DebrisSeen& o) { all_.debris.push_back(o); }
    void add(const CoolerFlow& o) { fields::addLater(all_.cooler, o); }
    void add(const ConverterSeen& o) { fields::addLater(all_.converter, o); }
    void add(const EndPlaySeen& o) { all_.endPlay = o.result; }
    void add(const ValveBodySeen& o) { fields::addLater(all_.valveBody, o); }
    void add(const AdaptationSeen& o) { all_.adaptation = o.result; }
    void add(const NotInspected& o) { all_.notInspected.push_back(o.what); }
    void add(const Overruled& o) { all_.overruled = o; }
    void add(const FilterNeckSeen& o) { all_.filterNeck = o; }
    void add(const Refill& /*says nothing of what is wrong*/) {}
    void add(const LevelCheck& /*of the filled unit*/) {}
    void add(const AfterRepair& o) {
        all_.repair.made = true;
        if (o.work.empty())
            done(o.did, o.parts);
        else
            alsoDone(o);
    }
    void add(const RepairOutcome& o) {
        all_.repair.made = true;
        all_.repair.held = o.held;
        done(o.did, o.parts);
    }
    void add(const TakenBack& /*the book has taken it back*/) {}

    void done(const std::string& rung, const std::vector<std::string>& parts) {
        if (!rung.empty())
            all_.repair.rungs = {rung};
        if (!parts.empty())
            all_.repair.parts = parts;
    }

    /// Work adds up: each line tells of other parts.
    void alsoDone(const AfterRepair& o) {
        if (!o.did.empty())
            all_.repair.rungs.push_back(o.did);
        for (const std::string& part : o.parts)
            if (std::find(all_.repair.parts.begin(), all_.repair.parts.end(), part) ==
                all_.repair.parts.end())
                all_.repair.parts.push_back(part);
    }

    void judgeRepair() {
        RepairStep& repair = all_.repair;
        for (const DriveFinding& felt : driveAfter_)
            if (!felt.good())
                repair.still.push_back(inPlainWords(felt));
        for (const CodeFinding& found : codesAfter_)
            if (found.code.family != CodeFamily::pointer)
                repair.still.push_back("code " + found.code.text);
        if (!repair.failed())
            return;
        for (DriveFinding& felt : driveAfter_)
            addFelt(std::move(felt), all_.drive);
        all_.driveTold = all_.driveTold || !driveAfter_.empty();
        if (codesReadAfter_) {
            all_.codesRead = true;
            all_.codes = std::move(codesAfter_);
        }
    }

    WarmthLimits limits_;
    VisitFindings all_;
    std::vector<DriveFinding> driveAfter_;
    std::vector<CodeFinding> codesAfter_;
    bool codesReadAfter_ = false;
};

} // namespace

std::optional<PressureFound> VisitFindings::pressureIn(const std::string& gear) const {
    for (const PressureFinding& pressure : pressures)
        if (pressure.gear == gear)
            return pressure.found;
    return std::nullopt;
}

std::optional<Feel> VisitFindings::worstFeel() const {
    std::optional<Feel> worst;
    for (const FingerTest& test : finger)
        worst = worst ? std::max(*worst, test.feel) : test.feel;
    return worst;
}

VisitFindings visitFindings(const std::vector<Observation>& observations,
                            const WarmthLimits& limits) {
    return Reader(limits).read(observations);
}

std::vector<Observation> beforeRepair(const std::vector<Observation>& observations) {
    std::vector<Observation> before = observations;
    std::erase_if(before, [](const Observation& o) {
        const auto* codes = std::get_if<Codes>(&o);
        return std::holds_alternative<RoadTest>(o) || std::holds_alternative<AfterRepair>(o) ||
               std::holds_alternative<RepairOutcome>(o) || std::holds_alternative<Refill>(o) ||
               std::holds_alternative<LevelCheck>(o) ||
               (codes != nullptr && codes->when == CodesWhen::after);
    });
    return before;
}

} // namespace swarfbook
