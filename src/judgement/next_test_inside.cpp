// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/flush_words.h"
#include "judgement/next_test.h"
#include "judgement/promises.h"
#include "judgement/rules.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

MaybeTest circuitForTheTest(const Facts& facts) {
    const auto proven = facts.provenSolenoids();
    const bool madeAlready = !facts.findings->repairs.empty();
    if (proven.empty() || facts.debris->onlyFinesOrSpecks() || !facts.debris->inspected ||
        madeAlready)
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

/// A solenoid whose flush is in the book is tested again, once the flush is at its end.
NextTest afterFlushing(const Facts& facts, const SolenoidVerdict& solenoid,
                       const FlushOfPart& flush) {
    const FlushVerdict verdict = flush.series.decay.verdict;
    const bool atItsEnd = verdict == FlushVerdict::clean || verdict == FlushVerdict::nothingCame;
    const std::string again =
        fmt::format("test solenoid {} again in the same way beside an identical one, and type it "
                    "with --flushed.",
                    solenoid.name);
    return NextTest{solenoid.sentence + " " + flushVerdictSentence(flush),
                    atItsEnd ? "Now " + again
                             : fmt::format("Flush solenoid {} on until it is clean, then {}",
                                           solenoid.name, again),
                    "Still worse than its sibling: replace it. As good: it was dirt.",
                    {Hazard::ignition, Hazard::magnets},
                    promises::flushed(facts, solenoid.name)};
}

MaybeTest cleanSuspects(const Facts& facts) {
    const auto suspects = facts.suspectSolenoids();
    if (suspects.empty() || (!facts.symptoms.anyBad() && !facts.symptoms.anyCode()))
        return std::nullopt;
    if (suspects.front()->contradicted)
        return NextTest{suspects.front()->sentence,
                        fmt::format("Zero the meter's leads and measure solenoid {} again at its "
                                    "own pins, the leads held firm.",
                                    suspects.front()->name),
                        "Bad again: replace it. Right: the coil is right, and the fault lies "
                        "beyond the case connector.",
                        {Hazard::ignition, Hazard::lowOhmCoil},
                        promises::pinsReadAgain(facts, suspects.front()->name)};
    if (suspects.front()->coilApart)
        return NextTest{
            suspects.front()->sentence,
            fmt::format("Measure the coil of solenoid {} and of its siblings again, all "
                        "at one temperature, cold and hot.",
                        suspects.front()->name),
            "Still apart: replace it. Alike: it was the temperature or the leads.",
            {Hazard::ignition, Hazard::lowOhmCoil},
            promises::measuredAgain(facts, suspects.front()->name)};
    if (const FlushOfPart* flush = facts.flushOf(*suspects.front()))
        return afterFlushing(facts, *suspects.front(), *flush);
    return NextTest{suspects.front()->sentence,
                    fmt::format("Demagnetise and flush solenoid {}, then repeat the same test "
                                "beside an identical one.",
                                suspects.front()->name),
                    "Still worse than its sibling: replace it. As good: it was dirt.",
                    {Hazard::ignition, Hazard::magnets},
                    promises::flushed(facts, suspects.front()->name)};
}

/// Line pressure: its regulator, its solenoid and the level, as far as they are still open.
MaybeTest testLinePressure(const Facts& facts) {
    const bool boreOpen = !facts.boresTested(), solenoidOpen = !facts.solenoidsGood();
    if (boreOpen || solenoidOpen)
        return NextTest{"The pressure is low in every range.",
                        !solenoidOpen
                            ? "With level and filter in order, vacuum-test the main regulator's "
                              "bore."
                        : !boreOpen ? "With level and filter in order, test the line pressure "
                                      "solenoid."
                                    : "With level and filter in order, vacuum-test the main "
                                      "regulator's bore and test the line pressure solenoid.",
                        "Both good: the pump is left, and the unit has to come out.",
                        {Hazard::ignition, Hazard::stallTest}};
    if (facts.level == nullptr)
        return NextTest{"The pressure is low in every range, though bore and solenoid are good, "
                        "and the fluid level is not recorded.",
                        "Check the level at the temperature the maker states.",
                        "Low: put it right and measure again. Right: the pump is left.",
                        {Hazard::hotFluid}};
    return std::nullopt;
}

MaybeTest testPressure(const Facts& facts) {
    if (facts.pressureLowEverywhere)
        return testLinePressure(facts);
    if (!facts.pressureLowInRange || !facts.leakingElements.empty())
        return std::nullopt;
    if (facts.holdingElements.empty())
        return NextTest{"The pressure is low in one range only, so that circuit leaks.",
                        "Air-check the clutch or brake of that range at its port, valve body off.",
                        "It leaks: open the unit. It holds: the bore that feeds it.",
                        {Hazard::compressedAir},
                        promises::airChecked(facts)};
    if (!facts.boresTested())
        return NextTest{"The pressure is low in one range only, and the clutch of that range holds "
                        "air.",
                        "Vacuum-test the valve-body bore that feeds that range.",
                        "Low: repair the bore. Tight: the passage and gasket between them.",
                        {Hazard::compressedAir}};
    return std::nullopt;
}

bool engineAndMountsLooked(const Facts& facts) {
    return facts.looked(OutsideItem::engine) || facts.looked(OutsideItem::mounts) ||
           facts.looked(OutsideItem::driveline);
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
    if (s.shudder && s.notConverter && !engineAndMountsLooked(facts))
        return NextTest{"The shudder goes on when the converter lets go, so it is not its clutch.",
                        "Read the engine's misfire counters and look at mounts and driveline.",
                        "A misfire or a worn mount lies outside the transmission."};
    if (!s.converterSlip)
        return std::nullopt;
    const auto* solenoid = facts.converterSolenoid();
    const bool exchanged = solenoid != nullptr && facts.doneInVain("solenoid " + solenoid->name);
    if (!exchanged && (solenoid == nullptr || solenoid->state < SolenoidState::good))
        return NextTest{"The converter clutch does not hold, and its solenoid has not been proven.",
                        "Test the converter solenoid cold and hot: resistance, movement and leak.",
                        "Bad: replace it. Good: its regulator's bore is next.",
                        {Hazard::ignition}};
    if (!facts.boresTested())
        return NextTest{"The converter clutch does not hold although its solenoid is good.",
                        "Vacuum-test the converter regulator's bore.",
                        "Low: repair the bore. Tight: the converter itself.",
                        {Hazard::compressedAir}};
    return std::nullopt;
}

std::string theseGears(const SymptomFacts& s) {
    std::vector<std::string> gears(s.slipGears.begin(), s.slipGears.end());
    for (const std::string& gear : s.ratioGears)
        if (!s.slipGears.contains(gear))
            gears.push_back(gear);
    return gears.empty() ? "the gears that slip" : "gear " + listed(gears);
}

NextTest testEverySolenoid() {
    return {"The solenoids have not been shown to move and seal; a right resistance alone does not "
            "show it.",
            "Test every solenoid for resistance with temperature, movement and leak, beside its "
            "identical siblings.",
            "One is bad or worse: that one. All alike: the bores behind them.",
            {Hazard::ignition, Hazard::lowOhmCoil}};
}

NextTest exchangeSolenoid(const Facts& facts, const TroubleCode& code) {
    return {
        fmt::format("Code {} says that solenoid {} has no effect, which can be the solenoid, "
                    "its valve or its bore.",
                    code.text, code.solenoid),
        fmt::format("Exchange solenoid {} with an identical one and drive again.", code.solenoid),
        "The fault moves: the solenoid. It stays: the bore behind it.",
        {Hazard::ignition, Hazard::roadTest},
        promises::exchanged(facts, code.solenoid)};
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
    const bool solenoidGood =
        performances.empty() ? facts.solenoidsGood()
                             : facts.doneInVain("solenoid " + performances.front()->solenoid) ||
                                   (named != nullptr && named->state == SolenoidState::good);
    if (!solenoidGood)
        return performances.empty() ? testEverySolenoid()
                                    : exchangeSolenoid(facts, *performances.front());
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
    if (!facts.findings->pressures.empty())
        return std::nullopt; // measured already
    return NextTest{"Solenoids, bores and air checks are good, and still it is not right.",
                    "Measure the pressure in " + theseGears(s) + " while it slips.",
                    "Right pressure with slip means lining, and opening; low pressure means a leak "
                    "still to be found.",
                    {Hazard::stallTest, Hazard::roadTest}};
}

} // namespace

MaybeTest testInside(const Facts& facts) {
    for (const auto ask : {circuitForTheTest, proveTheBench, cleanSuspects, testPressure,
                           testConverter, testControlChain, followDebris})
        if (auto test = ask(facts))
            return test;
    return std::nullopt;
}

} // namespace swarfbook
