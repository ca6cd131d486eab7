// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/facts.h"
#include "judgement/suggestion.h"
#include "judgement/suggestion_model.h"

#include <optional>
#include <string>

namespace swarfbook {

/// A suggestion being drawn up: an outcome and the reasons for and against it. Every reason names
/// its rule in models/suggestion.json.
class Draft {
  public:
    explicit Draft(Recommendation outcome) { s.outcome = outcome; }
    /// @param place  among alike reasons: the first, 0, weighs most
    Draft& because(const char* rule, Strength strength, const std::string& sentence, int place = 0);
    Draft& but(const char* rule, Strength strength, const std::string& sentence);
    /// The last reason is about this part alone.
    Draft& about(const std::string& part);
    /// If such a part can cause something in the complaint: "This fits the complaint: ..."; a noise
    /// that it cannot cause is evidence against it.
    Draft& agreesWithControl(const SymptomFacts& symptoms, Strength strength);
    Draft& wouldChange(const std::string& observation);
    Draft& checkFirst(const std::string& test, std::vector<Hazard> hazards = {});
    /// Converter and cooler belong to the job, for the reason given.
    Draft& withConverterAndCooler(const std::string& why);
    /// Both are decided once the check named by checkFirst is done.
    Draft& converterAndCoolerOpen(const std::string& why);
    Suggestion s;
};

using MaybeDraft = std::optional<Draft>;

/// The rules in their order of precedence; the first that answers decides.
MaybeDraft safetyStop(const Facts& facts);
/// An element that leaks, or lining in quantity with slip and a burnt smell, comes before a wrong
/// level: correcting the level clears nothing.
MaybeDraft damageDespiteLevel(const Facts& facts);
/// What a wrong level needs, beside a dearer job that it does not replace.
std::string levelAsWell(const LevelSeen& level);
MaybeDraft causeOutside(const Facts& facts, const SuggestionModel& model);
MaybeDraft provenPart(const Facts& facts, const SuggestionModel& model);
MaybeDraft damageInside(const Facts& facts);
MaybeDraft cleanAndRefit(const Facts& facts, const SuggestionModel& model);
/// Always answers: the evidence is not enough, and this is the one test to make.
Draft oneNextTest(const Facts& facts, const SuggestionModel& model);

/// Adds reasons for and against from the rest of the evidence, the unknowns, and the cooler if its
/// flow is low.
void addFurtherReasons(const Facts& facts, Draft& draft);

/// Adds repairs that did not help as the first evidence against it.
void addFailedRepairs(const Facts& facts, Draft& draft);

/// Adds what to inspect or renew with the job, and the risk that the customer signs for.
void addScope(const Facts& facts, Suggestion& suggestion);

/// Names the parts that elimination leaves, and weighs them for or against the suggestion.
void addElimination(const Facts& facts, Draft& draft);

/// Safety sentences that the steps of the suggestion need.
std::vector<std::string> cautionsFor(const Suggestion& suggestion, const Facts& facts);

/// Whether a low bore can explain the complaint, by its name and its noted concerns.
bool boreExplains(const BoreVerdict& bore, const SymptomFacts& symptoms);

/// Plenty, or an amount that nobody stated.
inline bool inQuantity(const DebrisItem& item) {
    return item.amount == Amount::plenty || item.amount == Amount::notSaid;
}

/// Why converter and cooler are included after debris: debris found beyond the pan went through
/// them, other debris may have.
std::string throughTheCircuit(const DebrisFacts& debris);

/// "A", "A and B", "A, B and C"
std::string listed(const std::vector<std::string>& words);

} // namespace swarfbook
