// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/flush_series.h"

#include <algorithm>
#include <map>

namespace swarfbook {
namespace {

bool isCounted(const DebrisFinding* tray) {
    return tray != nullptr && !tray->shownOnly;
}

Millimetres coarsestLimit(std::span<const PassSeen> passes) {
    Millimetres from;
    for (const PassSeen& pass : passes)
        if (isCounted(pass.tray))
            from = std::max(from, pass.tray->detectionLimit);
    return from;
}

/// Threads have no size limit, and a piece at the edge is in the window by a part.
bool counts(const Particle& piece, Millimetres from) {
    return piece.type != ParticleType::fibre && !piece.atEdge && piece.maxFeret.value >= from;
}

PassCount countOf(const PassSeen& pass, Millimetres from) {
    PassCount count;
    count.step = pass.step;
    count.counted = isCounted(pass.tray);
    if (!count.counted)
        return count;
    for (const Particle& piece : pass.tray->particles) {
        if (!counts(piece, from))
            continue;
        ++count.pieces;
        count.expected += piece.debrisProbability;
        count.area = count.area + piece.area.value;
        ++count.byType[static_cast<std::size_t>(piece.type)];
        if (piece.mayBeNone())
            ++count.doubtful;
        else if (!count.largest || piece.maxFeret.value > count.largest->value)
            count.largest = piece.maxFeret;
    }
    return count;
}

std::optional<Demagnetising> demagnetisingOf(const std::vector<PassCount>& passes) {
    for (std::size_t i = passes.size(); i-- > 1;) {
        const PassCount &pass = passes[i], &before = passes[i - 1];
        if (pass.step == FlushStep::demagnetise && pass.counted && before.counted &&
            before.step != FlushStep::demagnetise)
            return Demagnetising{i + 1, pass.pieces, before.pieces,
                                 comparePasses(pass.expected, before.expected)};
    }
    return std::nullopt;
}

std::map<std::string, long> byClass(const DebrisFinding& tray, Millimetres from) {
    std::map<std::string, long> classes;
    for (const Particle& piece : tray.particles)
        if (counts(piece, from))
            ++classes[piece.sizeClass];
    return classes;
}

std::vector<TrayNotClean> trayNotCleanOf(const DebrisFinding& pass, const DebrisFinding& tray,
                                         Millimetres from) {
    std::map<std::string, long> washedOut = byClass(pass, from);
    std::vector<std::string> letters;
    std::vector<long> pieces, blank;
    for (const auto& [letter, count] : byClass(tray, from)) {
        letters.push_back(letter);
        blank.push_back(count);
        pieces.push_back(washedOut[letter]);
    }
    std::vector<TrayNotClean> all;
    for (const std::size_t i : classesOverBlank(pieces, blank))
        all.push_back({letters[i], static_cast<int>(blank[i]), static_cast<int>(pieces[i])});
    return all;
}

} // namespace

FlushSeries flushSeries(std::span<const PassSeen> passes, const DebrisFinding* cleanTray) {
    FlushSeries series;
    series.from = coarsestLimit(passes);
    std::vector<std::optional<double>> expected;
    for (const PassSeen& pass : passes) {
        series.passes.push_back(countOf(pass, series.from));
        const PassCount& count = series.passes.back();
        expected.push_back(count.counted ? std::optional(count.expected) : std::nullopt);
    }
    series.decay = flushDecay(expected);
    series.demagnetising = demagnetisingOf(series.passes);
    const auto first = std::find_if(passes.begin(), passes.end(),
                                    [](const PassSeen& pass) { return isCounted(pass.tray); });
    if (isCounted(cleanTray) && first != passes.end())
        series.trayNotClean = trayNotCleanOf(*first->tray, *cleanTray, series.from);
    return series;
}

} // namespace swarfbook
