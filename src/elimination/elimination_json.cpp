// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/elimination.h"

#include <array>

namespace swarfbook {
namespace {

using Json = nlohmann::ordered_json;

std::string_view kindName(PartKind kind) {
    constexpr std::array<std::string_view, 5> names{"element", "solenoid", "circuit", "bore",
                                                    "shared"};
    return names.at(static_cast<std::size_t>(kind));
}

Json partsJson(const Elimination& e) {
    Json parts = Json::array();
    for (const EliminatedPart& part : e.parts) {
        Json cells = Json::object();
        for (std::size_t i = 0; i < part.cells.size(); ++i)
            if (!part.cells[i].empty())
                cells[e.gears[i]] = part.cells[i];
        Json one{{"kind", kindName(part.part.kind)},
                 {"name", part.part.name},
                 {"label", part.label},
                 {"state", partStateName(part.state)},
                 {"sentence", part.sentence},
                 {"gears", std::move(cells)}};
        if (part.state == PartState::cleared)
            one["surely"] = part.surely;
        if (part.part.kind == PartKind::element)
            one["score"] = part.score;
        parts.push_back(std::move(one));
    }
    return parts;
}

Json stuckJson(const Elimination& e) {
    Json stuck = Json::array();
    for (const StuckMatch& match : e.stuck) {
        Json predicts = Json::array();
        for (const CommandedObtained& p : match.predicts)
            predicts.push_back(
                {{"commanded", p.commanded},
                 {"obtained", p.obtained.empty() ? Json(nullptr) : Json(p.obtained)}});
        stuck.push_back({{"solenoid", match.solenoid},
                         {"stuck", match.on ? "on" : "off"},
                         {"predicts", std::move(predicts)}});
    }
    return stuck;
}

Json testsJson(const Elimination& e) {
    Json tests = Json::array();
    for (const TestChoice& test : e.tests)
        tests.push_back({{"test", test.what},
                         {"minutes", test.minutes},
                         {"expected_left", test.expectedLeft},
                         {"left_if_bad", test.leftIfBad},
                         {"left_if_good", test.leftIfGood},
                         {"in_words", testInWords(test)}});
    return tests;
}

} // namespace

nlohmann::ordered_json toJson(const Elimination& e) {
    Json gears = Json::object(), roles = Json::array();
    for (std::size_t i = 0; i < e.gears.size(); ++i)
        gears[e.gears[i]] = e.seenIn[i];
    for (const ElementRole& role : e.shiftRoles)
        roles.push_back(
            {{"element", role.element}, {"role", role.comesOn ? "comes on" : "lets go"}});
    return {{"format", "swarfbook elimination 1"},
            {"unit", e.unit},
            {"summary", e.summary},
            {"gears", std::move(gears)},
            {"elements",
             {{"must", e.elements.must},
              {"cleared", e.elements.cleared},
              {"hard", e.elements.hard},
              {"soft", e.elements.soft},
              {"every_gear_bad", e.elements.everyGearBad}}},
            {"shift_roles", std::move(roles)},
            {"stuck", stuckJson(e)},
            {"supply_lost", e.supplyLost},
            {"explanations", e.explanations},
            {"pairs", e.pairs},
            {"only_surely_driven_alike_clears", e.soft},
            {"parts", partsJson(e)},
            {"next_test", e.tests.empty() ? Json(nullptr) : Json(testInWords(e.tests.front()))},
            {"tests", testsJson(e)},
            {"notes", e.notes}};
}

} // namespace swarfbook
