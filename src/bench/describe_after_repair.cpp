// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/describe_after_repair.h"

#include "bench/describe_parts.h"
#include "bench/oil_level.h"

namespace swarfbook {

using namespace describing;

std::string driveLine(const Complaint& o) {
    const std::string where = !o.gear.empty()    ? " in " + o.gear
                              : !o.shift.empty() ? " at the shift " + o.shift
                                                 : "";
    return Line()
        .add(std::string(wordOf(o.symptom)) + where)
        .add(o.obtainedGear.empty() ? "" : "gear " + o.obtainedGear + " obtained")
        .add(word("load", o.load, Load::notSaid))
        .add(word("", o.warmth, Warmth::notSaid))
        .add(typed(o.temperature, "C", 0))
        .add(yesNo(o.stopsOnBrakeTap, "stops on a tap of the brake",
                   "goes on at a tap of the brake"))
        .add(yesNo(o.manualRangeGood, "good in the manual range", "bad in the manual range too"))
        .add(o.note)
        .text();
}

std::string line(const RoadTest& o) {
    return driveLine(o);
}

std::string line(const Refill& o) {
    return Line()
        .add(labelled("filled", o.filled, "l", 2))
        .add(o.fluid)
        .add(labelled("at", o.at, "C", 0))
        .text();
}

std::string line(const LevelCheck& o) {
    const std::string window =
        o.windowLow && o.windowHigh
            ? fmt::format("the maker's window {} to {}", typed(o.windowLow, "C", 0),
                          typed(o.windowHigh, "C", 0))
            : "";
    return Line()
        .add(std::string(wordOf(o.found)))
        .add(labelled("at", o.at, "C", 0))
        .add(window)
        .add(labelled("unit holds", o.total, "l", 1))
        .add(yesNo(o.selectorCycled, "selector cycled", "selector not cycled"))
        .add(levelSentence(o))
        .text();
}

std::string line(const AfterRepair& o) {
    return Line()
        .add(o.did.empty() ? "" : "done: " + o.did)
        .add(joined(o.parts))
        .add(word("adaptation", o.adaptation, AdaptationDone::notSaid))
        .add(yesNo(o.selectorCycled, "selector cycled", "selector not cycled"))
        .add(yesNo(o.leaks, "it leaks", "no leaks seen"))
        .add(o.note)
        .text();
}

std::string line(const RepairOutcome& o) {
    constexpr std::string_view said[] = {"fixed", "it came back", "not known"};
    return Line()
        .add(std::string(said[static_cast<std::size_t>(o.held)]))
        .add(labelled("after", o.after, "km", 0))
        .add(o.did.empty() ? "" : "done: " + o.did)
        .add(joined(o.parts))
        .add(o.note)
        .text();
}

std::string line(const TakenBack& o) {
    return o.why;
}

} // namespace swarfbook
