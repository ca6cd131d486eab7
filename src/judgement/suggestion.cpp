// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/suggestion.h"

#include <fmt/format.h>

#include <array>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr std::array<std::string_view, 7> outcomeNames{
    "outside the unit",   "clean and refit",       "replace solenoids",  "repair bores",
    "replace valve body", "open the transmission", "not enough evidence"};

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i)
        text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
    return text;
}

std::string headlineOfOutcome(const Suggestion& s) {
    const bool several = s.which.size() != 1;
    switch (s.outcome) {
    case Recommendation::outsideTheUnit:
        return s.which.empty()
                   ? "Put right what is outside the transmission first, then test again"
                   : fmt::format("Outside the transmission: put right the {}, then test again",
                                 joined(s.which));
    case Recommendation::cleanAndRefit:
        return s.which.empty()
                   ? "Clean, new filter and seals, refit"
                   : fmt::format("Clean, new filter and seals, refit, {} with it", joined(s.which));
    case Recommendation::replaceSolenoids:
        if (s.which == std::vector<std::string>{theOneConcerned})
            return "Replace the solenoid concerned";
        return fmt::format("Replace solenoid{}{}", several ? "s" : "",
                           s.which.empty() ? "" : " " + joined(s.which));
    case Recommendation::repairBores:
        return fmt::format("Repair the valve-body bore{}{}", several ? "s" : "",
                           s.which.empty() ? "" : ": " + joined(s.which));
    case Recommendation::replaceValveBody:
        return "Replace the valve body";
    case Recommendation::openTheTransmission:
        return "Remove and open the transmission";
    case Recommendation::notEnoughEvidence:
        break;
    }
    return "Not enough evidence yet: one more test first";
}

nlohmann::ordered_json turnsJson(const std::vector<DecisiveChange>& turns) {
    using nlohmann::ordered_json;
    ordered_json list = ordered_json::array();
    for (const DecisiveChange& turn : turns)
        list.push_back(
            {{"observation", turn.observation},
             {"outcome", recommendationName(turn.outcome)},
             {"headline", turn.headline},
             {"rule", turn.rule},
             {"untested", turn.untested},
             {"minutes", turn.minutes},
             {"unexpected", turn.unexpected},
             {"reachable", turn.reachable},
             {"number", turn.number == 0 ? ordered_json(nullptr) : ordered_json(turn.number)}});
    return list;
}

} // namespace

std::string_view recommendationName(Recommendation outcome) {
    return outcomeNames.at(static_cast<std::size_t>(outcome));
}

Recommendation outcomeFromName(std::string_view name) {
    for (std::size_t i = 0; i < outcomeNames.size(); ++i)
        if (outcomeNames[i] == name)
            return static_cast<Recommendation>(i);
    throw std::invalid_argument("unknown outcome: " + std::string(name));
}

std::string_view strengthName(Strength strength) {
    constexpr std::array<std::string_view, 13> names{
        "outweighs_all", "decisive", "nearly_decisive", "strong", "firm", "clear", "good", "fair",
        "moderate",      "some",     "light",           "slight", "faint"};
    return names.at(static_cast<std::size_t>(strength));
}

std::string workOf(const Suggestion& s) {
    std::string text = headlineOfOutcome(s);
    if (s.converter || s.cooler)
        text += fmt::format(", with {}", s.converter && s.cooler ? "converter and cooler"
                                         : s.converter           ? "converter"
                                                                 : "cooler");
    else if (s.converterAsOption)
        text += ", converter as an option";
    return text;
}

std::string headline(const Suggestion& s) {
    return workOf(s) + (s.doNotDrive ? ". Do not drive" : "");
}

nlohmann::ordered_json toJson(const Suggestion& s) {
    using nlohmann::ordered_json;
    ordered_json all = ordered_json::array();
    for (const Reason& reason : s.all)
        all.push_back({{"sentence", reason.sentence},
                       {"rule", reason.rule},
                       {"weight", reason.weight},
                       {"supports", reason.supports}});
    return {{"format", "swarfbook suggestion 1"},
            {"outcome", recommendationName(s.outcome)},
            {"headline", headline(s)},
            {"which", s.which},
            {"converter", s.converter},
            {"converter_as_option", s.converterAsOption},
            {"converter_why", s.converterWhy},
            {"cooler", s.cooler},
            {"cooler_as_option", s.coolerAsOption},
            {"cooler_why", s.coolerWhy},
            {"do_not_drive", s.doNotDrive},
            {"strongest_reasons", s.strongestReasons},
            {"strongest_contrary", s.strongestContrary},
            {"would_change", s.wouldChange},
            {"single_observations_that_would_change_it", turnsJson(s.turns)},
            {"near_borders", turnsJson(s.nearBorders)},
            {"not_tried", s.notTried},
            {"learned", s.learned},
            {"next_test", s.nextTest},
            {"recheck_after_km",
             s.recheckAfter ? ordered_json(s.recheckAfter->value()) : ordered_json(nullptr)},
            {"suspects", s.suspects},
            {"not_known", s.notKnown},
            {"cautions", s.cautions},
            {"all_reasons", all},
            {"overruled", s.overruled},
            {"held_repair", s.heldRepair},
            {"scope", s.scope},
            {"customers_risk", s.customersRisk},
            {"standing_line", standingLine()}};
}

} // namespace swarfbook
