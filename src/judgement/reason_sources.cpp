// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/reason_sources.h"

#include <algorithm>

namespace swarfbook {
namespace {

/// The name of the part, "" if it has none.
std::string partName(const Observation& observation) {
    if (const auto* s = std::get_if<SolenoidReadings>(&observation))
        return s->name;
    if (const auto* b = std::get_if<BoreReadings>(&observation))
        return b->name;
    if (const auto* c = std::get_if<AirCheck>(&observation))
        return c->element;
    return {};
}

bool isAbout(const Reason& reason, const std::string& name) {
    return std::find(reason.about.begin(), reason.about.end(), name) != reason.about.end();
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
    for (std::size_t i = 0; i < visit.observations.size(); ++i) {
        const Observation& observation = visit.observations[i];
        const std::string name = partName(observation);
        const bool leftOut = !reason.about.empty() && !name.empty() && !isAbout(reason, name);
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
