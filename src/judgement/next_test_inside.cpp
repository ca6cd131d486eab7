// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/next_test.h"
#include "judgement/promises.h"
#include "judgement/rules.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

MaybeTest splitBrightMetal(const Facts& facts) {
    const DebrisItem* bright = facts.debris->steel;
    const bool inQuantity = bright != nullptr &&
                            (bright->amount == Amount::plenty || bright->amount == Amount::notSaid);
    if (!inQuantity || bright->magnetic != Ferrous::notKnown)
        return std::nullopt;
    return NextTest{bright->sentence + " Whether it is steel or aluminium is not known.",
                    "Degrease and dry it on paper, and pass a magnet under the paper.",
                    "What moves is steel, from plates, gears or bearings; what stays is aluminium, "
                    "from converter, pump or case.",
                    {Hazard::magnets}};
}

MaybeTest circuitForTheTest(const Facts& facts) {
    const auto proven = facts.provenSolenoids();
    if (proven.empty() || facts.debris->onlyFinesOrSpecks() || !facts.debris->inspected)
        return std::nullopt;
    return NextTest{proven.front()->sentence +
                        " The debris is another matter and may be a fault of "
                        "its own.",
                    fmt::format("Put solenoid {} right for the test, then drive it through every "
                                "gear under load.",
                                proven.front()->name),
                    "It slips or is noisy: open it. It drives well: clean, and look again soon.",
                    {Hazard::ignition, Hazard::roadTest}};
}

MaybeTest proveTheBench(const Facts& facts) {
    if (facts.bores.standDoubted || facts.bores.allLowAlike)
        return NextTest{facts.bores.standSentence,
                        "Calibrate the vacuum stand with its open, blocked and fixed-jet readings, "
                        "re-seat the plate and read the bores again.",
                        "If they still read low, the bores are worn; if not, it was the stand.",
                        {Hazard::compressedAir}};
    if (facts.solenoids.allOffAlike)
        return NextTest{"Every coil is off its band by the same share, which no set of solenoids "
                        "is.",
                        "Zero the meter's leads, let the unit take the room's temperature and "
                        "measure again.",
                        "If they then lie in their band, none of them is at fault.",
                        {Hazard::ignition}};
    return std::nullopt;
}

MaybeTest cleanSuspects(const Facts& facts) {
    const auto suspects = facts.suspectSolenoids();
    if (suspects.empty() || (!facts.symptoms.anyBad() && !facts.symptoms.anyCode()))
        return std::nullopt;
    if (suspects.front()->coilApart)
        return NextTest{
            suspects.front()->sentence,
            fmt::format("Measure the coil of solenoid {} and of its siblings again, all "
                        "at one temperature, cold and hot.",
                        suspects.front()->name),
            "Still apart: replace it. Alike: it was the temperature or the leads.",
            {Hazard::ignition, Hazard::lowOhmCoil},
            promises::measuredAgain(facts, suspects.front()->name)};
    return NextTest{suspects.front()->sentence,
                    fmt::format("Demagnetise and flush solenoid {}, then repeat the same test "
                                "beside an identical one.",
                                suspects.front()->name),
                    "Still worse than its sibling: replace it. As good: it was dirt.",
                    {Hazard::ignition, Hazard::magnets},
                    promises::flushed(facts, suspects.front()->name)};
}

MaybeTest testPressure(const Facts& facts) {
    if (facts.pressureLowEverywhere)
        return NextTest{"The pressure is low in every range.",
                        "With level and filter in order, vacuum-test the main regulator's bore and "
                        "test the line pressure solenoid.",
                        "Both good: the pump is left, and the unit has to come out.",
                        {Hazard::ignition, Hazard::stallTest}};
    if (facts.pressureLowInRange && facts.leakingElements.empty())
        return NextTest{"The pressure is low in one range only, so that circuit leaks.",
                        "Air-check the clutch or brake of that range at its port, valve body off.",
                        "It leaks: open the unit. It holds: the bore that feeds it.",
                        {Hazard::compressedAir},
                        promises::airChecked(facts)};
    return std::nullopt;
}

MaybeTest testConverter(const Facts& facts) {
    const SymptomFacts& s = facts.symptoms;
    if (s.shudder && !s.converterSlip && !s.notConverter && s.performances().empty())
        return NextTest{
            "A shudder can come from the converter clutch or from the engine.",
            "Drive it at the speed where it shudders and touch the brake pedal lightly.",
            "It stops: the converter clutch. It goes on: the engine, read its misfire "
            "counters.",
            {Hazard::roadTest}};
    if (s.shudder && s.notConverter && facts.outside.empty())
        return NextTest{"The shudder goes on when the converter lets go, so it is not its clutch.",
                        "Read the engine's misfire counters and look at mounts and driveline.",
                        "A misfire or a worn mount lies outside the transmission."};
    if (!s.converterSlip)
        return std::nullopt;
    const auto* solenoid = facts.converterSolenoid();
    if (solenoid == nullptr || solenoid->state < SolenoidState::good)
        return NextTest{"The converter clutch does not hold, and its solenoid has not been proven.",
                        "Test the converter solenoid cold and hot: resistance, movement and leak.",
                        "Bad: replace it. Good: its regulator's bore is next.",
                        {Hazard::ignition}};
    return NextTest{"The converter clutch does not hold although its solenoid is good.",
                    "Vacuum-test the converter regulator's bore.",
                    "Low: repair the bore. Tight: the converter itself.",
                    {Hazard::compressedAir}};
}

std::string theseGears(const SymptomFacts& s) {
    std::vector<std::string> gears(s.slipGears.begin(), s.slipGears.end());
    for (const std::string& gear : s.ratioGears)
        if (!s.slipGears.contains(gear))
            gears.push_back(gear);
    return gears.empty() ? "the gears that slip" : "gear " + listed(gears);
}

MaybeTest testControlChain(const Facts& facts) {
    const SymptomFacts& s = facts.symptoms;
    const auto performances = s.performances();
    if (performances.empty() && !s.slips() && s.badShifts.empty() && !s.wrongGear && !s.failSafe)
        return std::nullopt;
    if (auto test = testByElimination(facts))
        return test;
    const SolenoidVerdict* named =
        performances.empty() ? nullptr : facts.solenoidOf(*performances.front());
    const bool solenoidGood = performances.empty()
                                  ? facts.solenoidsGood()
                                  : named != nullptr && named->state == SolenoidState::good;
    if (!solenoidGood)
        return NextTest{
            performances.empty()
                ? std::string("The solenoids have not been shown to move and seal; a right "
                              "resistance alone does not show it.")
                : fmt::format("Code {} says that solenoid {} has no effect, which can be the "
                              "solenoid, its valve or its bore.",
                              performances.front()->text, performances.front()->solenoid),
            performances.empty()
                ? std::string("Test every solenoid for resistance with temperature, movement and "
                              "leak, beside its identical siblings.")
                : fmt::format("Exchange solenoid {} with an identical one and drive again.",
                              performances.front()->solenoid),
            "The fault moves: the solenoid. It stays: the bore behind it.",
            {Hazard::ignition, Hazard::roadTest},
            performances.empty() ? std::vector<Promise>{}
                                 : promises::exchanged(facts, performances.front()->solenoid)};
    if (!facts.boresTested())
        return NextTest{"The solenoids test good; the bores behind them have not been tested.",
                        "Vacuum-test the valve-body bores that serve " + theseGears(s) + ".",
                        "Low: repair the bore. Tight: air-check the clutches.",
                        {Hazard::compressedAir}};
    if (facts.holdingElements.empty())
        return NextTest{"Solenoids and bores test good, so seal, ring or lining are left.",
                        "Air-check the clutches and brakes of " + theseGears(s) +
                            " at their ports, valve body off.",
                        "One leaks: open the unit. All hold: measure pressure in that gear.",
                        {Hazard::compressedAir},
                        promises::airChecked(facts)};
    if (facts.pressureNormal)
        return std::nullopt; // measured already
    return NextTest{"Solenoids, bores and air checks are good, and still it is not right.",
                    "Measure the pressure in " + theseGears(s) + " while it slips.",
                    "Right pressure with slip means lining, and opening; low pressure means a leak "
                    "still to be found.",
                    {Hazard::stallTest, Hazard::roadTest}};
}

MaybeTest traceMetal(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    if (d.yellow != nullptr && !facts.endPlay)
        return NextTest{d.yellow->sentence + " Nothing else speaks yet.",
                        "Measure the end play and listen for a whine gear by gear.",
                        "Too much play or a whine: open it. In order: clean and look again soon.",
                        {Hazard::hoist},
                        promises::endPlayMeasured()};
    if (d.nonMagnetic != nullptr && !facts.converterDrainDirty)
        return NextTest{d.nonMagnetic->sentence + " It is not magnetic, and nothing else speaks.",
                        "Drain the converter through white paper and look at what comes.",
                        "Bright there too: the converter. Clean: pump or case, cut the filter."};
    if (d.steel != nullptr || d.yellow != nullptr || d.nonMagnetic != nullptr ||
        (d.coat && *d.coat == Coat::f4))
        return NextTest{(d.coat && *d.coat == Coat::f4) ? d.coatSentence
                                                        : "There is more metal than specks, and "
                                                          "nothing is heard or felt in driving.",
                        "Cut the filter open and spread it; rub the magnet's paste between gloved "
                        "fingers.",
                        "Pieces there that can be felt: open it. Only dust: clean, and look again "
                        "soon.",
                        {Hazard::slivers, Hazard::magnets}};
    return std::nullopt;
}

MaybeTest traceSoftDebris(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    if (d.friction >= Friction::heavy)
        return NextTest{d.lining->sentence + " Yet it does not slip: the converter clutch or the "
                                             "adaptation may be hiding it.",
                        facts.adaptation
                            ? "Drain the converter through white paper and look."
                            : "Read the adaptive pressures and fill volumes, then look "
                              "at the converter's drain.",
                        "A clutch at its limit: open it. The converter's drain full of lining: the "
                        "converter."};
    if (d.plasticNeedsSource)
        return NextTest{d.plastic->sentence + " That is no plug left from assembly.",
                        "Find where it comes from: baffle, chain guide, filter neck, check balls, "
                        "harness clips.",
                        "A part outside the geartrain is replaced with the pan off; else it has to "
                        "be opened."};
    if (d.rubber != nullptr)
        return NextTest{d.rubber->sentence + " A seal is losing its edge.",
                        "Air-check every clutch and brake at its port, valve body off.",
                        "One leaks: open it. All hold: clean, and look again soon.",
                        {Hazard::compressedAir}};
    if (facts.wipedWithoutRecord)
        return NextTest{"The evidence was wiped away lately, so a clean pan clears nothing.",
                        "Cut the filter open and drain the converter through white paper.",
                        "Clean there as well: look again soon. Debris there: it counts in full."};
    return std::nullopt;
}

} // namespace

MaybeTest testInside(const Facts& facts) {
    for (const auto ask :
         {circuitForTheTest, proveTheBench, cleanSuspects, testPressure, testConverter,
          testControlChain, splitBrightMetal, traceMetal, traceSoftDebris})
        if (auto test = ask(facts))
            return test;
    return std::nullopt;
}

NextTest lastTest(const Facts& facts) {
    if (facts.symptoms.noise)
        return {"It makes a noise, and no metal has been found yet.",
                "Cut the filter open, then find the noise gear by gear on the hoist with a "
                "stethoscope, driveline and wheel bearings included.",
                "Metal with the noise: open it. A bearing outside: put that right.",
                {Hazard::roadTest}};
    if (facts.symptoms.overheats && facts.coolerFlowLow == false)
        return {"It runs hot although the cooler's flow is right.",
                "Drive it with the converter clutch locked and watch its slip.",
                "It slips: its solenoid and regulator are next. It holds: look at the engine's "
                "cooling.",
                {Hazard::roadTest}};
    if (facts.symptoms.overheats)
        return {"It runs hot, and nothing found so far explains it.",
                "Measure the cooler's flow: about a litre in 20 to 30 seconds at idle, or the "
                "maker's figure.",
                "Low: flush or replace the cooler. Right: the converter clutch."};
    if (facts.debris->burntSmell)
        return {"The fluid smells burnt.", "Cut the filter open and look for lining.",
                "Lining there: clutches have burnt. None: clean, and look again soon."};
    return {"What has been found so far does not settle it.",
            "Drive it again, cold and hot, through every gear, and cut the filter open.",
            "A slip, a noise or pieces in the filter show the way; none of them allows cleaning.",
            {Hazard::roadTest}};
}

} // namespace swarfbook
