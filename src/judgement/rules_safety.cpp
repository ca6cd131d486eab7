// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/inside_complaint.h"
#include "judgement/rules.h"

namespace swarfbook {
namespace {

Draft brokenMetal(const Facts& facts) {
    Draft draft(Recommendation::openTheTransmission);
    draft.s.doNotDrive = true;
    draft.because("metal_stop", Strength::decisive,
                  facts.debris->stopMetal->sentence +
                      " A piece of metal that large is never wear dust: something has broken.");
    if (facts.symptoms.noise || !facts.symptoms.ratioGears.empty())
        draft.because("symptoms_agree", Strength::fair,
                      "This fits the complaint: " + fromInside(facts.symptoms).inWords() + ".");
    draft.withConverterAndCooler(throughTheCircuit(*facts.debris));
    draft.wouldChange("Only proof that the piece did not come from this transmission, such as a "
                      "plug or a curl left from manufacture at the first opening.");
    return draft;
}

Draft coolantInside(const Facts& facts) {
    Draft draft(Recommendation::openTheTransmission);
    draft.s.doNotDrive = true;
    draft.because("milky_stop", Strength::decisive,
                  facts.debris->milky ? "The fluid is milky: coolant or water has got in."
                                      : "There is coolant in the converter.");
    draft.because("milky_stop", Strength::some,
                  "Friction lining takes up water and comes off, sooner or "
                  "later, even where it still drives well.");
    if (facts.debris->rust != nullptr)
        draft.because("water_rust", Strength::good,
                      facts.debris->rust->sentence + " The water has been in there for some time.");
    draft.withConverterAndCooler("The converter's lining has been wetted too, and a leaking cooler "
                                 "is the usual way in.");
    draft.wouldChange("A laboratory or strip test that finds no water and no glycol in the fluid.");
    return draft;
}

} // namespace

MaybeDraft safetyStop(const Facts& facts) {
    if (facts.debris->stopMetal != nullptr)
        return brokenMetal(facts);
    if (facts.debris->milky || facts.converterCoolant == true)
        return coolantInside(facts);
    if (facts.debris->doubtfulStop == nullptr)
        return std::nullopt;
    Draft draft(Recommendation::notEnoughEvidence);
    draft.because("photo_stop_doubtful", Strength::decisive, facts.debris->doubtfulStop->sentence);
    draft.because(
        "photo_stop_doubtful", Strength::some,
        "A photo alone cannot prove its material, and opening the transmission is expensive.");
    draft.checkFirst("Test these pieces by hand first. Pick the largest up with tweezers: does a "
                     "magnet take it, does it bend "
                     "or break in the pliers, has it a machined face?",
                     {Hazard::untestedMetal, Hazard::magnets});
    draft.wouldChange("If it is metal, the transmission has to be opened; if it is plastic or left "
                      "from manufacture, it need not.");
    return draft;
}

} // namespace swarfbook
