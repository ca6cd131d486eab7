// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observed.h"
#include "judgement/suggest.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace swarfbook::test {

/// A worked case of tests/judgement/scenarios: the observations, and the expected suggestion.
struct Scenario {
    std::string file;
    Evidence evidence;
    nlohmann::json expected;
};

inline std::filesystem::path scenarioFolder() {
    return std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "tests/judgement/scenarios";
}

inline Scenario readScenario(const std::filesystem::path& file) {
    std::ifstream in(file);
    const nlohmann::json document = nlohmann::json::parse(in);
    Scenario scenario;
    scenario.file = file.filename().string();
    scenario.expected = document.at("expected");
    scenario.evidence.now.visitId = 1;
    for (nlohmann::json observation : document.at("observations")) {
        const std::string kind = observation.at("kind");
        observation.erase("kind");
        scenario.evidence.now.observations.push_back(observationFromJson(kind, observation));
    }
    return scenario;
}

/// The scenario whose file name starts with the number, "16".
inline Scenario scenario(const std::string& number) {
    for (const auto& entry : std::filesystem::directory_iterator(scenarioFolder()))
        if (entry.path().filename().string().starts_with(number + "-"))
            return readScenario(entry.path());
    throw std::runtime_error("no scenario " + number);
}

inline const SuggestionModel& suggestionModel() {
    static const SuggestionModel model =
        loadSuggestionModel(std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models/suggestion.json");
    return model;
}

/// Evidence of a visit with these observations.
inline Evidence evidenceOf(std::vector<Observation> observations) {
    Evidence evidence;
    evidence.now.visitId = 1;
    evidence.now.observations = std::move(observations);
    return evidence;
}

} // namespace swarfbook::test
