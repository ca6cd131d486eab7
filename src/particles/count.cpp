// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/count.h"

#include "base/poisson.h"
#include "particles/size_classes.h"

#include <algorithm>
#include <stdexcept>

namespace swarfbook {
namespace {

void addIfInClass(ClassCount& c, const Particle& particle, double weight) {
    const Micrometres size = toMicrometres(particle.maxFeret.value);
    if (size < c.from || size >= c.to)
        return;
    c.count += 1;
    c.weighted += weight;
    c.byType.at(static_cast<std::size_t>(particle.type)) += 1;
}

/// Turns the counts of one class into a rate with its interval.
void finish(ClassCount& c, const CountOptions& options) {
    const double perUnit = options.onWhiteCard ? 1.0 : 100.0 / options.measuredArea.value();
    const double meanWeight = c.count == 0 ? 1.0 : c.weighted / c.count;
    const auto [low, high] = poissonInterval95(c.count);
    c.per100Cm2 = c.weighted * perUnit;
    c.intervalLow = low * meanWeight * perUnit;
    c.intervalHigh = high * meanWeight * perUnit;
    c.complete = toMillimetres(c.from) >= options.detectionLimit;
}

std::vector<ClassCount> emptyClasses(Millimetres resolutionLimit) {
    std::vector<ClassCount> counts;
    for (const SizeClass& known : sizeClasses()) {
        if (known.to <= toMicrometres(resolutionLimit))
            continue;
        ClassCount c;
        c.sizeClass = known.letter;
        c.from = known.from;
        c.to = known.to;
        counts.push_back(std::move(c));
    }
    return counts;
}

} // namespace

double edgeWeight(const Particle& particle, const WindowSize& window) {
    if (particle.outline.empty())
        throw std::logic_error("the edge weight of a particle needs its outline");
    const auto [left, right] =
        std::minmax_element(particle.outline.begin(), particle.outline.end(),
                            [](const auto& a, const auto& b) { return a.x < b.x; });
    const auto [top, bottom] =
        std::minmax_element(particle.outline.begin(), particle.outline.end(),
                            [](const auto& a, const auto& b) { return a.y < b.y; });
    const double freeWidth = window.width.value() - (right->x - left->x);
    const double freeHeight = window.height.value() - (bottom->y - top->y);
    if (freeWidth <= 0.0 || freeHeight <= 0.0)
        throw std::logic_error("a particle wider than the window cannot lie inside it");
    return window.width.value() * window.height.value() / (freeWidth * freeHeight);
}

std::vector<ClassCount> countByClass(const std::vector<Particle>& particles,
                                     const WindowSize& window, const CountOptions& options) {
    if (!options.onWhiteCard && !(options.measuredArea.value() > 0.0))
        throw std::logic_error("counting on a frame needs the measured area");
    std::vector<ClassCount> counts = emptyClasses(options.resolutionLimit);
    for (const Particle& particle : particles) {
        if (particle.maxFeret.value < options.resolutionLimit ||
            (!options.onWhiteCard && particle.atEdge))
            continue;
        const double weight = options.onWhiteCard ? 1.0 : edgeWeight(particle, window);
        for (ClassCount& c : counts)
            addIfInClass(c, particle, weight);
    }
    for (ClassCount& c : counts)
        finish(c, options);
    return counts;
}

PiecesFound piecesFound(const DebrisFinding& finding) {
    const auto smaller = static_cast<std::size_t>(
        std::count_if(finding.particles.begin(), finding.particles.end(), [&](const Particle& p) {
            return p.maxFeret.value < finding.detectionLimit;
        }));
    return {finding.particles.size() - smaller, smaller};
}

void countAnew(DebrisFinding& finding, const WindowSize& window) {
    if (finding.shownOnly)
        return;
    const CountOptions options{finding.onWhiteCard, finding.measuredArea, finding.detectionLimit,
                               finding.resolutionLimit};
    finding.counts = countByClass(finding.particles, window, options);
    finding.code = cleanlinessCode(finding.counts, options);
}

std::string cleanlinessCode(const std::vector<ClassCount>& counts, const CountOptions& options) {
    std::vector<CodeEntry> entries;
    for (const ClassCount& c : counts)
        if (c.complete)
            entries.push_back({c.sizeClass, c.weighted});
    return options.onWhiteCard ? codePerComponent(entries)
                               : codePerArea(entries, options.measuredArea);
}

} // namespace swarfbook
