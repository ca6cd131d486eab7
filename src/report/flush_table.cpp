// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/flush_table.h"

#include "judgement/flush_words.h"
#include "report/report_words.h"
#include "report/type_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

constexpr int longestBar = 30; // signs

int mostInAPass(const FlushSeries& series) {
    int most = 1;
    for (const PassCount& pass : series.passes)
        most = std::max(most, pass.pieces);
    return most;
}

std::string barOf(double ofMost) {
    const auto signs = std::lround(double(longestBar) * ofMost);
    return std::string(static_cast<std::size_t>(std::max(signs, ofMost > 0.0 ? 1L : 0L)), '#');
}

std::string piecesOfPass(const PassCount& pass) {
    std::string words = fmt::format("{} piece{}", pass.pieces, pass.pieces == 1 ? "" : "s");
    if (pass.doubtful > 0)
        words += fmt::format(" ({} doubtful)", pass.doubtful);
    words += fmt::format(", {:.1f} mm² together", pass.area.value());
    if (pass.largest)
        words += fmt::format(", the largest {} mm", largestOfPass(pass));
    for (const ParticleType type : flushTypes)
        if (const int n = pass.byType[static_cast<std::size_t>(type)]; n > 0)
            words += fmt::format(", {} {}", typeWord(type), n);
    return words;
}

} // namespace

std::string flushHead(const FlushOfPart& flush) {
    return fmt::format("Pieces of {:.2f} mm and more in the tray after each pass; threads and "
                       "pieces that the card's window cuts are left out.",
                       flush.series.from.value());
}

std::vector<PassInWords> passesInWords(const FlushOfPart& flush) {
    const int most = mostInAPass(flush.series);
    std::vector<PassInWords> all;
    for (std::size_t i = 0; i < flush.series.passes.size(); ++i) {
        const PassCount& pass = flush.series.passes[i];
        PassInWords words{fmt::format("Pass {}, {}", i + 1, flushStepName(pass.step)),
                          "not counted"};
        if (pass.counted) {
            words.found = piecesOfPass(pass);
            words.ofMost = static_cast<double>(pass.pieces) / most;
            if (const auto& ratio = flush.series.decay.ratios[i])
                words.found += "; last / sum " + decayWords(*ratio);
        }
        all.push_back(std::move(words));
    }
    return all;
}

std::vector<std::string> flushBars(const FlushOfPart& flush) {
    std::vector<std::string> bars;
    for (const PassInWords& one : passesInWords(flush)) {
        const std::string bar = barOf(one.ofMost);
        bars.push_back(one.pass + ": " + bar + (bar.empty() ? "" : " ") + one.found);
    }
    return bars;
}

Table flushTable(const FlushOfPart& flush) {
    // shares are points on A4: no number and no word is broken
    Table table{{{"Pass", 63.0},
                 {"Pieces", 62.0, Align::right},
                 {"Area, mm²", 32.0, Align::right},
                 {"Largest, mm", 64.0, Align::right}},
                {}};
    for (const ParticleType type : flushTypes)
        table.columns.push_back({std::string(markOf(type).words),
                                 type == ParticleType::unidentified ? 64.0 : 37.0, Align::right});
    table.columns.push_back({"Last / sum (95\u00a0%)", 68.0, Align::right});
    for (std::size_t i = 0; i < flush.series.passes.size(); ++i) {
        const PassCount& pass = flush.series.passes[i];
        const auto& ratio = flush.series.decay.ratios[i];
        std::vector<std::string> row{fmt::format("{} {}", i + 1, flushStepName(pass.step)),
                                     pass.counted ? fmt::format("{}", pass.pieces) : "not counted"};
        if (pass.doubtful > 0)
            row.back() += fmt::format(" ({} doubtful)", pass.doubtful);
        row.push_back(pass.counted ? fmt::format("{:.1f}", pass.area.value()) : "");
        row.push_back(pass.counted ? largestOfPass(pass) : "");
        for (const ParticleType type : flushTypes)
            row.push_back(
                pass.counted ? fmt::format("{}", pass.byType[static_cast<std::size_t>(type)]) : "");
        row.push_back(ratio ? decayWords(*ratio) : "");
        table.rows.push_back(std::move(row));
    }
    return table;
}

} // namespace swarfbook
