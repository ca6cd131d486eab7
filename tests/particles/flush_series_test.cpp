// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/flush_series.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

namespace {

Particle piece(double mm, ParticleType type = ParticleType::brightMetal, double sure = 1.0) {
    Particle p;
    p.maxFeret = {Millimetres(mm), Millimetres(0.02)};
    p.area = {SquareMillimetres(mm * mm / 2.0), SquareMillimetres(0.01)};
    p.type = type;
    p.debrisProbability = sure;
    p.sizeClass = mm < 1.0 ? "J" : "K"; // ISO 16232: 0.6 to 1 mm, 1 to 1.5 mm
    return p;
}

DebrisFinding tray(int pieces, double limit = 0.7, double mm = 0.8) {
    DebrisFinding finding;
    finding.detectionLimit = Millimetres(limit);
    finding.particles.assign(static_cast<std::size_t>(pieces), piece(mm));
    return finding;
}

} // namespace

TEST_CASE("every pass is counted from the coarsest size limit of them all") {
    DebrisFinding first = tray(90, 0.5);
    first.particles.push_back(piece(0.6));
    const DebrisFinding second = tray(10, 0.75);
    const FlushSeries series = flushSeries(
        std::vector<PassSeen>{{FlushStep::wash, &first}, {FlushStep::hot, &second}}, nullptr);
    CHECK(series.from == Millimetres(0.75));
    CHECK(series.passes[0].pieces == 90);
    CHECK(series.passes[0].area.value() == Approx(90 * 0.32));
    CHECK(series.passes[1].step == FlushStep::hot);
    CHECK(series.decay.verdict == FlushVerdict::clean);
    CHECK(series.trayNotClean.empty());
}

TEST_CASE("threads and pieces at the edge are not counted, doubtful ones by their chance") {
    DebrisFinding one = tray(2);
    one.particles.push_back(piece(3.0, ParticleType::fibre));
    one.particles.push_back(piece(2.0, ParticleType::lining, 0.6));
    Particle edge = piece(1.2);
    edge.atEdge = true;
    one.particles.push_back(edge);
    const FlushSeries series = flushSeries(std::vector<PassSeen>{{FlushStep::wash, &one}}, nullptr);
    CHECK(series.passes[0].pieces == 3);
    CHECK(series.passes[0].doubtful == 1);
    CHECK(series.passes[0].expected == Approx(2.6));
    CHECK(series.passes[0].largest->value == Millimetres(0.8)); // a doubtful one is never largest
    CHECK(series.passes[0].byType[static_cast<std::size_t>(ParticleType::lining)] == 1);
    CHECK(series.passes[0].byType[static_cast<std::size_t>(ParticleType::fibre)] == 0);
}

TEST_CASE("demagnetising is held against the pass before it") {
    const DebrisFinding much = tray(60), little = tray(5), again = tray(30);
    const auto judged = [](const std::vector<PassSeen>& passes) {
        return flushSeries(passes, nullptr).demagnetising;
    };
    const auto released = judged(
        {{FlushStep::wash, &much}, {FlushStep::wash, &little}, {FlushStep::demagnetise, &again}});
    REQUIRE(released);
    CHECK(released->pass == 3);
    CHECK(released->released == 30);
    CHECK(released->before == 5);
    CHECK(released->against == PassAgainstPass::more);
    CHECK(judged({{FlushStep::wash, &much}, {FlushStep::demagnetise, &little}})->against ==
          PassAgainstPass::less);
    CHECK_FALSE(judged({{FlushStep::demagnetise, &little}}));
    CHECK_FALSE(judged({{FlushStep::wash, nullptr}, {FlushStep::demagnetise, &little}}));
}

TEST_CASE("a pass that was not measured, or is shown and not counted, leaves the verdict open") {
    const DebrisFinding first = tray(50);
    DebrisFinding shown = tray(5);
    shown.shownOnly = ShownOnly{"rough", "spread it"};
    for (const DebrisFinding* second :
         {static_cast<const DebrisFinding*>(nullptr), static_cast<const DebrisFinding*>(&shown)}) {
        const FlushSeries series = flushSeries(
            std::vector<PassSeen>{{FlushStep::wash, &first}, {FlushStep::wash, second}}, nullptr);
        CHECK(series.decay.verdict == FlushVerdict::notKnown);
        CHECK_FALSE(series.passes[1].counted);
    }
}

// Source: ISO 16232, blank value: at most 10 % in every size class.
TEST_CASE("a tray that is not clean is told by class") {
    const DebrisFinding pass = tray(20);
    const auto over = [&](const DebrisFinding& clean) {
        return flushSeries(std::vector<PassSeen>{{FlushStep::wash, &pass}}, &clean).trayNotClean;
    };
    CHECK(over(tray(2)).empty());
    const auto three = over(tray(3));
    REQUIRE(three.size() == 1);
    CHECK(three[0].sizeClass == "J");
    CHECK(three[0].tray == 3);
    CHECK(three[0].pass == 20);
    CHECK(over(tray(1, 0.7, 1.2)).size() == 1); // in a class that the pass has nothing of
    CHECK(over(tray(9, 0.7, 0.3)).empty());     // too small to be counted at all
}
