// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/next_test.h"
#include "judgement/promises.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace swarfbook {
namespace {

/// Whether anything that feeds the solenoids was looked at.
bool feedLooked(const Facts& facts) {
    using enum OutsideItem;
    constexpr std::array feed{supply, connector, earth, harness};
    return std::any_of(feed.begin(), feed.end(),
                       [&](OutsideItem item) { return facts.looked(item); });
}

/// The solenoid was exchanged, and its circuit code is still there.
MaybeTest circuitOfANewPart(const Facts& facts, const TroubleCode& code) {
    const std::string test = feedTest(facts);
    if (test.empty())
        return std::nullopt;
    return NextTest{
        fmt::format("Solenoid {} has been exchanged already, but code {} is still there.",
                    code.solenoid, code.text),
        test,
        "A wrong feed or current lies outside; a right one leaves the new part and what it moves.",
        {Hazard::ignition}};
}

NextTest measureHot(const TroubleCode& code) {
    return {fmt::format("Code {} comes only when it is hot, and the coil was only measured cold.",
                        code.text),
            "Measure the coil again at 80 to 100 C.",
            "A coil that opens hot is replaced; one that holds sends you to the harness.",
            {Hazard::ignition}};
}

NextTest measureSharedFeed(std::size_t circuits) {
    return {fmt::format("{} circuits fail at once, and neither supply nor coils have been "
                        "measured.",
                        circuits),
            "Measure supply and earth at the transmission's connector under load, then each coil "
            "at the pins.",
            "Low voltage or a bad pin lies outside; coils out of band lie inside.",
            {Hazard::ignition}};
}

NextTest measureAtItsPins(const Facts& facts, const SolenoidVerdict& solenoid, bool hotOnly) {
    return {solenoid.sentence,
            fmt::format("Measure the coil of solenoid {} at its own pins, {}.", solenoid.name,
                        hotOnly ? "cold and at 80 to 100 C" : "with the temperature"),
            "Bad there too: replace the solenoid. Good: the harness.",
            {Hazard::ignition, Hazard::lowOhmCoil},
            promises::coilAtItsPins(facts, solenoid.name, hotOnly)};
}

/// A coil with its temperature, but nothing to compare it with.
NextTest compareTheCoil(const SolenoidVerdict& solenoid) {
    return {solenoid.sentence,
            fmt::format("Measure the identical siblings of solenoid {} at the same temperature, or "
                        "look up the maker's band.",
                        solenoid.name),
            "Apart or outside: the coil. Alike or within: the harness.",
            {Hazard::ignition, Hazard::lowOhmCoil}};
}

NextTest measureAtBothPlaces(const Facts& facts, const TroubleCode& code, bool hotOnly) {
    const SolenoidVerdict* v = facts.solenoidOf(code);
    return {fmt::format("Code {} says that the current was wrong, not where.", code.text),
            fmt::format("Ignition off, measure the coil at the case connector and then at its own "
                        "pins, {}.",
                        hotOnly ? "cold and at 80 to 100 C" : "with the temperature"),
            fmt::format("Bad at both: replace the solenoid. Good at the coil{}: the harness.",
                        hotOnly ? ", hot as well" : ""),
            {Hazard::ignition, Hazard::lowOhmCoil},
            promises::coilAtItsPins(facts, v != nullptr ? v->name : code.solenoid, hotOnly)};
}

} // namespace

std::vector<std::string> feedNotProven(const Facts& facts) {
    using enum OutsideItem;
    std::vector<std::string> left;
    for (const OutsideItem item : {supply, earth, connector, harness})
        if (!facts.foundGood(item) && !facts.doneInVain(std::string(wordOf(item))))
            left.emplace_back(wordOf(item));
    // a supply that holds under load proves its earth too
    if (facts.foundGood(supply))
        std::erase(left, "earth");
    return left;
}

std::string feedTest(const Facts& facts) {
    std::vector<std::string> left = feedNotProven(facts);
    if (left.empty())
        return facts.foundGood(OutsideItem::controlUnit)
                   ? ""
                   : "Measure the current that the control unit drives in that circuit.";
    if (left == std::vector<std::string>{"harness"})
        return "Load-test the harness of that circuit, and wiggle it while measuring.";
    const bool harness = std::erase(left, "harness") > 0;
    for (std::string& item : left)
        item.insert(0, "the ");
    return fmt::format("Load-test {}{}.", listed(left),
                       harness ? ", and wiggle the harness of that circuit while measuring" : "");
}

/// Circuits that fail are measured at their supply before the pan is taken off.
MaybeTest measureSupply(const Facts& facts) {
    const auto circuits = facts.symptoms.circuits();
    const bool coilRead = std::any_of(circuits.begin(), circuits.end(), [&](const auto* code) {
        const SolenoidVerdict* v = facts.solenoidOf(*code);
        return v != nullptr && (v->state != SolenoidState::untested || v->circuitBad);
    });
    if (circuits.empty() || feedLooked(facts) || coilRead || facts.debris->inspected)
        return std::nullopt;
    return NextTest{
        fmt::format(
            "Code {} says that the current was wrong, and nobody has looked at what feeds it.",
            circuits.front()->text),
        "Measure supply and earth at the transmission's connector under load, look for oil and "
        "bent pins in it, then measure each coil at the connector, with the temperature.",
        "Low volts or a bad pin lies outside; a coil that is bad there is measured again at its "
        "own "
        "pins.",
        {Hazard::ignition}};
}

MaybeTest checkSensors(const Facts& facts) {
    for (const TroubleCode* code : facts.symptoms.ofFamily(CodeFamily::input)) {
        if (code->sensor && facts.looked(*code->sensor))
            continue;
        return NextTest{
            fmt::format("Code {} names a signal: {}.", code->text, code->meaning),
            "Check that sensor's connector and signal, and clean the fines off its tip.",
            "A sensor at fault lies outside the unit; a good one sends the search inside."};
    }
    return std::nullopt;
}

MaybeTest measureCircuits(const Facts& facts, const SuggestionModel& model) {
    const auto circuits = facts.symptoms.circuits();
    if (circuits.empty()) {
        // no code names it, but it was read bad at the case connector
        for (const SolenoidVerdict& v : facts.solenoids.each)
            if (v.circuitBad)
                return measureAtItsPins(facts, v, facts.symptoms.onlyHot);
        return std::nullopt;
    }
    const bool hotOnly = facts.symptoms.onlyHot || circuits.front()->intermittent;
    for (const TroubleCode* code : circuits) {
        const SolenoidVerdict* v = facts.solenoidOf(*code);
        const bool coilRead = v != nullptr && v->state >= SolenoidState::coilGood;
        if (facts.doneInVain("solenoid " + (v != nullptr ? v->name : code->solenoid))) {
            if (auto test = circuitOfANewPart(facts, *code))
                return test;
            continue;
        }
        if (coilRead && hotOnly && !v->hotTested)
            return measureHot(*code);
        if (!coilRead && !feedLooked(facts) &&
            static_cast<int>(circuits.size()) >= model.sharedFeedFrom)
            return measureSharedFeed(circuits.size());
        if (v != nullptr && v->circuitBad)
            return measureAtItsPins(facts, *v, hotOnly);
        if (!coilRead && v != nullptr && v->at20)
            return compareTheCoil(*v);
        if (!coilRead)
            return measureAtBothPlaces(facts, *code, hotOnly);
    }
    return std::nullopt;
}

} // namespace swarfbook
