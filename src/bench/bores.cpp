// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/bores.h"

#include "bench/observation_fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

/// The entry with this name holds the stand's own readings of the session.
constexpr std::string_view standName = "stand";

double inHg(Kilopascals p) {
    return p.value() / kpaPerInHg;
}

/// What is wrong with the stand by this bore's own readings; "" if no fault is known.
std::string standFault(const BoreReadings& b, const BoreLimits& limits) {
    if (b.open && b.open->value > limits.standOpen)
        return fmt::format("with the hose open the stand reads {:.0f} inHg instead of near 0",
                           inHg(b.open->value));
    if (b.blocked && b.blocked->value < limits.standUsable)
        return fmt::format("with the hose blocked the stand reaches only {:.0f} inHg",
                           inHg(b.blocked->value));
    if (b.jet && b.jetUsual &&
        std::abs((b.jet->value - b.jetUsual->value).value()) > limits.jetDrift.value())
        return fmt::format("the fixed jet reads {:.1f} inHg instead of its usual {:.1f}",
                           inHg(b.jet->value), inHg(b.jetUsual->value));
    return {};
}

/// The reading as it would be on a stand for which the limits were written.
Kilopascals onNominalStand(const BoreReadings& b, Kilopascals reading, const BoreLimits& limits) {
    if (!b.blocked || b.blocked->value >= limits.standBlocked)
        return reading;
    const Kilopascals open = b.open ? b.open->value : Kilopascals(0.0);
    const auto ratio = standRatio(reading, open, b.blocked->value);
    return ratio ? limits.nominalBlocked * *ratio : reading;
}

BoreState stateOf(Kilopascals reading, const BoreLimits& limits) {
    if (reading >= limits.good)
        return BoreState::good;
    if (reading >= limits.pass)
        return BoreState::pass;
    if (reading >= limits.marginal)
        return BoreState::marginal;
    return reading >= limits.heavyLeak ? BoreState::low : BoreState::heavyLeak;
}

std::string_view stateWords(BoreState state) {
    switch (state) {
    case BoreState::good:
        return "tight";
    case BoreState::pass:
        return "tight enough for most bores";
    case BoreState::marginal:
        return "marginal";
    case BoreState::low:
        return "leaking";
    case BoreState::heavyLeak:
        return "leaking heavily";
    case BoreState::untested:
        break;
    }
    return "not tested";
}

void judgeNewValve(const BoreReadings& b, const BoreLimits& limits, BoreVerdict& verdict) {
    if (!b.newValve || verdict.state < BoreState::marginal)
        return;
    verdict.newValveRestores = onNominalStand(b, b.newValve->value, limits) >= limits.pass;
    verdict.newValveFails = !verdict.newValveRestores;
    verdict.sentence += verdict.newValveRestores
                            ? fmt::format(" A new valve brings it to {:.3g} inHg: the valve is "
                                          "worn, the bore is sound.",
                                          inHg(b.newValve->value))
                            : " A new valve does not cure it: the bore itself is worn.";
}

BoreVerdict judge(const BoreReadings& b, const BoreLimits& limits) {
    BoreVerdict verdict;
    verdict.name = b.name;
    verdict.concerns = b.concerns;
    verdict.scored = b.scored == true;
    verdict.reamedBefore = b.reamedBefore == true;
    verdict.fizzes = b.wetAir == WetAir::fizzes;
    if (b.vacuum)
        verdict.reading = b.vacuum->value;
    if (b.vacuum && b.open && b.blocked)
        verdict.standRatio = standRatio(b.vacuum->value, b.open->value, b.blocked->value);
    if (!b.vacuum || !standFault(b, limits).empty()) {
        verdict.sentence = b.vacuum ? fmt::format("Bore {}: the reading is not believed.", b.name)
                           : verdict.fizzes
                               ? fmt::format("Bore {}: air fizzes past a land; no vacuum reading "
                                             "says how much.",
                                             b.name)
                               : fmt::format("Bore {} has no vacuum reading.", b.name);
        return verdict;
    }
    verdict.state = stateOf(onNominalStand(b, b.vacuum->value, limits), limits);
    verdict.sentence = fmt::format("Bore {} holds {:.3g} inHg: {}.", b.name, inHg(b.vacuum->value),
                                   stateWords(verdict.state));
    if (b.goodUnit && b.vacuum->value >= b.goodUnit->value - limits.alikeSpread) {
        verdict.state = BoreState::good;
        verdict.sentence = fmt::format("Bore {} holds {:.3g} inHg, as a known good unit does.",
                                       b.name, inHg(b.vacuum->value));
    }
    if (verdict.fizzes)
        verdict.sentence += " Air fizzes past a land.";
    judgeNewValve(b, limits, verdict);
    return verdict;
}

bool lowAlike(const std::vector<BoreVerdict>& bores, const BoreLimits& limits) {
    std::vector<double> readings;
    for (const BoreVerdict& b : bores) {
        if (b.state == BoreState::untested)
            continue;
        if (b.state < BoreState::marginal || b.newValveRestores)
            return false;
        readings.push_back(b.reading->value());
    }
    if (readings.size() < 3)
        return false;
    const auto [low, high] = std::minmax_element(readings.begin(), readings.end());
    return *high - *low <= limits.alikeSpread.value();
}

/// Every bore with a reading was read twice, as is asked for if all read low alike.
bool allReadAgain(const std::vector<BoreVerdict>& bores,
                  const std::vector<BoreReadings>& readings) {
    return std::all_of(bores.begin(), bores.end(), [&](const BoreVerdict& bore) {
        return bore.state == BoreState::untested ||
               std::count_if(readings.begin(), readings.end(), [&](const BoreReadings& one) {
                   return one.name == bore.name && one.vacuum;
               }) > 1;
    });
}

} // namespace

std::optional<double> standRatio(Kilopascals reading, Kilopascals open, Kilopascals blocked) {
    if (!(blocked > open))
        return std::nullopt;
    return (reading - open) / (blocked - open);
}

std::vector<BoreReadings> mergedBores(const std::vector<BoreReadings>& readings) {
    return fields::mergedByName(readings);
}

BoreTable judgeBores(const std::vector<BoreReadings>& readings, const BoreLimits& limits) {
    BoreTable table;
    std::vector<BoreReadings> all = mergedBores(readings);
    const auto stand =
        std::find_if(all.begin(), all.end(), [](const auto& b) { return b.name == standName; });
    BoreReadings session;
    if (stand != all.end()) {
        session = *stand;
        all.erase(stand);
    }
    for (const BoreReadings& own : all) {
        BoreReadings b = session;
        fields::addLater(b, own);
        const std::string fault = standFault(b, limits);
        if (b.vacuum && !fault.empty()) {
            table.standDoubted = true;
            table.standSentence = "The vacuum readings are not believed: " + fault + ".";
        }
        table.each.push_back(judge(b, limits));
    }
    table.allLowAlike = lowAlike(table.each, limits) && !allReadAgain(table.each, readings);
    if (table.allLowAlike)
        table.standSentence = "Every bore reads low by about the same amount, which points at the "
                              "stand, its hose or its plate rather than at all bores at once.";
    return table;
}

} // namespace swarfbook
