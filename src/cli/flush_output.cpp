// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/flush_output.h"

#include "assess/text_or_null.h"
#include "cli/book_output.h"
#include "cli/text_table.h"
#include "judgement/flush_words.h"
#include "record/flush_of_visit.h"

#include <fmt/format.h>

namespace swarfbook::cli {
namespace {

using nlohmann::ordered_json;

std::vector<std::string> passRow(const FlushSeries& series, std::size_t i, std::int64_t photo) {
    const PassCount& pass = series.passes[i];
    const auto& ratio = series.decay.ratios[i];
    std::vector<std::string> row{fmt::format("{}", i + 1), std::string(flushStepName(pass.step)),
                                 fmt::format("{}", photo)};
    if (!pass.counted) {
        row.emplace_back("not counted");
        return row;
    }
    row.push_back(pass.doubtful > 0 ? fmt::format("{} ({} doubtful)", pass.pieces, pass.doubtful)
                                    : fmt::format("{}", pass.pieces));
    row.push_back(fmt::format("{:.1f}", pass.area.value()));
    row.push_back(largestOfPass(pass));
    for (const ParticleType type : flushTypes)
        row.push_back(fmt::format("{}", pass.byType[static_cast<std::size_t>(type)]));
    row.push_back(ratio ? decayWords(*ratio) : "-");
    return row;
}

std::string passTable(const StoredFlush& flush, const FlushSeries& series) {
    std::vector<std::vector<std::string>> rows{
        {"pass", "step", "photo", "pieces", "area, mm2", "largest, mm"}};
    for (const ParticleType type : flushTypes)
        rows.front().emplace_back(typeWord(type));
    rows.front().emplace_back("last / sum");
    for (std::size_t i = 0; i < series.passes.size(); ++i) {
        rows.push_back(passRow(series, i, flush.passes[i].photoId));
        rows.back().resize(rows.front().size());
    }
    return textTable(std::move(rows));
}

ordered_json jsonOf(const StoredFlush& flush, const FlushOfPart& counted) {
    ordered_json one{{"number", flush.id},
                     {"part", flush.part},
                     {"started_at", flush.startedAt},
                     {"clean_tray_sha256", textOrNull(flush.traySha256)}};
    one.update(flushJson(counted));
    for (std::size_t i = 0; i < flush.passes.size(); ++i)
        one["passes"][i]["photo"] = flush.passes[i].photoId;
    return one;
}

std::string textOfFlush(const StoredFlush& flush, const FlushOfPart& counted) {
    std::string text = fmt::format("flush {} of {}, visit {}", flush.id, flush.part, flush.visitId);
    if (!flush.passes.empty())
        text += fmt::format(", counted from {:.2f} mm up, threads left out\n{}",
                            counted.series.from.value(), passTable(flush, counted.series));
    else
        text += "\n";
    for (const std::string& sentence : flushSentences(counted))
        text += sentence + "\n";
    return text;
}

} // namespace

std::string flushText(const Book& book, const StoredFlush& flush) {
    return textOfFlush(flush, countedFlush(flush, book.photos(flush.visitId)));
}

std::string flushesText(const Book& book, std::int64_t visitId) {
    const std::vector<StoredPhoto> photos = book.photos(visitId);
    std::string text;
    for (const StoredFlush& flush : book.flushes(visitId))
        text += (text.empty() ? "" : "\n") + textOfFlush(flush, countedFlush(flush, photos));
    if (text.empty())
        text = fmt::format("Visit {0} has no flush yet. Begin one: swarfbook flush start --visit "
                           "{0} --part \"solenoid A\".\n",
                           visitId);
    return text + withdrawnLines("flush", book.withdrawnFlushes(visitId));
}

ordered_json flushesJson(const Book& book, std::int64_t visitId) {
    const std::vector<StoredPhoto> photos = book.photos(visitId);
    ordered_json flushes = ordered_json::array();
    for (const StoredFlush& flush : book.flushes(visitId))
        flushes.push_back(jsonOf(flush, countedFlush(flush, photos)));
    return {{"format", "swarfbook flush 1"}, {"visit", visitId}, {"flushes", flushes}};
}

} // namespace swarfbook::cli
