// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/inside_complaint.h"
#include "judgement/plastic_part.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace swarfbook {
namespace {

bool inQuantity(const DebrisItem* item) {
    return item != nullptr && swarfbook::inQuantity(*item);
}

bool anyComplaint(const Facts& facts) {
    const SymptomFacts inside = fromInside(facts.symptoms);
    return inside.anyBad() || inside.anyCode();
}

std::string agrees(const Facts& facts) {
    return fmt::format("This fits the complaint: {}.", fromInside(facts.symptoms).inWords());
}

/// An element that leaks or slips makes no noise, so a complaint of noise alone gives no reason.
void addAgreesWithElement(const Facts& facts, Draft& draft) {
    const std::string told = fromInside(facts.symptoms).inWordsWithoutNoise();
    if (!told.empty())
        draft.because("symptoms_agree", Strength::clear,
                      fmt::format("This fits the complaint: {}.", told));
}

bool slipsByItself(const SymptomFacts& s) {
    return s.slips() || s.converterSlip;
}

/// A solenoid that stuck until it was flushed explains the complaint: refit it and drive before
/// anything dearer is opened.
bool cameClean(const Facts& facts) {
    return !facts.doneInVain(Recommendation::cleanAndRefit) &&
           std::any_of(facts.solenoids.each.begin(), facts.solenoids.each.end(),
                       [](const SolenoidVerdict& v) { return v.cameClean; });
}

/// If control parts were tested and cleared, the cause is further in.
void addClearedControl(const Facts& facts, Draft& draft) {
    if (facts.solenoidsGood() && facts.boresPass())
        draft.because(
            "control_side_cleared", Strength::moderate,
            "Solenoids and valve-body bores test good, so the cause is not on the control "
            "side.");
}

MaybeDraft leakingElement(const Facts& facts) {
    const bool second = anyComplaint(facts) || facts.debris->rubber != nullptr;
    if (facts.leakingElements.empty() || !second)
        return std::nullopt;
    Draft draft(Recommendation::openTheTransmission);
    std::vector<std::string> names;
    for (const AirCheck* check : facts.leakingElements)
        names.push_back(check->element);
    std::string sentence = fmt::format("{} leak{} when air is put to the port.", listed(names),
                                       names.size() == 1 ? "s" : "");
    sentence[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(sentence[0])));
    draft.because("element_leaks", Strength::decisive, sentence);
    for (const std::string& name : names)
        draft.about(name);
    if (facts.debris->rubber != nullptr)
        draft.because("seal_crumbs", Strength::strong,
                      facts.debris->rubber->sentence + " A seal is losing its edge.");
    addAgreesWithElement(facts, draft);
    addClearedControl(facts, draft);
    if (facts.debris->friction >= Friction::heavy || facts.debris->anyMetal())
        draft.withConverterAndCooler(throughTheCircuit(*facts.debris));
    draft.wouldChange("An air check repeated with a new gasket or plate that holds after all.");
    return draft;
}

MaybeDraft frictionAndSlip(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    if (d.friction < Friction::heavy)
        return std::nullopt;
    const bool slips = slipsByItself(facts.symptoms);
    const bool atLimit = facts.adaptation == Adaptation::atLimit;
    if (!slips && !atLimit)
        return std::nullopt;
    Draft draft(Recommendation::openTheTransmission);
    draft.because("friction_and_slip", Strength::decisive,
                  d.friction == Friction::pieces
                      ? d.lining->sentence + " Friction lining is coming off in pieces."
                      : d.lining->sentence + " That is more lining than wear dust.");
    if (slips)
        draft.because(
            "friction_and_slip", Strength::strong,
            fmt::format("{} as well ({}), and new fluid cannot bring lining back.",
                        facts.symptoms.slips() ? "It slips" : "Its converter clutch slips",
                        fromInside(facts.symptoms).inWordsWithoutNoise()));
    else
        draft.because("friction_at_limit", Strength::strong,
                      "The adaptation is at its limit, so a clutch is "
                      "already being made up for.");
    if (d.burntSmell)
        draft.because("friction_and_slip", Strength::some, "The fluid smells burnt.");
    addClearedControl(facts, draft);
    draft.withConverterAndCooler(throughTheCircuit(*facts.debris));
    draft.wouldChange("A second look at pan and filter that finds no more lining than silt.");
    return draft;
}

MaybeDraft yellowMetal(const Facts& facts) {
    const DebrisItem* yellow = facts.debris->yellow;
    if (yellow == nullptr)
        return std::nullopt;
    const bool noise = facts.symptoms.noise;
    const bool excess = facts.endPlay == EndPlay::excess;
    const bool second = noise || excess || (inQuantity(yellow) && anyComplaint(facts));
    if (!second || (facts.endPlay == EndPlay::normal && !inQuantity(yellow)))
        return std::nullopt;
    Draft draft(Recommendation::openTheTransmission);
    draft.because("yellow_metal", Strength::decisive,
                  yellow->sentence + " Yellow metal comes from bushings and thrust washers.");
    if (excess)
        draft.because("yellow_metal", Strength::nearlyDecisive,
                      "The end play is more than it should be.");
    if (anyComplaint(facts))
        draft.because("symptoms_agree", Strength::clear, agrees(facts));
    if (facts.endPlay) {
        draft.withConverterAndCooler(throughTheCircuit(*facts.debris));
    } else {
        draft.checkFirst("Measure the end play before the transmission is taken out.");
        draft.converterAndCoolerOpen(
            "Decided once the end play is known and it is open; the cooler "
            "is flushed in any case.");
    }
    draft.wouldChange("Only a few specks, no noise and an end play in order: then clean, and look "
                      "again after a short distance.");
    return draft;
}

MaybeDraft nonMagneticMetal(const Facts& facts) {
    const DebrisItem* metal = facts.debris->nonMagnetic;
    if (!inQuantity(metal))
        return std::nullopt;
    const bool fromConverter = facts.symptoms.converterSlip || facts.converterDrainDirty == true;
    if (!anyComplaint(facts) && !fromConverter)
        return std::nullopt;
    Draft draft(Recommendation::openTheTransmission);
    draft.because("nonmagnetic_metal", Strength::decisive,
                  metal->sentence + " Bright metal that a magnet leaves is aluminium: converter, "
                                    "pump, case or a valve-body bore.");
    if (facts.converterDrainDirty == true)
        draft.because("converter_proven", Strength::firm,
                      "What drains from the converter carries it too.");
    if (anyComplaint(facts))
        draft.because("symptoms_agree", Strength::clear, agrees(facts));
    draft.withConverterAndCooler(
        "A cloud of non-magnetic metal often comes from the converter, and "
        "it cannot be washed out of it reliably.");

    draft.wouldChange("The pieces move after all when a stronger magnet passes under the dry "
                      "paper.");
    return draft;
}

MaybeDraft steelWithNoise(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    const DebrisItem* metal = d.steel != nullptr ? d.steel : d.nonMagnetic;
    const bool felt = d.feel == Feel::felt;
    const bool flakes = metal != nullptr && metal->size.value_or(TradeSize::s1) >= TradeSize::s2;
    const bool enough = felt || flakes || (metal != nullptr && metal->amount == Amount::plenty);
    const bool second =
        facts.symptoms.noise || (flakes && inQuantity(metal) && facts.symptoms.slips());
    if (!enough || !second)
        return std::nullopt;
    Draft draft(Recommendation::openTheTransmission);
    draft.because("noise_and_metal", Strength::decisive,
                  metal != nullptr ? metal->sentence : "Pieces can be felt between the fingers.");
    draft.because("symptoms_agree", Strength::strong, agrees(facts));
    if (felt && metal != nullptr)
        draft.because("noise_and_metal", Strength::fair,
                      "The pieces can be felt: they are not wear dust.");
    draft.withConverterAndCooler(throughTheCircuit(*facts.debris));
    draft.wouldChange(facts.symptoms.noise
                          ? "A noise that turns out to come from outside, such as a wheel bearing "
                            "or the driveline."
                          : "A second look that finds only a few specks.");
    return draft;
}

MaybeDraft converterItself(const Facts& facts) {
    const bool hub = facts.converterHubBad == true, blue = facts.converterBlued == true;
    const bool drain = facts.converterDrainDirty == true;
    const auto* solenoid = facts.converterSolenoid();
    const bool chainGood = facts.symptoms.converterSlip && solenoid != nullptr &&
                           solenoid->state == SolenoidState::good && facts.boresPass() &&
                           !cameClean(facts);
    const bool drainAgrees =
        drain && (anyComplaint(facts) || facts.debris->nonMagnetic != nullptr ||
                  facts.debris->friction >= Friction::heavy);
    if (!hub && !(blue && anyComplaint(facts)) && !chainGood && !drainAgrees)
        return std::nullopt;
    Draft draft(Recommendation::openTheTransmission);
    if (hub)
        draft.because("converter_proven", Strength::decisive,
                      "The converter's hub or stator is at fault.");
    if (blue)
        draft.because("converter_proven", Strength::nearlyDecisive,
                      "The converter has turned blue from heat.");
    if (drainAgrees)
        draft.because("converter_proven", Strength::strong,
                      facts.debris->panClean ? "The pan is clean, but what drains from the "
                                               "converter is not: it comes from there."
                                             : "What drains from the converter is dirty.");
    if (chainGood)
        draft.because("converter_chain_cleared", Strength::strong,
                      "Its solenoid and the valve-body bores test good, so the converter clutch "
                      "itself is left.");
    if (anyComplaint(facts))
        draft.because("symptoms_agree", Strength::clear, agrees(facts));
    draft.withConverterAndCooler("The converter is the part at fault, and the cooler takes what it "
                                 "has shed.");
    draft.wouldChange("A leaking bore or a solenoid that fails hot in the converter's circuit.");
    return draft;
}

MaybeDraft everythingElseCleared(const Facts& facts) {
    const SymptomFacts& s = facts.symptoms;
    const bool levelKept = facts.level == nullptr || facts.levelRight();
    const bool noDrive = (s.noDrive || s.noDriveInGear) && facts.pressureNormal && levelKept;
    const bool slipCleared = s.slips() && facts.pressureNormal && facts.solenoidsGood() &&
                             facts.boresPass() && levelKept && !cameClean(facts);
    if (!noDrive && !slipCleared)
        return std::nullopt;
    Draft draft(Recommendation::openTheTransmission);
    draft.because("no_drive_pressure", Strength::decisive,
                  noDrive ? "It does not drive although the pressure is right: something does not "
                            "hold mechanically."
                          : "It slips although pressure, solenoids and bores are right.");
    addAgreesWithElement(facts, draft);
    addClearedControl(facts, draft);
    if (facts.debris->friction >= Friction::heavy || facts.debris->anyMetal())
        draft.withConverterAndCooler(throughTheCircuit(*facts.debris));
    draft.wouldChange("A driveshaft or axle that turns out to be broken or not engaged.");
    return draft;
}

/// Low pressure in every range, and everything that makes pressure is in order except the pump.
MaybeDraft pumpLeft(const Facts& facts) {
    if (!facts.pressureLowEverywhere || !facts.levelRight() || !facts.solenoidsGood() ||
        !facts.boresPass() || facts.filterNeckBad || !facts.debris->inspected || cameClean(facts))
        return std::nullopt;
    Draft draft(Recommendation::openTheTransmission);
    draft.because("pump_left", Strength::decisive,
                  "The pressure is low in every range, though level, regulator bore and line "
                  "pressure solenoid are in order: the pump is left.");
    addAgreesWithElement(facts, draft);
    if (facts.debris->friction >= Friction::heavy || facts.debris->anyMetal())
        draft.withConverterAndCooler(throughTheCircuit(*facts.debris));
    draft.wouldChange("A pressure that is right with another gauge, or a filter that lets too "
                      "little through.");
    return draft;
}

} // namespace

MaybeDraft damageDespiteLevel(const Facts& facts) {
    const bool levelOff = facts.level != nullptr && !facts.levelRight();
    if (!levelOff)
        return std::nullopt;
    MaybeDraft draft = leakingElement(facts);
    const DebrisFacts& d = *facts.debris;
    if (!draft && d.burntSmell && facts.symptoms.slips())
        draft = frictionAndSlip(facts);
    if (!draft)
        return std::nullopt;
    for (const OutsideFault& fault : facts.outside)
        if (!fault.item)
            draft->but("outside_cause", Strength::clear, fault.sentence);
    draft->checkFirst(levelAsWell(*facts.level));
    return draft;
}

MaybeDraft damageInside(const Facts& facts) {
    for (const auto rule :
         {leakingElement, frictionAndSlip, yellowMetal, nonMagneticMetal, steelWithNoise,
          converterItself, pumpLeft, plasticFromInside, everythingElseCleared})
        if (auto draft = rule(facts))
            return draft;
    return std::nullopt;
}

} // namespace swarfbook
