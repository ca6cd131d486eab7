// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/flush_decay.h"

#include "base/share_interval.h"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <string>

namespace swarfbook {
namespace {

constexpr std::array<std::string_view, 4> stepNames{"wash", "demagnetise", "air", "hot"};
constexpr double cleanFrom = 0.1;          // ISO 16232
constexpr std::size_t passesToReachIt = 6; // ISO 16232

void requireCount(double count) {
    if (!(count >= 0.0))
        throw std::logic_error("a pass cannot wash out fewer pieces than none");
}

DecayRatio ratioOf(double last, double sum) {
    const auto limits = shareInterval95(last, sum);
    return {last / sum, limits[0], limits[1]};
}

FlushVerdict verdictOf(const FlushDecay& decay) {
    if (!decay.ratios.back())
        return FlushVerdict::nothingCame;
    const std::size_t passes = decay.ratios.size();
    if (!decay.metAt || *decay.metAt > passesToReachIt)
        return passes < passesToReachIt ? FlushVerdict::goOn : FlushVerdict::changeMethod;
    return decay.ratios.back()->ratio <= cleanFrom ? FlushVerdict::clean : FlushVerdict::goOn;
}

} // namespace

std::string_view flushStepName(FlushStep step) {
    return stepNames.at(static_cast<std::size_t>(step));
}

FlushStep flushStepFromName(std::string_view name) {
    const auto found = std::find(stepNames.begin(), stepNames.end(), name);
    if (found == stepNames.end())
        throw std::invalid_argument("no step of a flush: " + std::string(name));
    return static_cast<FlushStep>(found - stepNames.begin());
}

FlushDecay flushDecay(std::span<const std::optional<double>> counts) {
    FlushDecay decay;
    double sum = 0.0;
    bool allCounted = !counts.empty();
    for (const std::optional<double>& count : counts) {
        allCounted = allCounted && count.has_value();
        requireCount(count.value_or(0.0));
        sum += count.value_or(0.0);
        decay.ratios.emplace_back();
        if (!allCounted || sum == 0.0)
            continue;
        decay.ratios.back() = ratioOf(*count, sum);
        if (!decay.metAt && decay.ratios.back()->ratio <= cleanFrom)
            decay.metAt = decay.ratios.size();
    }
    if (allCounted)
        decay.verdict = verdictOf(decay);
    return decay;
}

PassAgainstPass comparePasses(double pass, double before) {
    requireCount(pass);
    requireCount(before);
    if (pass + before == 0.0)
        return PassAgainstPass::notToldApart;
    const auto limits = shareInterval95(pass, pass + before);
    if (limits[0] > 0.5)
        return PassAgainstPass::more;
    return limits[1] < 0.5 ? PassAgainstPass::less : PassAgainstPass::notToldApart;
}

std::vector<std::size_t> classesOverBlank(std::span<const long> pass, std::span<const long> tray) {
    if (pass.size() != tray.size())
        throw std::logic_error("a clean tray is compared with a pass class by class");
    std::vector<std::size_t> over;
    for (std::size_t i = 0; i < pass.size(); ++i)
        if (10 * tray[i] > pass[i])
            over.push_back(i);
    return over;
}

} // namespace swarfbook
