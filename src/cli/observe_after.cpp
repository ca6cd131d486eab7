// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/observe_kinds.h"
#include "cli/repair_done.h"

namespace swarfbook::cli {
namespace {

Observation readRefill(const ObserveWords& words) {
    words.atMost(1);
    Refill refill;
    refill.filled =
        parseVolume(words.value(0, "how much was filled in, such as 4.5l"), words.sure());
    words.quantity("at", parseTemperature, refill.at);
    refill.fluid = words.text("kind-of-fluid").value_or("");
    return refill;
}

Observation readLevelCheck(const ObserveWords& words) {
    words.atMost(1);
    LevelCheck check;
    check.found = fromWord<LevelFound>(words.value(0, "the level: " + wordList<LevelFound>()));
    words.quantity("at", parseTemperature, check.at);
    if (const auto window = words.text("window")) {
        const auto [low, high] = endsOf(*window);
        check.windowLow = parseTemperature(low, words.sure());
        check.windowHigh = parseTemperature(high, words.sure());
        if (!(check.windowLow->value < check.windowHigh->value))
            throw UsageError("The window's first temperature must be the lower one.");
    }
    words.quantity("total", parseVolume, check.total);
    check.selectorCycled = words.yesNo("selector-cycled");
    return check;
}

/// "3 good", "2-3 flare" or "good" for the whole drive.
Observation readRoadTest(const ObserveWords& words) {
    RoadTest test;
    std::string symptom = words.value(0, "a gear, a shift or how it drives as a whole");
    if (words.maybeValue(1)) {
        if (symptom.find_first_of("->/") != std::string::npos && symptom.size() > 2)
            test.shift = shiftOf(symptom);
        else
            test.gear = gearOf(symptom);
        symptom = words.valuesFrom(1, "");
    }
    test.symptom = fromWord<Symptom>(symptom);
    readDriving(words, test);
    return test;
}

/// What was done, where it was said, into the entry's rung and parts.
template <class Entry> void readDone(const ObserveWords& words, Entry& entry) {
    if (const auto did = words.text("did")) {
        RepairDone done = repairDone(*did);
        entry.did = std::move(done.rung);
        entry.parts = std::move(done.parts);
    }
}

Observation readAfterRepair(const ObserveWords& words) {
    words.atMost(0);
    AfterRepair after;
    readDone(words, after);
    words.word("adaptation", after.adaptation);
    after.selectorCycled = words.yesNo("selector-cycled");
    after.leaks = words.yesNo("leaks");
    after.note = words.text("note").value_or("");
    return after;
}

Observation readOutcome(const ObserveWords& words) {
    words.atMost(1);
    RepairOutcome outcome;
    outcome.held = fromWord<Held>(words.value(0, "what became of it: " + wordList<Held>()));
    words.quantity("after-distance", parseDistance, outcome.after);
    readDone(words, outcome);
    outcome.note = words.text("note").value_or("");
    return outcome;
}

Observation readTakeBack(const ObserveWords& words) {
    words.atMost(0);
    const std::string why = words.text("note").value_or("");
    if (!words.text("corrects") || why.empty())
        throw UsageError("Say which entry with --corrects and why with --note: both stay in the "
                         "book.");
    return TakenBack{why};
}

} // namespace

std::vector<ObserveKind> afterKinds() {
    return {
        {"after-repair",
         "what was done before it is driven: selector, adaptation, leaks",
         "[options]",
         "after-repair --did \"solenoid A replaced\" --selector-cycled yes --adaptation done "
         "--leaks no",
         {"did", "adaptation", "selector-cycled", "leaks", "note"},
         readAfterRepair},
        {"refill",
         "how much fluid was filled in",
         "AMOUNT [options]",
         "refill 4.5l --at 25C",
         {"at", "kind-of-fluid"},
         readRefill},
        {"level-check",
         "the level after refilling, at its temperature; outside the maker's window it says to "
         "wait",
         "right|low|high --at T [options]",
         "level-check right --at 40C --window 35-45C --total 9l",
         {"at", "window", "total", "selector-cycled"},
         readLevelCheck},
        {"road-test", "how the repaired unit drives, in a gear, over a shift or as a whole",
         "[GEAR|SHIFT] SYMPTOM [options]", "road-test 2-3 good --load firm --warmth hot",
         drivingOptions(), readRoadTest},
        {"outcome",
         "what became of the repair, at the next contact",
         "fixed|came-back|not-known [options]",
         "outcome fixed --after-distance 1200km",
         {"after-distance", "did", "note"},
         readOutcome},
        {"take-back",
         "an earlier entry was wrong and nothing stands in its place; both stay in the book",
         "--corrects NUMBER --note WHY",
         "take-back --corrects 1 --note \"typed at the wrong car\"",
         {"note"},
         readTakeBack},
    };
}

} // namespace swarfbook::cli
