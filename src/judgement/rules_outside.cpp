// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/next_test.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// Metal in the pan that is felt or seen as single pieces: a cause outside cannot have put it
/// there.
bool metalForbids(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    return d.feel == Feel::felt || (d.inspected && d.anyMetal() && !d.onlyFinesOrSpecks());
}

bool coilProven(const Facts& facts) {
    const auto proven = facts.provenSolenoids();
    return std::any_of(proven.begin(), proven.end(), [](const auto* v) { return v->coilFault; });
}

/// Found faults that count here. A mechanical fault does not count while metal is felt, or while a
/// coil is proven bad for another reason.
std::vector<const OutsideFault*> countingFaults(const Facts& facts) {
    std::vector<const OutsideFault*> found;
    for (const OutsideFault& fault : facts.outside) {
        const bool setAside = !fault.electrical && (metalForbids(facts) || coilProven(facts));
        // electronics inside the valve body are not a cause outside
        const bool inside =
            fault.item == OutsideItem::controlUnit && facts.valveBody.electronicsInside == true;
        if (fault.explains && !setAside && !inside && !facts.doneInVain(fault.what))
            found.push_back(&fault);
    }
    return found;
}

/// The part of the complaint that these faults can cause: an electrical fault makes no noise.
std::string thatIsTold(const Facts& facts, bool electrical) {
    const std::string words =
        electrical ? facts.symptoms.inWordsWithoutNoise() : facts.symptoms.inWords();
    return words.empty() ? "what may yet be noticed" : words;
}

Draft faultFound(const Facts& facts, const std::vector<const OutsideFault*>& faults) {
    Draft draft(Recommendation::outsideTheUnit);
    int place = 0;
    for (const OutsideFault* fault : faults) {
        draft.s.which.push_back(fault->what);
        draft.because("outside_cause", Strength::decisive, fault->sentence, place++);
    }
    const bool electrical = std::all_of(faults.begin(), faults.end(),
                                        [](const OutsideFault* f) { return f->electrical; });
    draft.because("outside_cause", Strength::clear,
                  fmt::format("That alone can cause {}.", thatIsTold(facts, electrical)));
    if (electrical && facts.symptoms.noise)
        draft.but("noise_unexplained", Strength::good,
                  fmt::format("It makes no noise, but there is a noise: {}.",
                              facts.symptoms.noisesInWords()));
    if (facts.symptoms.circuits().size() > 1)
        draft.because("shared_feed", Strength::decisive,
                      "Several circuits fail at once, which points at what they "
                      "share and not at the solenoids.");
    draft.wouldChange(electrical && !facts.symptoms.circuits().empty()
                          ? "If it persists once this is put right, the rest of that circuit is "
                            "tested under load."
                          : "If it persists once this is put right, the search goes on inside.");
    return draft;
}

/// The coil is good and was tested as hot as the complaint needs.
bool coilCleared(const SolenoidVerdict* solenoid, bool onlyHot) {
    return solenoid != nullptr &&
           (solenoid->state == SolenoidState::coilGood || solenoid->state == SolenoidState::good) &&
           (!onlyHot || solenoid->hotTested);
}

bool anyExchanged(const Facts& facts, const std::vector<const TroubleCode*>& codes) {
    return std::any_of(codes.begin(), codes.end(), [&](const TroubleCode* code) {
        const SolenoidVerdict* solenoid = facts.solenoidOf(*code);
        return solenoid != nullptr && solenoid->exchangedBefore;
    });
}

/// Facts about circuits that fail.
struct CircuitsFail {
    bool shared = false;       ///< so many at once that they must share the cause
    bool coilsCleared = false; ///< each coil reads right
};

/// The parts of the feed that may still be at fault: "connector and harness", or the control unit
/// if all of them were found good; "" if that was good as well.
std::string leftOfTheFeed(const Facts& facts, bool shared) {
    std::vector<std::string> left = feedNotProven(facts);
    if (left.empty())
        return facts.foundGood(OutsideItem::controlUnit) ? "" : "control unit";
    // a shared cause does not make one circuit fail alone; and a shared cause is not in one harness
    for (const char* other : {"supply", "earth"})
        if (!shared && left.size() > 1)
            std::erase(left, other);
    if (shared && left.size() > 1)
        std::erase(left, "harness");
    return listed(left) + (shared ? " they share" : "");
}

Draft beyondCoil(const Facts& facts, const std::vector<const TroubleCode*>& circuits,
                 CircuitsFail how) {
    Draft draft(Recommendation::outsideTheUnit);
    draft.s.which.emplace_back(leftOfTheFeed(facts, how.shared));
    if (how.shared)
        draft.because("shared_feed", Strength::decisive,
                      fmt::format("{} solenoid circuits fail at once, which points at a feed or "
                                  "earth they share.",
                                  circuits.size()));
    else
        draft.because("circuit_beyond_coil", Strength::decisive,
                      fmt::format("Code {} says that the controller saw a wrong current.",
                                  circuits.front()->text));
    if (how.coilsCleared)
        draft.because("circuit_beyond_coil", Strength::strong,
                      anyExchanged(facts, circuits)
                          ? fmt::format("The solenoid has been exchanged already, so the fault is "
                                        "before it: {}.",
                                        draft.s.which.front())
                          : fmt::format("The coils themselves measure right, so the fault is "
                                        "before them: {}.",
                                        draft.s.which.front()));
    else
        draft.because("shared_feed", Strength::strong, "The system voltage itself was wrong.");
    draft.checkFirst(feedTest(facts), {Hazard::ignition});
    const bool hotTested = std::all_of(circuits.begin(), circuits.end(), [&](const auto* code) {
        const SolenoidVerdict* v = facts.solenoidOf(*code);
        return v != nullptr && v->hotTested;
    });
    const bool driverLeft = !facts.looked(OutsideItem::controlUnit);
    draft.wouldChange(driverLeft && (hotTested || anyExchanged(facts, circuits))
                          ? "A control unit that turns out not to drive that circuit's current."
                          : "A coil that opens or shorts when it is measured hot.");
    return draft;
}

MaybeDraft circuitBeyondCoil(const Facts& facts, const SuggestionModel& model) {
    const auto circuits = facts.symptoms.circuits();
    if (circuits.empty())
        return std::nullopt;
    const bool allCleared =
        std::all_of(circuits.begin(), circuits.end(), [&](const TroubleCode* code) {
            return coilCleared(facts.solenoidOf(*code),
                               facts.symptoms.onlyHot || code->intermittent);
        });
    const bool supplyCode = facts.symptoms.has(CodeFamily::supply) && circuits.size() > 1;
    if (!allCleared && !supplyCode)
        return std::nullopt;
    const bool shared = static_cast<int>(circuits.size()) >= model.sharedFeedFrom || supplyCode;
    const std::string left = leftOfTheFeed(facts, shared);
    if (left.empty() || facts.doneInVain(left))
        return std::nullopt;
    return beyondCoil(facts, circuits, {shared, allCleared});
}

/// A cooler that passes too little makes it run hot.
MaybeDraft coolerBlocked(const Facts& facts) {
    if (facts.coolerFlowLow != true || !facts.symptoms.overheats || metalForbids(facts))
        return std::nullopt;
    Draft draft(Recommendation::outsideTheUnit);
    draft.s.which.emplace_back("cooler");
    draft.because("outside_cause", Strength::decisive,
                  "It runs hot, and the cooler passes too little fluid.");
    draft.wouldChange("A flow that is right with the cooler bypassed or renewed, and still it runs "
                      "hot.");
    return draft;
}

MaybeDraft engineCode(const Facts& facts) {
    const auto codes = facts.symptoms.ofFamily(CodeFamily::engine);
    const SymptomFacts& s = facts.symptoms;
    const bool onlyEngine =
        std::all_of(s.codes.begin(), s.codes.end(), [](const TroubleCode& code) {
            return code.family == CodeFamily::engine || code.family == CodeFamily::pointer;
        });
    const bool likeIt = s.shudder || s.harshOrLate || s.slipInGeneral;
    if (codes.empty() || !onlyEngine || !likeIt || s.slipsInDefinedGears() || s.converterSlip)
        return std::nullopt;
    Draft draft(Recommendation::outsideTheUnit);
    draft.s.which.emplace_back("engine");
    draft.because("engine_code", Strength::decisive,
                  fmt::format("Code {} is the engine's own: {}.", codes.front()->text,
                              codes.front()->meaning));
    draft.because("engine_code", Strength::clear,
                  "A misfire feels like a shudder of the transmission, and "
                  "transmissions have been opened for it in vain.");
    draft.wouldChange("If it still shudders with the engine running cleanly, the converter clutch "
                      "is next.");
    return draft;
}

} // namespace

std::string levelAsWell(const LevelSeen& level) {
    const char* leak = level.found != LevelFound::low ? "" : " and find the leak";
    return fmt::format("Put the level right{} as well: that does not clear the element.",
                       level.leak.empty() ? leak : " and mend the leak at the " + level.leak);
}

MaybeDraft causeOutside(const Facts& facts, const SuggestionModel& model) {
    const auto faults = countingFaults(facts);
    if (!faults.empty())
        return faultFound(facts, faults);
    if (coilProven(facts))
        return std::nullopt;
    if (auto draft = circuitBeyondCoil(facts, model))
        return draft;
    if (auto draft = coolerBlocked(facts))
        return draft;
    return engineCode(facts);
}

} // namespace swarfbook
