// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/elimination_sentences.h"

#include "elimination/part_seen.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace swarfbook {
namespace {

std::string capital(std::string text) {
    if (!text.empty())
        text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
}

bool isExplanation(const DiagnosisContext& facts, std::size_t part) {
    return std::any_of(
        facts.explanations.sets.begin(), facts.explanations.sets.end(),
        [&](const ComponentSet& set) { return std::binary_search(set.begin(), set.end(), part); });
}

const PartTested* testOf(const DiagnosisContext& facts, std::size_t part) {
    for (const PartTested& test : facts.evidence.tested)
        if (test.part == facts.parts.all()[part])
            return &test;
    return nullptr;
}

const char* verbOf(PartKind kind, bool anyShift) {
    switch (kind) {
    case PartKind::element:
        return anyShift ? "is at work in" : "holds in";
    case PartKind::bore:
        return "serves";
    default:
        return "is needed in";
    }
}

/// The test that would decide, because elimination alone condemns nothing.
std::string howToTell(const DiagnosisContext& facts, const PartName& part) {
    const auto& holds = facts.evidence.airHolds;
    switch (part.kind) {
    case PartKind::element:
        if (std::find(holds.begin(), holds.end(), part.name) != holds.end())
            return " It holds air, so only its lining can be at fault.";
        return facts.chart.element(part.name)->kind == ElementKind::oneWayClutch
                   ? " Select that gear by hand: another element then does its work, and that "
                     "decides."
                   : " An air check shows whether it is its seal or its lining.";
    case PartKind::solenoid:
        return " Elimination alone does not condemn it: its own test decides.";
    case PartKind::bore:
        return " A vacuum test would decide.";
    case PartKind::circuit:
        return " Measuring it would decide.";
    case PartKind::common:
        break;
    }
    return "";
}

std::string suspectSentence(const DiagnosisContext& facts, std::size_t part, const WherePart& where,
                            const std::string& label) {
    const PartName& name = facts.parts.all()[part];
    Texts codes;
    for (const OneOfThese& one : facts.evidence.oneOf)
        if (std::find(one.parts.begin(), one.parts.end(), name) != one.parts.end())
            addOnce(codes, one.told);
    std::string text = label;
    if (!where.open.empty())
        text += fmt::format(" {} {}, which {} bad", verbOf(name.kind, where.openAtShift),
                            listInWords(where.open), where.open.size() == 1 ? "is" : "are");
    if (!codes.empty())
        text += fmt::format("{} {}",
                            where.open.empty() ? " is one of the parts meant by"
                                               : ", and is one of the parts meant by",
                            listInWords(codes));
    if (facts.explanations.pairs)
        text += "; no single part explains all observations, but two together do";
    text += ".";
    if (!where.easier.empty())
        text += fmt::format(" It is good in {}, but {} driven there as hard and as warm.",
                            listInWords(where.easier),
                            facts.explanations.clearing == Clearing::onlySure
                                ? "nobody has said that it was"
                                : "it was not");
    return text + howToTell(facts, name);
}

std::string clearedSentence(const DiagnosisContext& facts, std::size_t part, const WherePart& where,
                            const std::string& label) {
    std::string text = fmt::format("{} {} {}, which {} good", label,
                                   verbOf(facts.parts.all()[part].kind, where.goodAtShift),
                                   listInWords(where.good), where.good.size() == 1 ? "is" : "are");
    if (!where.surely)
        text += fmt::format(", if driven there as hard and as warm as in {}",
                            listInWords(where.clearedFor));
    return text + ".";
}

std::string untestedSentence(const WherePart& where, const std::string& label) {
    if (!where.open.empty() && !where.elsewhereBad.empty())
        return fmt::format(
            "{} has no part in {}, which is bad too, so it cannot be the only cause; "
            "nothing shows that it is good.",
            label, listInWords(where.elsewhereBad));
    if (!where.open.empty())
        return fmt::format(
            "{} is needed in {}, which is bad, but does not explain all observations.", label,
            listInWords(where.open));
    if (!where.easier.empty())
        return fmt::format("{} was loaded less in {} than where it is bad, so that shows nothing.",
                           label, listInWords(where.easier));
    return fmt::format("No drive and no test so far has used {}.", label);
}

/// A solenoid and its circuit under one name, if pairs with either of them remain.
std::string nameInPairs(const Elimination& e, const std::string& label) {
    constexpr std::string_view circuit = "circuit of ";
    const bool ofCircuit = label.starts_with(circuit);
    const std::string solenoid = ofCircuit ? label.substr(circuit.size()) : label;
    const std::string other = ofCircuit ? solenoid : std::string(circuit) + label;
    const bool both =
        std::any_of(e.explanations.begin(), e.explanations.end(), [&](const Texts& set) {
            return std::find(set.begin(), set.end(), other) != set.end();
        });
    return both ? solenoid + " or its circuit" : label;
}

/// The remaining candidates, each once: parts, or pairs such as "clutch T with solenoid B or its
/// circuit".
Texts explanationsInWords(const Elimination& e) {
    Texts left;
    for (const Texts& set : e.explanations) {
        std::string text;
        for (const std::string& label : set)
            text += (text.empty() ? "" : " with ") + (e.pairs ? nameInPairs(e, label) : label);
        addOnce(left, text);
    }
    return left;
}

std::string stuckSentence(const StuckMatch& match) {
    std::string text = fmt::format("Solenoid {} stuck {} would give exactly the gears obtained",
                                   match.solenoid, match.on ? "on" : "off");
    Texts predicted;
    for (const CommandedObtained& p : match.predicts)
        predicted.push_back(p.obtained.empty()
                                ? fmt::format("no drive at {}", p.commanded)
                                : fmt::format("{} instead of {}", p.obtained, p.commanded));
    if (predicted.empty())
        return text + ".";
    return fmt::format("{}. It would also give {}: drive it to see.", text, listInWords(predicted));
}

} // namespace

void judgePart(const DiagnosisContext& facts, std::size_t part, EliminatedPart& into) {
    const WherePart where = whereIs(facts, part);
    const std::string label = capital(into.label);
    const PartTested* test = testOf(facts, part);
    if (test != nullptr) {
        into.state = test->inOrder ? PartState::cleared : PartState::suspect;
        into.sentence = test->sentence;
    } else if (isExplanation(facts, part)) {
        into.state = PartState::suspect;
        into.sentence = suspectSentence(facts, part, where, label);
    } else if (where.open.empty() && !where.good.empty()) {
        into.state = PartState::cleared;
        into.surely = where.surely;
        into.sentence = clearedSentence(facts, part, where, label);
    } else {
        into.sentence = untestedSentence(
            where, where.open.empty() && where.easier.empty() ? into.label : label);
    }
}

std::string summaryOf(const DiagnosisContext& facts, const Elimination& e) {
    Texts bad;
    for (const DutiesSeen& seen : facts.seen)
        if (seen.bad)
            addOnce(bad, seen.told);
    for (const OneOfThese& one : facts.evidence.oneOf)
        addOnce(bad, one.told);
    if (bad.empty())
        return "No gear, shift or code was entered as bad, so nothing can be eliminated.";
    if (e.explanations.empty())
        return fmt::format("The observations do not fit together: no one or two parts explain {}. "
                           "Drive it again and check the entries.",
                           listInWords(facts.explanations.quarrelling.empty()
                                           ? bad
                                           : facts.explanations.quarrelling));
    const Texts left = explanationsInWords(e);
    const auto clearedParts = e.inState(PartState::cleared); // circuits go with their solenoids
    const auto cleared = std::count_if(clearedParts.begin(), clearedParts.end(), [](const auto* p) {
        return p->part.kind != PartKind::circuit;
    });
    const std::string what =
        e.pairs ? fmt::format("No single part explains {}; {} would: {}", listInWords(bad, 6),
                              left.size() == 1 ? "one pair of parts"
                                               : fmt::format("{} pairs of parts", left.size()),
                              listInWords(left, 4))
                : fmt::format("{} can come from {}: {}", capital(listInWords(bad, 6)),
                              left.size() == 1 ? "one part" : fmt::format("{} parts", left.size()),
                              listInWords(left, 6));
    return fmt::format("{}. {} cleared.", what,
                       cleared == 1 ? "1 part is" : fmt::format("{} parts are", cleared));
}

std::vector<std::string> notesOf(const DiagnosisContext& facts, const Elimination& e) {
    Texts notes;
    if (e.elements.everyGearBad)
        notes.emplace_back("Every gear, forward and reverse, is bad. Look first at what all gears "
                           "share: level, filter, pump, line pressure, selector and supply.");
    const bool allGoodElsewhere =
        std::all_of(e.parts.begin(), e.parts.end(), [&](const EliminatedPart& p) {
            return p.part.kind != PartKind::element || !e.elements.must.contains(p.part.name) ||
                   std::find(p.cells.begin(), p.cells.end(), "good") != p.cells.end();
        });
    if (e.soft && !e.elements.must.empty())
        notes.emplace_back(
            std::string(allGoodElsewhere
                            ? "Every element of the bad gears also holds in a good one."
                            : "The observations do not point at one element alone.") +
            " A gear that is good with less load or colder clears nothing: only gears that were "
            "driven as hard and as warm were taken to clear a part.");
    for (const StuckMatch& match : e.stuck)
        notes.push_back(stuckSentence(match));
    if (!facts.evidence.obtained.empty() && e.stuck.empty())
        notes.emplace_back(
            e.supplyLost
                ? "With all current lost the unit would give these gears: check supply and earth."
                : "No single stuck solenoid gives these gears. A sticking valve, two faults, a "
                  "cross leak or a lost supply may.");
    for (const std::string& note : facts.evidence.notes)
        notes.push_back(note);
    return notes;
}

} // namespace swarfbook
