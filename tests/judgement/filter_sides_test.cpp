// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris_samples.h"
#include "judgement/debris_facts.h"
#include "judgement/visit_samples.h"
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

DebrisSample filterSide(FilterSide side, std::vector<Particle> particles) {
    DebrisSample sample = debrisPhoto(Place::filter, std::move(particles));
    sample.basis.side = side;
    sample.sampling = samplingOf("cut open", sample.basis);
    return sample;
}

/// Whether evidence with these words is against the suggestion.
bool isAgainst(const Suggestion& s, const std::string& words) {
    return std::any_of(s.all.begin(), s.all.end(), [&](const Reason& reason) {
        return !reason.supports && reason.sentence.find(words) != std::string::npos;
    });
}

} // namespace

// Debris past the filter is the strongest evidence for trouble of solenoids and bores: common
// practice, no source.
TEST_CASE("the same pieces weigh more on a filter's clean side than on its dirty side") {
    const std::vector<Particle> specks{debrisPiece(0.3, ParticleType::brightMetal),
                                       debrisPiece(0.3, ParticleType::brightMetal)};
    const Suggestion dirty =
        suggestionWith({filterSide(FilterSide::dirty, specks)}, {drivesWell()});
    const Suggestion clean =
        suggestionWith({filterSide(FilterSide::clean, specks)}, {drivesWell()});
    CHECK(dirty.outcome == Recommendation::cleanAndRefit);
    CHECK_FALSE(isAgainst(dirty, "past the filter"));
    CHECK(isAgainst(clean, "The photo of the filter's clean side shows 2 pieces"));
    CHECK(isAgainst(clean, "past the filter"));
}

TEST_CASE("debris on the clean side has gone beyond the pan, on the dirty side it has not") {
    const SuggestionModel& model = suggestionModel();
    for (const FilterSide side : {FilterSide::dirty, FilterSide::clean}) {
        VisitEvidence visit;
        visit.samples = {filterSide(side, {debrisPiece(0.3, ParticleType::lining)})};
        const auto facts =
            debrisFacts(visit, visitFindings(visit.observations, model.warmth), model);
        CHECK(facts->beyondThePan() == (side == FilterSide::clean));
    }
}

TEST_CASE("the dirty side of a filter is compared with another visit's") {
    VisitEvidence visit;
    visit.samples = {filterSide(FilterSide::clean, {debrisPiece(0.3, ParticleType::lining)}),
                     filterSide(FilterSide::dirty, {debrisPiece(0.4, ParticleType::lining),
                                                    debrisPiece(0.3, ParticleType::lining)})};
    const VisitSample sample = sampleOf(visit, Place::filter);
    CHECK(sample.sampling == "cut open, dirty side");
    REQUIRE(sample.repeats.size() == 1);
    CHECK(sample.repeats.front().particles.size() == 2);
}
