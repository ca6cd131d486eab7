// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_words.h"

#include <fmt/format.h>

#include <stdexcept>

namespace swarfbook {

namespace {

std::string joined(const std::vector<std::string>& words) {
    std::string list;
    for (std::size_t i = 0; i < words.size(); ++i)
        list += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
    return list;
}

std::string plural(const char* noun, const std::vector<std::string>& which) {
    return which.empty() ? std::string("a ") + noun
                         : std::string(noun) + (which.size() > 1 ? "s " : " ") + joined(which);
}

/// The verdict after a repair that held, or by a technician's own decision; "" without either.
std::string afterRepairOrDecision(const Suggestion& suggestion) {
    if (!suggestion.heldRepair.empty())
        return fmt::format(
            "The repair was done and has held ({}). The evidence from before it {}.",
            suggestion.heldRepair,
            suggestion.outcome == Recommendation::notEnoughEvidence
                ? "was not enough for a verdict"
                : fmt::format("pointed to: {}", recommendationName(suggestion.outcome)));
    if (!suggestion.overruled.empty())
        return asSentence("The technician decided: " + suggestion.overruled) +
               " The evidence alone points to: " +
               std::string(recommendationName(suggestion.outcome)) + ".";
    return "";
}

} // namespace

std::string verdictSentence(const std::optional<Suggestion>& suggestion) {
    if (!suggestion)
        return "No verdict yet: there is no evidence for one.";
    if (const std::string done = afterRepairOrDecision(*suggestion); !done.empty())
        return done;
    const std::vector<std::string>& which = suggestion->which;
    switch (suggestion->outcome) {
    case Recommendation::outsideTheUnit:
        return which.empty() ? "The cause looks to be outside the transmission; it need not be "
                               "opened for this."
                             : fmt::format("The cause looks to be outside the transmission: {}.",
                                           joined(which));
    case Recommendation::cleanAndRefit:
        return "Ordinary wear: nothing found that asks for more than a clean and a refit.";
    case Recommendation::replaceSolenoids:
        return fmt::format("A control part is at fault: {}; no sign that the transmission itself "
                           "is breaking up.",
                           plural("solenoid", which));
    case Recommendation::repairBores:
        return fmt::format("The valve body leaks at {}: it can be repaired; no sign that the "
                           "transmission itself is breaking up.",
                           plural("bore", which));
    case Recommendation::replaceValveBody:
        return "The valve body is worn beyond a sensible repair: we suggest another one.";
    case Recommendation::openTheTransmission:
        return suggestion->doNotDrive
                   ? "More than ordinary wear: something inside is breaking up. Please do not "
                     "drive; we "
                     "suggest opening the transmission."
                   : "More than ordinary wear: we suggest opening the transmission.";
    case Recommendation::notEnoughEvidence:
        return std::string("Not decided yet: the evidence does not settle what is wrong; one more "
                           "test is needed.") +
               (suggestion->doNotDrive ? " Please do not drive until then." : "");
    }
    throw std::logic_error("an outcome without a verdict");
}

std::string nextCheckSentence(const std::optional<Suggestion>& suggestion,
                              std::optional<double> odometerKm) {
    if (!suggestion || !suggestion->recheckAfter)
        return {};
    const double after = suggestion->recheckAfter->value();
    if (!odometerKm)
        return fmt::format("Look again after {}.", distanceWords(after));
    return fmt::format("Look again after {}, at about {}.", distanceWords(after),
                       distanceWords(*odometerKm + after));
}

std::vector<std::string> suggestionSentences(const Suggestion& suggestion) {
    std::vector<std::string> sentences{asSentence(
        (suggestion.heldRepair.empty() ? "" : "Before the repair: ") + headline(suggestion))};
    if (suggestion.doNotDrive)
        sentences.emplace_back("Tow it on a flatbed, or with every driven wheel off the ground.");
    if (suggestion.converter && suggestion.cooler &&
        suggestion.converterWhy == suggestion.coolerWhy)
        sentences.push_back(asSentence("Torque converter and cooler are part of the job: " +
                                       suggestion.converterWhy));
    else if (suggestion.converter)
        sentences.push_back(
            asSentence("The torque converter is part of the job: " + suggestion.converterWhy));
    if (suggestion.converterAsOption)
        sentences.push_back(asSentence("The torque converter is an option, to be decided on the "
                                       "road test: " +
                                       suggestion.converterWhy));
    if (suggestion.cooler &&
        !(suggestion.converter && suggestion.converterWhy == suggestion.coolerWhy))
        sentences.push_back(asSentence("The cooler is part of the job: " + suggestion.coolerWhy));
    if (suggestion.coolerAsOption)
        sentences.push_back(asSentence("The cooler is an option: " + suggestion.coolerWhy));
    if (!suggestion.nextTest.empty())
        sentences.push_back(asSentence((suggestion.outcome == Recommendation::notEnoughEvidence
                                            ? "The one next test: "
                                            : "Before the job: ") +
                                       suggestion.nextTest));
    for (const std::string& scope : suggestion.scope)
        sentences.push_back(asSentence(scope));
    if (!suggestion.customersRisk.empty())
        sentences.push_back("For the customer to sign: " + suggestion.customersRisk);
    if (!suggestion.overruled.empty())
        sentences.push_back(
            asSentence("The technician decided otherwise: " + suggestion.overruled));
    return sentences;
}

std::vector<std::string> turnSentences(const Suggestion& suggestion) {
    constexpr std::size_t shown = 3;
    std::vector<std::string> sentences;
    for (const DecisiveChange& border : suggestion.nearBorders)
        sentences.push_back(
            asSentence(fmt::format("Borderline: {}: {}", border.observation, border.headline)));
    for (std::size_t i = 0; i < suggestion.turns.size() && i < shown; ++i) {
        const DecisiveChange& turn = suggestion.turns[i];
        sentences.push_back(
            asSentence(fmt::format("{}{}: {}", turn.observation,
                                   turn.untested    ? " (not tested yet)"
                                   : turn.reachable ? ""
                                                    : " (it cannot be checked again now)",
                                   turn.headline)));
    }
    return sentences;
}

} // namespace swarfbook
