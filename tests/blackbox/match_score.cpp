// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "blackbox/match_score.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace swarfbook::test {
namespace {

struct Answer {
    PointOnCard at;
    double maxFeret = 0.0, u = 0.0;
    bool mayBeNone = false;
    double debris = 1.0; ///< probability
};
using Pairs = std::vector<std::pair<std::size_t, std::size_t>>; ///< target, answer

constexpr double mostRatio = 2.5;

double sizeError(double found, double truth) {
    return std::abs(std::log(std::max(found, 1e-3) / std::max(truth, 1e-3)));
}

/// Cheapest pairs first, each target and answer once.
Pairs match(const std::vector<TruePiece>& targets, const std::vector<Answer>& answers) {
    struct Offer {
        double cost;
        std::size_t target, answer;
    };
    std::vector<Offer> offers;
    for (std::size_t i = 0; i < targets.size(); ++i)
        for (std::size_t j = 0; j < answers.size(); ++j) {
            const double d =
                std::hypot(targets[i].at.x - answers[j].at.x, targets[i].at.y - answers[j].at.y);
            const double reach =
                std::max(0.15, 0.35 * std::max(targets[i].maxFeret, answers[j].maxFeret));
            const double ratio = sizeError(answers[j].maxFeret, targets[i].maxFeret);
            const double cost = 0.7 * d / reach + 0.3 * ratio / std::log(mostRatio);
            if (d <= reach && ratio <= std::log(mostRatio) && cost < 1.0)
                offers.push_back({cost, i, j});
        }
    std::sort(offers.begin(), offers.end(),
              [](const Offer& a, const Offer& b) { return a.cost < b.cost; });
    std::set<std::size_t> targetsUsed, answersUsed;
    Pairs pairs;
    for (const Offer& o : offers)
        if (targetsUsed.count(o.target) == 0 && answersUsed.count(o.answer) == 0) {
            targetsUsed.insert(o.target);
            answersUsed.insert(o.answer);
            pairs.emplace_back(o.target, o.answer);
        }
    return pairs;
}

/// Whether one answer explains a cluster better than its members one by one.
bool isOne(const TruePiece& cluster, const std::vector<TruePiece>& members,
           const std::vector<Answer>& answers) {
    std::vector<Answer> near;
    for (const Answer& a : answers)
        if (std::abs(a.at.x - cluster.at.x) < cluster.maxFeret &&
            std::abs(a.at.y - cluster.at.y) < cluster.maxFeret)
            near.push_back(a);
    const Pairs whole = match({cluster}, near);
    const Pairs single = match(members, near);
    if (whole.empty() || (single.size() > 1 && near.size() > 1))
        return false;
    const double error = sizeError(near[whole.front().second].maxFeret, cluster.maxFeret);
    double best = 9.0;
    for (const auto& [i, j] : single)
        best = std::min(best, sizeError(near[j].maxFeret, members[i].maxFeret));
    return error < 0.45 && (error <= best || (members.size() > single.size() && error < 0.25));
}

struct Targets {
    std::vector<TruePiece> asked, optional;
};

Targets targetsOf(const Truth& truth, const std::vector<Answer>& answers, double least) {
    std::map<int, const TruePiece*> byId;
    for (const TruePiece& p : truth.pieces)
        byId[p.id] = &p;
    Targets out;
    const auto put = [&](const TruePiece& p) {
        const bool wanted = p.usable && p.maxFeret >= least && !truth.isMirrored(p.at);
        (wanted ? out.asked : out.optional).push_back(p);
    };
    std::set<int> merged;
    for (const TruePiece& cluster : truth.clusters) {
        std::vector<TruePiece> members;
        for (const int id : cluster.members)
            if (byId.count(id) > 0 && merged.count(id) == 0)
                members.push_back(*byId.at(id));
        if (members.empty() || !isOne(cluster, members, answers))
            continue;
        for (const TruePiece& m : members)
            merged.insert(m.id);
        put(cluster);
    }
    for (const TruePiece& p : truth.pieces)
        if (merged.count(p.id) == 0)
            put(p);
    return out;
}

bool mayBeLeftAside(const Truth& t, const Answer& a, double least) {
    const double edge = std::min({a.at.x - t.windowX, t.windowX + t.windowWidth - a.at.x,
                                  a.at.y - t.windowY, t.windowY + t.windowHeight - a.at.y});
    if (a.maxFeret < least || edge < 0.6 * a.maxFeret || t.isMirrored(a.at))
        return true;
    return std::any_of(t.crumbs.begin(), t.crumbs.end(), [&](const TruePiece& c) {
        return std::hypot(a.at.x - c.at.x, a.at.y - c.at.y) < 0.75 * c.maxFeret;
    });
}

std::vector<Answer> answersOf(const DebrisFinding& finding) {
    std::vector<Answer> answers;
    for (const Particle& p : finding.particles)
        answers.push_back({p.centre, p.maxFeret.value.value(),
                           p.maxFeret.standardUncertainty.value(), p.mayBeNone(),
                           p.debrisProbability});
    return answers;
}

} // namespace

MatchScore& MatchScore::operator+=(const MatchScore& other) {
    asked += other.asked;
    found += other.found;
    falseOnes += other.falseOnes;
    doubted += other.doubted;
    falseDoubted += other.falseDoubted;
    expectedFalse += other.expectedFalse;
    sized += other.sized;
    inside += other.inside;
    return *this;
}

AtFloor atFloor(const Truth& truth, const DebrisFinding& finding) {
    const double floor = finding.detectionLimit.value();
    const std::vector<Answer> answers = answersOf(finding);
    const Targets targets = targetsOf(truth, answers, floor);
    const auto counts = [&](const TruePiece& p) { return !p.thread && p.maxFeret < 1.25 * floor; };
    AtFloor out;
    out.asked = static_cast<int>(std::count_if(targets.asked.begin(), targets.asked.end(), counts));
    for (const auto& [i, j] : match(targets.asked, answers))
        out.found += counts(targets.asked[i]) ? 1 : 0;
    return out;
}

MatchScore matchScoreOf(const Truth& truth, const DebrisFinding& finding) {
    const double least = std::max(truth.layout == "close" ? 0.20 : 0.40, 6.0 / truth.pxPerMm);
    const std::vector<Answer> answers = answersOf(finding);
    const Targets targets = targetsOf(truth, answers, least);
    MatchScore out;
    out.asked = static_cast<int>(targets.asked.size());
    const auto addDoubt = [&out](const Answer& answer) {
        out.doubted += answer.mayBeNone ? 1 : 0;
        out.expectedFalse += 1.0 - answer.debris;
    };
    std::set<std::size_t> used;
    for (const auto& [i, j] : match(targets.asked, answers)) {
        used.insert(j);
        ++out.found;
        addDoubt(answers[j]);
        const TruePiece& t = targets.asked[i];
        if (!t.members.empty())
            continue;
        ++out.sized;
        out.inside += std::abs(answers[j].maxFeret - t.maxFeret) <= 1.96 * answers[j].u ? 1 : 0;
    }
    std::vector<Answer> rest;
    for (std::size_t j = 0; j < answers.size(); ++j)
        if (used.count(j) == 0)
            rest.push_back(answers[j]);
    std::set<std::size_t> explained;
    for (const auto& [i, j] : match(targets.optional, rest))
        explained.insert(j);
    for (std::size_t j = 0; j < rest.size(); ++j)
        if (explained.count(j) == 0 && !mayBeLeftAside(truth, rest[j], least)) {
            ++out.falseOnes;
            out.falseDoubted += rest[j].mayBeNone ? 1 : 0;
            addDoubt(rest[j]);
        }
    return out;
}

double scaleErrorPercent(const Truth& truth, const std::vector<GridPoint>& grid) {
    double step = 1e9;
    const auto apart = [&](std::size_t i, std::size_t j) {
        return std::hypot(grid[i].onCard.x - grid[j].onCard.x, grid[i].onCard.y - grid[j].onCard.y);
    };
    for (std::size_t i = 1; i < grid.size(); ++i)
        step = std::min(step, apart(0, i));
    double worst = 0.0;
    for (std::size_t i = 0; i < grid.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            if (apart(i, j) > 1.8 * step)
                continue;
            const PointInPhoto a = truth.photoFromCard(grid[i].onCard);
            const PointInPhoto b = truth.photoFromCard(grid[j].onCard);
            const double seen = std::hypot(grid[i].inPhoto.u - grid[j].inPhoto.u,
                                           grid[i].inPhoto.v - grid[j].inPhoto.v);
            worst = std::max(worst, std::abs(seen / std::hypot(a.u - b.u, a.v - b.v) - 1.0));
        }
    return 100.0 * worst;
}

} // namespace swarfbook::test
