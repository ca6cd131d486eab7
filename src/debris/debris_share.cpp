// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/debris_share.h"

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double asIfMore = 20.0; // candidates of the learnt share; ours, scenes never seen
constexpr int mostSteps = 200;
constexpr double settled = 1e-6;
constexpr double nearCertain = 1e-6; // no probability is taken for more certain than this

/// Probability of debris for a candidate whose evidence (likelihood ratio) is known.
double atShare(double evidence, double share) {
    return share * evidence / (share * evidence + 1.0 - share);
}

double shareOf(const std::vector<double>& evidence, double learntShare) {
    double share = learntShare;
    for (int step = 0; step < mostSteps; ++step) {
        double sum = asIfMore * learntShare;
        for (const double e : evidence)
            sum += atShare(e, share);
        const double next = sum / (static_cast<double>(evidence.size()) + asIfMore);
        const bool done = std::abs(next - share) < settled;
        share = next;
        if (done)
            break;
    }
    return std::min(share, learntShare);
}

} // namespace

std::vector<double> atOwnShare(const std::vector<double>& probabilities, double learntShare) {
    std::vector<double> evidence;
    for (const double given : probabilities) {
        const double p = std::clamp(given, nearCertain, 1.0 - nearCertain);
        evidence.push_back(p / (1.0 - p) * (1.0 - learntShare) / learntShare);
    }
    const double share = shareOf(evidence, learntShare);
    std::vector<double> out;
    for (const double e : evidence)
        out.push_back(atShare(e, share));
    return out;
}

} // namespace swarfbook
