// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/cautions.h"

#include <algorithm>
#include <map>
#include <stdexcept>
#include <utility>

namespace swarfbook {

namespace {

// Every hazard with its caution, in the order in which they are shown.
const std::vector<std::pair<Hazard, std::string_view>> cautions{
    {Hazard::drivingOn,
     "Do not drive it. Tow it with the drive wheels lifted or on a flatbed: turning "
     "wheels with the engine off starve the unit of fluid."},
    {Hazard::hoist, "Work under it only on a rated hoist or stands on hard level ground, wheels "
                    "chocked; never under a jack."},
    {Hazard::runningEngine, "Engine running: brake on, nobody in front or behind the vehicle."},
    {Hazard::hotFluid,
     "Working fluid burns skin and ignites on a hot exhaust: let it cool, wear sleeves "
     "and gloves."},
    {Hazard::ignition,
     "Ignition off, key away and control units asleep before anything is unplugged; "
     "never feed a solenoid back through the control unit. High-voltage hybrids are for "
     "trained staff only."},
    {Hazard::lowOhmCoil,
     "Do not put steady 12 V on a low-ohm linear coil: it draws far more than it is made "
     "for."},
    {Hazard::compressedAir,
     "Compressed air: eye protection, low pressure (under 30 psi, 2.1 bar, at a blocked "
     "nozzle where the US rule holds), a rag over the port; parts and springs fly out of "
     "bores."},
    {Hazard::magnets,
     "Wearers of heart implants stay 15 cm away from magnets and out of the area of a "
     "demagnetiser; keep phones, cards and sensors away, and never demagnetise a sensor "
     "or a part with a magnet of its own."},
    {Hazard::slivers,
     "Slivers cut and stay in the skin: rub debris only with nitrile gloves or through "
     "paper."},
    {Hazard::clutchDust,
     "Do not blow clutch dust about: it and old gaskets may hold harmful fibre."},
    {Hazard::solvents,
     "Solvents: ventilation, gloves, no flame; no chlorinated cleaner near hot metal."},
    {Hazard::waste, "Used fluid, filters, rags and solvent go separately to a licensed collector."},
    {Hazard::towing,
     "Do not tow it with the drive wheels turning and the engine off: lift them or use a "
     "flatbed."},
    {Hazard::stallTest,
     "Stall and pressure tests: short, wheels chocked, within the maker's limits only."},
    {Hazard::roadTest,
     "Road test: a licensed driver, a safe vehicle, and a second person to read the "
     "values."},
};

} // namespace

const std::vector<Hazard>& allHazards() {
    static const std::vector<Hazard> all = [] {
        std::vector<Hazard> hazards;
        for (const auto& [hazard, sentence] : cautions)
            hazards.push_back(hazard);
        return hazards;
    }();
    return all;
}

std::string_view cautionSentence(Hazard hazard) {
    for (const auto& [one, sentence] : cautions)
        if (one == hazard)
            return sentence;
    throw std::logic_error("a hazard without its caution");
}

std::vector<Hazard> hazardsAt(std::string_view kind) {
    using enum Hazard;
    static const std::map<std::string_view, std::vector<Hazard>> steps{
        {"complaint", {roadTest}},
        {"noise", {roadTest}},
        {"level", {runningEngine, hotFluid}},
        {"fluid", {hoist, hotFluid, waste}},
        {"outside", {ignition}},
        {"filter-neck", {hoist, hotFluid}},
        {"debris", {slivers, clutchDust}},
        {"finger", {slivers}},
        {"magnet-test", {magnets}},
        {"squeeze", {slivers}},
        {"pressure", {stallTest, hotFluid}},
        {"solenoid", {ignition, lowOhmCoil, magnets, solvents}},
        {"bore", {compressedAir, solvents}},
        {"air-check", {compressedAir}},
        {"valve-body", {solvents}},
        {"cooler", {runningEngine, hotFluid, waste}},
        {"converter", {hoist, waste}},
        {"end-play", {hoist}},
        {"refill", {hotFluid, waste}},
        {"level-check", {hoist, runningEngine, hotFluid}},
        {"road-test", {roadTest}},
    };
    const auto found = steps.find(kind);
    return found == steps.end() ? std::vector<Hazard>{} : found->second;
}

std::vector<std::string_view> cautionsAt(std::string_view kind) {
    std::vector<std::string_view> sentences;
    for (const Hazard hazard : hazardsAt(kind))
        sentences.push_back(cautionSentence(hazard));
    return sentences;
}

std::string_view standingLine() {
    return "This report describes what was seen and measured. It does not replace the maker's "
           "procedure, local rules or the judgement of a qualified technician.";
}

} // namespace swarfbook
