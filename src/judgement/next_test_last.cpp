// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/shown_units.h"
#include "judgement/next_test.h"

#include <algorithm>

namespace swarfbook {
namespace {

bool filterCut(const Facts& facts) {
    return facts.debris->placeSeen(Where::filter);
}

/// Everything in the circuit of a stored code was found good.
MaybeTest codeAlone(const Facts& facts) {
    if (facts.symptoms.circuits().empty())
        return std::nullopt;
    return NextTest{"Everything looked at in that circuit is good, but its code is still stored.",
                    "Clear the code, drive it cold and hot until it comes back, and read the "
                    "freeze frame.",
                    "It stays away: nothing is repaired now. It comes back: measure as warm and as "
                    "loaded as the freeze frame says.",
                    {Hazard::roadTest}};
}

MaybeTest findTheNoise(const Facts& facts) {
    if (!facts.symptoms.noise)
        return std::nullopt;
    const std::string why = facts.debris->anyMetal()
                                ? "It makes a noise, and where it comes from is not found."
                                : "It makes a noise, and no metal has been found yet.";
    const std::string hoist = "find the noise gear by gear on the hoist with a stethoscope, "
                              "driveline and wheel bearings included.";
    const char* answers = "Metal with the noise: open it. A bearing outside: put that right.";
    const bool driveline = facts.looked(OutsideItem::driveline);
    if (!filterCut(facts))
        return NextTest{why,
                        driveline ? "Cut the filter open and spread it."
                                  : "Cut the filter open, then " + hoist,
                        answers,
                        {Hazard::roadTest}};
    if (!driveline)
        return NextTest{why, "With the filter cut already, " + hoist, answers, {Hazard::roadTest}};
    if (!facts.endPlay)
        return NextTest{why,
                        "Measure the end play.",
                        "Too much: a thrust washer or bearing is worn, and it is opened. In order: "
                        "converter and pump are left.",
                        {Hazard::hoist}};
    if (!facts.converterDrainDirty)
        return NextTest{
            why, "Drain the converter through white paper and look at what comes.",
            "Metal there: the converter. Clean: the pump, or nothing that is worn yet."};
    return std::nullopt;
}

bool drivenLocked(const Facts& facts) {
    const auto& drive = facts.findings->drive;
    return std::any_of(drive.begin(), drive.end(),
                       [](const DriveFinding& felt) { return felt.ofConverter; });
}

MaybeTest findTheHeat(const Facts& facts) {
    if (!facts.symptoms.overheats)
        return std::nullopt;
    if (!facts.coolerFlowLow)
        return NextTest{"It runs hot, and nothing found so far explains it.",
                        "Measure the cooler's flow: about a litre in 20 to 30 seconds at idle, or "
                        "the maker's figure.",
                        "Low: flush or replace the cooler. Right: the converter clutch."};
    if (!drivenLocked(facts))
        return NextTest{"It runs hot although the cooler's flow is right.",
                        "Drive it with the converter clutch locked and watch its slip.",
                        "It slips: its solenoid and regulator are next. It holds: look at the "
                        "engine's cooling.",
                        {Hazard::roadTest}};
    if (!facts.looked(OutsideItem::engine))
        return NextTest{"It runs hot, though the cooler passes enough and the converter clutch "
                        "holds.",
                        "Look at the engine's cooling: thermostat, radiator, fans.",
                        "At fault: it lies outside. In order: look at the debris again soon."};
    return std::nullopt;
}

/// Driven cold and hot, or said to be good without more.
bool drivenEnough(const Facts& facts) {
    bool cold = false, hot = false;
    for (const DriveFinding& felt : facts.findings->drive) {
        cold |= felt.driven.warmth == Warmth::cold || felt.driven.warmth == Warmth::both;
        hot |= felt.driven.warmth == Warmth::hot || felt.driven.warmth == Warmth::both;
    }
    return cold && hot;
}

} // namespace

NextTest lastTest(const Facts& facts) {
    for (const auto ask : {codeAlone, findTheNoise, findTheHeat})
        if (auto test = ask(facts))
            return *test;
    if (facts.debris->burntSmell && !filterCut(facts))
        return {"The fluid smells burnt.", "Cut the filter open and look for lining.",
                "Lining there: clutches have burnt. None: clean, and look again soon."};
    if (!filterCut(facts))
        return {"What has been found so far does not settle it.",
                drivenEnough(facts)
                    ? "Cut the filter open and spread it."
                    : "Drive it again, cold and hot, through every gear, and cut the filter open.",
                "A slip, a noise or pieces in the filter show the way; none of them allows "
                "cleaning.",
                {Hazard::roadTest}};
    if (!drivenEnough(facts))
        return {"What has been found so far does not settle it.",
                "Drive it again, cold and hot, through every gear.",
                "A slip or a noise shows the way; neither of them allows cleaning.",
                {Hazard::roadTest}};
    return {"All tests asked for have been done, and they do not settle it.",
            "Clean pan and magnet, fit a new filter, drive it " + distanceRange(50.0, 150.0) +
                ", read the codes and look again.",
            "What you find then shows the way; if you find nothing, leave it at that.",
            {Hazard::roadTest}};
}

} // namespace swarfbook
