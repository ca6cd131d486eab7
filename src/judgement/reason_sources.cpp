// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/reason_sources.h"

#include <algorithm>

namespace swarfbook {
namespace {

/// The name of a part that is known by one, else "".
std::string partName(const Observation& observation) {
    if (const auto* s = std::get_if<SolenoidReadings>(&observation))
        return s->name;
    if (const auto* b = std::get_if<BoreReadings>(&observation))
        return b->name;
    if (const auto* c = std::get_if<AirCheck>(&observation))
        return c->element;
    return {};
}

bool isLetterOrDigit(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

/// The name as a word of its own: "A" is not in "Air".
bool saysName(const std::string& sentence, const std::string& name) {
    for (std::size_t at = sentence.find(name); at != std::string::npos && !name.empty();
         at = sentence.find(name, at + 1)) {
        const std::size_t end = at + name.size();
        if ((at == 0 || !isLetterOrDigit(sentence[at - 1])) &&
            (end == sentence.size() || !isLetterOrDigit(sentence[end])))
            return true;
    }
    return false;
}

} // namespace

ReasonSources sourcesOf(const Reason& reason, const VisitEvidence& visit,
                        const SuggestionModel& model) {
    ReasonSources sources;
    const auto rule = model.rules.find(reason.rule);
    if (rule == model.rules.end())
        return sources;
    const std::vector<std::string>& reads = rule->second.reads;
    const auto isRead = [&](std::string_view kind) {
        return std::find(reads.begin(), reads.end(), kind) != reads.end();
    };
    sources.limits = rule->second.limits;
    bool anyNamed = false;
    for (const Observation& observation : visit.observations)
        anyNamed |= isRead(observationKind(observation)) &&
                    saysName(reason.sentence, partName(observation));
    for (std::size_t i = 0; i < visit.observations.size(); ++i) {
        const Observation& observation = visit.observations[i];
        const std::string name = partName(observation);
        const bool leftOut = anyNamed && !name.empty() && !saysName(reason.sentence, name);
        if (isRead(observationKind(observation)) && !leftOut)
            sources.observations.push_back(i);
    }
    if (isRead("photo"))
        for (std::size_t i = 0; i < visit.samples.size(); ++i)
            if (!visit.samples[i].refusal)
                sources.photos.push_back(i);
    return sources;
}

} // namespace swarfbook
