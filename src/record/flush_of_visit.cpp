// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/flush_of_visit.h"

#include "assess/measurement_json.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <exception>

namespace swarfbook {
namespace {

/// What lay in the tray after a pass; null where the photo was not measured.
const DebrisFinding* inTray(const StoredPass& pass, const std::vector<StoredPhoto>& photos) {
    const auto photo = std::find_if(photos.begin(), photos.end(),
                                    [&](const StoredPhoto& one) { return one.id == pass.photoId; });
    if (photo == photos.end() || photo->measurement.refusal || !photo->measurement.debris)
        return nullptr;
    return &*photo->measurement.debris;
}

} // namespace

FlushOfPart countedFlush(const StoredFlush& flush, const std::vector<StoredPhoto>& photos) {
    std::vector<PassSeen> passes;
    for (const StoredPass& pass : flush.passes)
        passes.push_back({pass.step, inTray(pass, photos)});
    const bool trayKnown = flush.tray && !flush.tray->refusal && flush.tray->debris;
    return {flush.id, flush.part, !flush.traySha256.empty(),
            flushSeries(passes, trayKnown ? &*flush.tray->debris : nullptr)};
}

std::vector<FlushOfPart> flushesOfVisit(const Book& book, std::int64_t visitId,
                                        const std::vector<StoredPhoto>& photos) {
    std::vector<FlushOfPart> all;
    for (const StoredFlush& flush : book.flushes(visitId))
        if (!flush.passes.empty())
            all.push_back(countedFlush(flush, photos));
    return all;
}

std::optional<Measurement> cleanTrayFromText(std::string_view stored) {
    try {
        return measurementFromJson(nlohmann::json::parse(stored));
    } catch (const std::exception&) { // whatever is wrong with it, it is not used
        return std::nullopt;
    }
}

} // namespace swarfbook
