// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"
#include "bench/cautions.h"
#include "bench/observation.h"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// What is suggested, in order of cost; the last is not an outcome but the need for one test.
enum class Recommendation {
    outsideTheUnit,
    cleanAndRefit,
    replaceSolenoids,
    repairBores,
    replaceValveBody,
    openTheTransmission,
    notEnoughEvidence
};
/// "outside the unit", "clean and refit", "replace solenoids", "repair bores",
/// "replace valve body", "open the transmission", "not enough evidence".
std::string_view recommendationName(Recommendation outcome);
/// Inverse; throws std::invalid_argument.
Recommendation outcomeFromName(std::string_view name);

/// How much a reason weighs beside others; the weights stand in models/suggestion.json.
enum class Strength {
    outweighsAll,
    decisive,
    nearlyDecisive,
    strong,
    firm,
    clear,
    good,
    fair,
    moderate,
    some,
    light,
    slight,
    faint
};
/// "outweighs_all", "decisive", ...: its name in the model.
std::string_view strengthName(Strength strength);

/// One step of the reasoning: a sentence that can be read to a customer, and the rule behind it.
struct Reason {
    std::string sentence;
    std::string rule;     ///< its name in models/suggestion.json, shown by --why
    double weight = 0.0;  ///< by the model, for choosing the strongest
    bool supports = true; ///< false: speaks against the suggestion
    Strength strength = Strength::faint;
    int place = 0;                       ///< among alike reasons
    std::vector<std::string> about = {}; ///< names of the parts that it is about; empty: of none
};

/// Stands for the part that the complaint is about, if it is not named.
inline constexpr const char* theOneConcerned = "the one concerned";

/// One observation taken the other way, and what the suggestion would then be.
struct DecisiveChange {
    std::string observation; ///< "solenoid B: the fault stays at the exchange (recorded: moves)"
    Recommendation outcome = Recommendation::notEnoughEvidence;
    std::string headline;    ///< of the suggestion that it would become
    std::string rule;        ///< the reason that would then weigh most
    bool untested = false;   ///< not observed yet: one possible answer of a test to be made
    double minutes = 0.0;    ///< bench time of the test, or of repeating it, from the present
                             ///< state of the work
    bool unexpected = false; ///< nobody has reason to expect it, such as a chip in a clean pan
    bool reachable = true;   ///< false: recorded, and in the present state of the work it cannot be
                             ///< observed again
    std::int64_t number = 0; ///< of the observation in the book, 0 = none
};

/// What the program promises to suggest for each answer of a test, so that the promise can be
/// checked.
struct Promise {
    std::string answer; ///< of the test: "the fault moves"
    Observation typed;  ///< how it is then typed in
    std::vector<Recommendation> then;
    std::string nextTestSays; ///< part of the test that is then asked for, "" when not said
};

/// A suggestion, never an order. The technician can overrule it with a note.
struct Suggestion {
    Recommendation outcome = Recommendation::notEnoughEvidence;
    std::vector<std::string> which; ///< solenoids or bores by name; what outside the unit
    bool converter = false;         ///< part of the job
    bool converterAsOption = false; ///< to be offered and decided on the road test
    std::string converterWhy;       ///< "" when neither
    bool cooler = false;            ///< part of the job
    bool coolerAsOption = false;    ///< decided once the named check is done
    std::string coolerWhy;          ///< "" when neither
    bool doNotDrive = false;
    std::vector<std::string> strongestReasons; ///< two, or one where there is but one
    std::string strongestContrary;             ///< "" if there is no evidence against it
    std::string wouldChange;                   ///< the one observation that would change it
    std::string nextTest; ///< notEnoughEvidence: the one test; else a check before the job
    std::optional<Kilometres> recheckAfter;
    std::vector<std::string> suspects;       ///< parts that elimination leaves, a sentence each
    std::vector<std::string> notKnown;       ///< not inspected, refused photos, floors
    std::vector<std::string> cautions;       ///< safety sentences the steps need
    std::vector<Reason> all;                 ///< every step, for --why
    std::vector<DecisiveChange> turns;       ///< the cheapest first; after them those that cannot
                                             ///< be observed again now, and the unexpected
    std::vector<DecisiveChange> nearBorders; ///< readings and counts whose own limits would turn it
    std::string notTried; ///< which observations were not tried the other way, "" when all were
    std::vector<std::string> learned; ///< how often such a suggestion held in this book
    std::string overruled;            ///< the technician's decision and note, "" when none
    std::string heldRepair;         ///< the parts of this visit's repair that held, "" if none did;
                                    ///< everything else is judged by what was known before
    std::vector<std::string> scope; ///< parts inspected or renewed with it
    std::string customersRisk;      ///< to be read and signed by the customer, "" when none
    std::vector<Promise> promises;  ///< of the next test; no part of any document
    std::vector<Hazard> nextTestHazards; ///< how the next test can hurt someone
};

/// One heading: "Replace solenoid A", "Open the transmission, with converter and cooler".
std::string headline(const Suggestion& suggestion);
/// The work in it alone, as a line of a quote names it: without "Do not drive".
/// Checked: tests/report/customer_words_test.cpp.
std::string workOf(const Suggestion& suggestion);

/// "swarfbook suggestion 1": every field above by name. Checked: tests/judgement/.
nlohmann::ordered_json toJson(const Suggestion& suggestion);

} // namespace swarfbook
