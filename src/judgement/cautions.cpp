// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/rules.h"

namespace swarfbook {

// Usual workshop cautions; the pressure limit is the US rule (29 CFR 1910.242(b)), the distances
// for magnets are those given to wearers of heart implants.
std::vector<std::string> cautionsFor(const Suggestion& suggestion, const Facts& facts) {
    std::vector<std::string> cautions;
    if (suggestion.doNotDrive)
        cautions.emplace_back("Do not drive it. Tow it with the drive wheels lifted or on a "
                              "flatbed: turning wheels with the engine off starve the unit of "
                              "fluid.");
    cautions.emplace_back("Work under it only on a rated hoist or stands on hard level ground, "
                          "wheels chocked; never under a jack.");
    cautions.emplace_back(
        "Working fluid burns skin and ignites on a hot exhaust: let it cool, wear "
        "sleeves and gloves.");
    if (suggestion.outcome == Outcome::replaceSolenoids ||
        suggestion.outcome == Outcome::outsideTheUnit || !facts.symptoms.circuits().empty())
        cautions.emplace_back("Ignition off, key away and control units asleep before anything is "
                              "unplugged; never feed a solenoid back through the control unit. "
                              "High-voltage hybrids are for trained staff only.");
    if (!facts.solenoids.each.empty() || suggestion.outcome == Outcome::replaceSolenoids)
        cautions.emplace_back("Do not put steady 12 V on a low-ohm linear coil: it draws far more "
                              "than it is made for.");
    if (suggestion.outcome == Outcome::repairBores ||
        suggestion.outcome == Outcome::replaceValveBody ||
        suggestion.nextTest.find("ir-check") != std::string::npos)
        cautions.emplace_back(
            "Compressed air: eye protection, low pressure (under 30 psi, 2.1 bar, "
            "at a blocked nozzle where the US rule holds), a rag over the port; "
            "parts and springs fly out of bores.");
    if (suggestion.nextTest.find("emagnetise") != std::string::npos ||
        suggestion.nextTest.find("magnet") != std::string::npos)
        cautions.emplace_back("Wearers of heart implants stay 15 cm away from magnets and out of "
                              "the area of a demagnetiser.");
    cautions.emplace_back(
        "Slivers cut and stay in the skin: rub debris only with nitrile gloves or "
        "through paper. Do not blow clutch dust about.");
    cautions.emplace_back(
        "Solvents: ventilation, gloves, no flame. Used fluid, filters and rags go "
        "to a licensed collector.");
    return cautions;
}

} // namespace swarfbook
