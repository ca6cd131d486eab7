// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/visit_findings.h"

#include "bench/drive_findings.h"
#include "bench/observation_fields.h"

#include <algorithm>
#include <set>

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

/// One reader for each kind of observation; what follows a repair counts where it did not hold.
class Reader {
  public:
    explicit Reader(const WarmthLimits& limits) : limits_(limits) {}

    VisitFindings read(const std::vector<Observation>& observations) {
        all_.repairs = repairSteps(observations, limits_);
        std::set<std::size_t> setAside;   // places of what was seen after a repair that held
        std::set<std::size_t> firstCodes; // of those that were read after a repair that did not
        for (const RepairStep& step : all_.repairs)
            sort(step, observations, setAside, firstCodes);
        for (std::size_t place = 0; place < observations.size(); ++place) {
            if (setAside.contains(place))
                continue;
            if (firstCodes.contains(place))
                all_.codes.clear();
            std::visit([&](const auto& o) { add(o); }, observations[place]);
        }
        return std::move(all_);
    }

  private:
    void add(const SinceClean& /*told of the distance, not of the unit*/) {}
    void add(const History& o) { fields::addLater(all_.history, o); }
    static void sort(const RepairStep& step, const std::vector<Observation>& observations,
                     std::set<std::size_t>& setAside, std::set<std::size_t>& firstCodes) {
        bool codesSeen = false;
        for (const std::size_t place : step.told) {
            if (!seenAfterRepair(observations[place]))
                continue;
            if (!step.failed())
                setAside.insert(place);
            else if (!codesSeen && std::holds_alternative<Codes>(observations[place]))
                codesSeen = firstCodes.insert(place).second;
        }
    }
    void add(const Codes& o) {
        all_.codesRead = true;
        addCodes(o, all_.codes);
    }
    void add(const Complaint& o) {
        all_.driveTold = true;
        addFelt(driveFinding(o, limits_, false), all_.drive);
    }
    void add(const RoadTest& o) {
        all_.driveTold = true;
        addFelt(driveFinding(o, limits_, true), all_.drive);
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
    void add(const MagnetsFitted& o) { all_.magnets = o; }
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
    void add(const AfterRepair& /*read with the steps*/) {}
    void add(const RepairResult& /*read with the steps*/) {}
    void add(const TakenBack& /*the book has taken it back*/) {}

    WarmthLimits limits_;
    VisitFindings all_;
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

} // namespace swarfbook
