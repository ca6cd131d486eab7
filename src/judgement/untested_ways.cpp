// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/state_of_work.h"
#include "judgement/debris_items.h"
#include "judgement/sensitivity.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace swarfbook {
namespace {

Observation read(std::string_view kind, const char* document) {
    return observationFromJson(kind, nlohmann::json::parse(document));
}

/// What must be known for an answer to mean something.
enum class Needs {
    nothing,
    pieces,       ///< pieces that can be picked up
    piecesOrElse, ///< without them nobody has reason to expect it
};

/// A test with one of its answers.
struct Answer {
    std::string_view kind;
    const char* label;
    const char* json;
    Needs needs = Needs::nothing;
    bool unexpected = false; ///< nobody had reason to expect it
};

constexpr Answer answers[] = {
    {"finger", "finger test: pieces are felt", R"({"feel": "felt"})"},
    {"finger", "finger test: it smears, nothing is felt", R"({"feel": "smears"})"},
    {"squeeze", "squeeze test: a flake crumbles", R"({"result": "crumbles"})", Needs::pieces},
    {"squeeze", "squeeze test: a flake bends", R"({"result": "bends"})", Needs::pieces},
    {"magnet-test", "magnet under the paper: plenty stays",
     R"({"result": "stays", "share": "plenty"})", Needs::piecesOrElse},
    {"magnet-test", "magnet under the paper: it moves", R"({"result": "moves"})", Needs::pieces},
    {"codes", "codes: none stored", R"({"codes": [], "when": "before"})"},
    {"codes", "codes: a ratio code", R"({"codes": ["P0730"], "when": "before"})"},
    {"complaint", "road test: it drives and shifts well", R"({"symptom": "good"})"},
    {"complaint", "road test: it slips", R"({"symptom": "slip"})"},
    {"noise", "noise: a whine", R"({"noise": "whine"})"},
    {"noise", "noise: none", R"({"noise": "none"})"},
    {"level", "level: right", R"({"found": "right"})"},
    {"level", "level: low", R"({"found": "low"})"},
    {"fluid", "fluid: milky", R"({"milky": true})", Needs::nothing, true},
    {"fluid", "fluid: burnt smell", R"({"smell": "burnt"})"},
    {"filter-neck", "filter neck and seal: the seal is cut", R"({"seal": "cut"})"},
    {"pressure", "pressure: normal in every range", R"({"found": "normal"})"},
    {"pressure", "pressure: low in every range", R"({"found": "low"})"},
    {"end-play", "end play: too much", R"({"result": "excess"})"},
    {"end-play", "end play: normal", R"({"result": "normal"})"},
    {"converter", "converter: drains dirty", R"({"drain": "fault"})"},
    {"converter", "converter: drains clean", R"({"drain": "good"})"},
    {"adaptation", "adaptation: at its limit", R"({"result": "at-limit"})"},
    {"adaptation", "adaptation: normal", R"({"result": "normal"})"},
    {"cooler", "cooler flow: too little", R"({"result": "fault"})"},
    {"air-check", "air check of the clutch concerned: it leaks",
     R"({"element": "the clutch concerned", "result": "leaks"})"},
    {"air-check", "air check of the clutch concerned: it holds",
     R"({"element": "the clutch concerned", "result": "holds"})"},
    {"debris", "pan and filter looked at: fines only", R"({"place": "pan", "what": "film"})"},
    {"debris", "pan and filter looked at: a chip above 3 mm",
     R"({"place": "pan", "what": "bright-metal", "size": "S4", "amount": "one"})", Needs::nothing,
     true},
    {"solenoid", "solenoids: all move and seal alike", R"({"name": "all", "siblings": "alike"})"},
};

bool wholeCoil(const SolenoidVerdict* v) {
    return v != nullptr && v->state >= SolenoidState::coilGood;
}

/// Pieces that a hand can pick up: seen as single pieces, felt, or not identified by a photo.
bool anyPieces(const DebrisFacts& d) {
    const bool felt = d.feel == Feel::felt || d.feel == Feel::grit;
    return felt || d.unidentifiedLarge || d.doubtfulStop != nullptr ||
           std::any_of(d.items.begin(), d.items.end(), [](const auto& i) { return !isFine(i); });
}

void addBore(const char* label, const char* name, Kilopascals vacuum,
             std::vector<Counterfactual>& flips) {
    BoreReadings reading;
    reading.name = name;
    reading.vacuum = Typed<Kilopascals>{vacuum, fmt::format("{:.1f} kPa", vacuum.value())};
    flips.push_back({label, "bore", 0, true, reading, false});
}

/// The solenoid that a code names, in the tests that would decide about it.
void addNamedSolenoid(const Facts& facts, std::vector<Counterfactual>& flips) {
    const auto add = [&](const std::string& label, SolenoidReadings reading) {
        flips.push_back({label, "solenoid", 0, true, std::move(reading), false});
    };
    std::set<std::string> done;
    for (const TroubleCode& code : facts.symptoms.codes) {
        if (code.solenoid.empty() || !done.insert(code.solenoid).second)
            continue;
        const SolenoidVerdict* named = facts.solenoidOf(code);
        SolenoidReadings reading;
        reading.name = named != nullptr ? named->name : code.solenoid;
        if (code.family == CodeFamily::electrical) {
            if (wholeCoil(named))
                continue;
            reading.coilAt = MeasuredAt::pins;
            reading.openCircuit = true;
            add(fmt::format("solenoid {}: coil open at its own pins", reading.name), reading);
            reading.openCircuit = false;
            reading.siblings = AgainstSiblings::alike;
            add(fmt::format("solenoid {}: coil right at its own pins, and it moves", reading.name),
                reading);
        } else if (named == nullptr || named->swap == SwapResult::notSwapped) {
            reading.swap = SwapResult::moves;
            add(fmt::format("solenoid {} exchanged with an identical one: the fault moves",
                            reading.name),
                reading);
            reading.swap = SwapResult::stays;
            add(fmt::format("solenoid {} exchanged with an identical one: the fault stays",
                            reading.name),
                reading);
        }
    }
}

} // namespace

std::vector<Counterfactual> untestedBothWays(const std::vector<Observation>& recorded,
                                             const Facts& facts, const SuggestionModel& model) {
    std::set<std::string_view> there;
    for (const Observation& observation : recorded)
        there.insert(observationKind(observation));
    if (facts.debris->inspected)
        there.insert("debris");
    std::vector<Counterfactual> flips;
    for (const Answer& answer : answers) {
        const bool noPieces = answer.needs != Needs::nothing && !anyPieces(*facts.debris);
        if (there.contains(answer.kind) || (noPieces && answer.needs == Needs::pieces))
            continue;
        flips.push_back({answer.label, answer.kind, 0, true, read(answer.kind, answer.json),
                         answer.unexpected || noPieces});
    }
    if (!there.contains("bore")) {
        addBore("bores: all tight", "all", model.tryTight, flips);
        addBore("bores: the one concerned leaks", theOneConcerned, model.tryLeaking, flips);
    }
    addNamedSolenoid(facts, flips);
    const StateOfWork state = stateOfWork(recorded, facts.debris->inspected);
    std::erase_if(flips, [&](const Counterfactual& flip) {
        return flip.kind != "debris" && !canBeObserved(*flip.instead, state);
    });
    return flips;
}

} // namespace swarfbook
