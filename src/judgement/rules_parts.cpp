// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/text.h"
#include "bench/converter_clutch.h"
#include "judgement/inside_complaint.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace swarfbook {
namespace {

bool isWordPart(const std::string& text, std::size_t at) {
    const auto letterOrDigit = [&](std::size_t i) {
        return i < text.size() && std::isalnum(static_cast<unsigned char>(text[i])) != 0;
    };
    const auto gear = [&](std::size_t i) {
        return i < text.size() && (std::isdigit(static_cast<unsigned char>(text[i])) != 0);
    };
    // the dash in "2-3" joins, the dash in "B-regulator" separates
    return letterOrDigit(at) || (text[at] == '-' && at > 0 && gear(at - 1) && gear(at + 1));
}

/// Words of a text: letters and digits, and shifts such as "2-3".
std::vector<std::string> wordsOf(const std::string& text) {
    const std::string lower = lowered(text);
    std::vector<std::string> words(1);
    for (std::size_t i = 0; i < lower.size(); ++i) {
        if (isWordPart(lower, i))
            words.back() += lower[i];
        else if (!words.back().empty())
            words.emplace_back();
    }
    return words;
}

bool namesWhatIsTold(const std::string& word, const SymptomFacts& s) {
    for (const auto* gears : {&s.slipGears, &s.ratioGears, &s.noiseGears})
        for (const std::string& gear : *gears)
            if (lowered(gear) == word)
                return true;
    if (s.shifts.contains(word))
        return true;
    for (const TroubleCode& code : s.codes)
        if ((!code.solenoid.empty() && lowered(code.solenoid) == word) ||
            (!code.shift.empty() && code.shift == word))
            return true;
    return false;
}

struct Control {
    bool solenoidPasses = false; ///< the solenoid in question is known to move and seal
    bool related = false;        ///< which one is in question is known
};

/// The solenoids that the codes or the converter's complaint put in question.
Control controlOf(const Facts& facts) {
    std::vector<const SolenoidVerdict*> asked;
    bool missing = false;
    const auto ask = [&](const SolenoidVerdict* v) {
        missing |= v == nullptr;
        if (v != nullptr)
            asked.push_back(v);
    };
    for (const TroubleCode* code : facts.symptoms.performances())
        if (!code->solenoid.empty() || code->converter)
            ask(facts.solenoidOf(*code));
    if (asked.empty() && !missing && facts.symptoms.converterSlip)
        ask(facts.converterSolenoid());
    Control control;
    control.related = !asked.empty() || missing;
    if (!control.related)
        control.solenoidPasses = facts.solenoidsGood();
    else
        control.solenoidPasses = !missing && std::all_of(asked.begin(), asked.end(), [](auto* v) {
            return v->state == SolenoidState::good;
        });
    return control;
}

/// The bore of a solenoid whose fault moved with it when it was exchanged: with another solenoid
/// the bore did its work.
bool movedAway(const BoreVerdict& bore, const std::vector<const SolenoidVerdict*>& proven) {
    const std::vector<std::string> words = wordsOf(bore.name + " " + bore.concerns);
    return std::any_of(proven.begin(), proven.end(), [&](const SolenoidVerdict* v) {
        return v->swap == SwapResult::moves &&
               std::find(words.begin(), words.end(), lowered(v->name)) != words.end();
    });
}

Draft replaceSolenoids(const Facts& facts, const std::vector<const SolenoidVerdict*>& proven) {
    Draft draft(Recommendation::replaceSolenoids);
    int place = 0;
    for (const SolenoidVerdict* v : proven) {
        draft.s.which.push_back(v->name);
        draft.because("solenoid_proven", Strength::decisive, v->sentence, place++).about(v->name);
    }
    const bool coil =
        std::any_of(proven.begin(), proven.end(), [](auto* v) { return v->coilFault; });
    draft.agreesWithControl(facts.symptoms, Strength::fair);
    if (!facts.symptoms.anyCode() && !facts.symptoms.anyBad())
        draft.because("fines_only", Strength::slight, "The debris gives no cause to look deeper.");
    if (coil && !facts.symptoms.circuits().empty() && !facts.looked(OutsideItem::connector))
        draft.checkFirst("Look at the connector's pins and seal before the new part goes in.",
                         {Hazard::ignition});
    draft.wouldChange(coil
                          ? "If the coil measures right when it is measured again at its own "
                            "pins, the fault lies in the harness."
                          : "If the fault stays after the exchange, the bore and passage behind it "
                            "are next.");
    for (const BoreVerdict* bore : facts.failingBores())
        if (!boreExplains(*bore, facts.symptoms) || movedAway(*bore, proven))
            draft.but("bore_leaks", Strength::fair, bore->sentence).about(bore->name);
    return draft;
}

/// Why the whole valve body has to be replaced rather than a bore or two; "" if bores are enough.
std::string wholeBody(const Facts& facts, const std::vector<const BoreVerdict*>& failing,
                      const SuggestionModel& model) {
    const ValveBodySeen& body = facts.valveBody;
    if (body.cracked == true || body.warped == true || body.scored == true)
        return fmt::format("Its casting is {}.", body.cracked == true  ? "cracked"
                                                 : body.warped == true ? "warped"
                                                                       : "scored");
    const auto any = [&](auto&& test) { return std::any_of(failing.begin(), failing.end(), test); };
    if (any([](const BoreVerdict* b) { return b->scored; }))
        return "The bore is scored by chips.";
    if (!failing.empty() &&
        (body.reamedBefore == true || any([](const BoreVerdict* b) { return b->reamedBefore; })))
        return "The bore has been reamed before: there is no metal left to do it again.";
    if (static_cast<int>(failing.size()) >= model.bores.manyBores)
        return fmt::format("{} bores leak, too many to repair one by one.", failing.size());
    if (!failing.empty() && body.electronicsInside == true)
        return "The electronics are built into it, so the bores cannot be machined.";
    if (!failing.empty() && body.repairCostsMore == true)
        return "Repairing the bores would cost more than another valve body.";
    return {};
}

std::string changesBores(const std::vector<const BoreVerdict*>& failing, bool wholeBody) {
    if (failing.empty())
        return "A casting that turns out to be sound when it is cleaned and looked at again, or a "
               "control unit that turns out to be good.";
    if (wholeBody)
        return "A good-unit reference that reads just as low, or a stand found to be off.";
    const bool valveOnly =
        !failing.empty() && std::all_of(failing.begin(), failing.end(),
                                        [](const auto* b) { return b->newValveRestores; });
    return valveOnly ? "A bore that reads low with the new valve in as well: then it is reamed or "
                       "sleeved."
                     : "A new valve that restores the reading: then the valve alone is worn and "
                       "the bore need not be reamed.";
}

Draft repairBores(const Facts& facts, const std::vector<const BoreVerdict*>& failing,
                  const std::string& whyWhole) {
    Draft draft(whyWhole.empty() ? Recommendation::repairBores : Recommendation::replaceValveBody);
    int place = 0;
    for (const BoreVerdict* bore : failing) {
        draft.s.which.push_back(bore->name);
        draft.because("bore_leaks", Strength::nearlyDecisive, bore->sentence, place++)
            .about(bore->name);
    }
    if (!whyWhole.empty())
        draft.because("valve_body", Strength::decisive, whyWhole);
    for (const SolenoidVerdict* v : facts.provenSolenoids()) {
        draft.s.which.push_back("solenoid " + v->name);
        draft.because("solenoid_proven", Strength::clear, v->sentence).about(v->name);
    }
    if (facts.solenoidsGood())
        draft.because("solenoid_cleared", Strength::good,
                      "The solenoids test good, so the cause lies behind "
                      "them.");
    for (const SolenoidVerdict& v : facts.solenoids.each)
        if (v.swap == SwapResult::stays)
            draft
                .because("solenoid_cleared", Strength::firm,
                         fmt::format("The fault stayed when solenoid {} was exchanged.", v.name))
                .about(v.name);
    draft.agreesWithControl(facts.symptoms, Strength::some);
    if (facts.symptoms.converterSlip) {
        draft.s.converterAsOption = true;
        draft.s.converterWhy = "Its lining may be glazed from slipping: decide on the road test "
                               "after the repair.";
    }
    draft.wouldChange(changesBores(failing, !whyWhole.empty()));
    return draft;
}

Draft panFirst(const Facts& facts, const std::vector<const SolenoidVerdict*>& proven) {
    Draft draft(Recommendation::notEnoughEvidence);
    for (const SolenoidVerdict* v : proven)
        draft.because("solenoid_proven", Strength::strong, v->sentence).about(v->name);
    for (const BoreVerdict* bore : facts.failingBores())
        draft.because("bore_leaks", Strength::strong, bore->sentence).about(bore->name);
    draft.because("not_looked", Strength::clear,
                  "Nobody has looked at the debris yet, and a new part in a unit "
                  "that sheds metal does not last.");
    draft.checkFirst(facts.debris->retake.empty()
                         ? "Take the pan off and look at floor, magnet and filter before anything "
                           "is ordered."
                         : "Photograph the debris again: " + facts.debris->retake);
    draft.wouldChange("If there are only fines, the proven part is all that is needed.");
    return draft;
}

} // namespace

bool boreExplains(const BoreVerdict& bore, const SymptomFacts& symptoms) {
    const bool converters = namesConverterClutch(bore.name) || namesConverterClutch(bore.concerns);
    if (converters)
        return symptoms.converterSlip || symptoms.shudder || symptoms.overheats ||
               std::any_of(symptoms.codes.begin(), symptoms.codes.end(),
                           [](const auto& c) { return c.converter; });
    for (const std::string& word : wordsOf(bore.name + " " + bore.concerns))
        if (namesWhatIsTold(word, symptoms))
            return true;
    // its use is not known: taken to fit unless the complaint is about the converter alone;
    // a bore does not cause a wrong current
    const SymptomFacts inside = fromInside(symptoms);
    const bool told = inside.anyBad() || inside.anyCode() || inside.harshOrLate;
    return bore.concerns.empty() && told &&
           (!symptoms.converterSlip || symptoms.slips() || !symptoms.badShifts.empty());
}

MaybeDraft provenPart(const Facts& facts, const SuggestionModel& model) {
    const auto proven = facts.provenSolenoids();
    std::vector<const BoreVerdict*> failing;
    for (const BoreVerdict* bore : facts.failingBores())
        if (boreExplains(*bore, facts.symptoms) && !movedAway(*bore, proven))
            failing.push_back(bore);
    const bool told =
        facts.symptoms.anyBad() || facts.symptoms.anyCode() || facts.symptoms.harshOrLate;
    const std::string whole = told ? wholeBody(facts, failing, model) : std::string();
    const bool insideElectronics =
        facts.valveBody.electronicsInside == true &&
        std::any_of(facts.outside.begin(), facts.outside.end(),
                    [](const auto& fault) { return fault.item == OutsideItem::controlUnit; });
    const bool bodyDamaged = !whole.empty() || insideElectronics;
    if (proven.empty() && failing.empty() && !bodyDamaged)
        return std::nullopt;
    const DebrisFacts& debris = *facts.debris;
    if (!debris.inspected)
        return panFirst(facts, proven);
    // a part of the control side makes neither metal in quantity nor a noise
    const bool metalAndNoise =
        facts.symptoms.noise &&
        ((debris.nonMagnetic != nullptr && inQuantity(*debris.nonMagnetic)) ||
         (debris.yellow != nullptr && inQuantity(*debris.yellow)));
    if (!debris.onlyFinesOrSpecks() || !facts.leakingElements.empty() || metalAndNoise)
        return std::nullopt;
    if (insideElectronics && whole.empty())
        return repairBores(facts, failing,
                           "The control unit is at fault and built into the valve body.");
    if (failing.empty() && whole.empty())
        return replaceSolenoids(facts, proven);
    const Control control = controlOf(facts);
    const bool restored = std::any_of(failing.begin(), failing.end(),
                                      [](const auto* b) { return b->newValveRestores; });
    if (!control.solenoidPasses && !restored && proven.empty() && whole.empty())
        return std::nullopt; // the solenoid before the bore has not been cleared
    return repairBores(facts, failing, whole);
}

} // namespace swarfbook
