// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "judgement/suggestion_model.h"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// The coat of the magnet at one visit; of several photos of magnets the one with the most fuzz.
struct CoatAtVisit {
    std::int64_t visit = 0;
    std::string date;
    std::optional<Kilometres> odometer;
    std::optional<Kilometres> sinceClean;           ///< over which the coat was gathered
    Measured<Share> coveredShare;                   ///< of the face, 0 to 1
    Millimetres overhangMean;                       ///< past the rim
    std::optional<Millimetres> overhangUncertainty; ///< standard; older findings lack it
    std::string inWords;                            ///< the trade's word: "F2, covered"
    bool full = false;      ///< it gathers no more: there is at least so much
    std::string notLikeNow; ///< why it is not compared with the last visit's; "" where it is
};

/// The coats of a vehicle's magnets over its visits.
struct CoatHistory {
    std::vector<CoatAtVisit> visits; ///< those with a measured magnet, oldest first
    bool changed = false;            ///< surely, between the last two that can be compared
    std::string sentence; ///< what changed, or why nothing can be said; "" where no magnet was
                          ///< measured at the visit at hand
};

/// The coat at each visit, and how the visit at hand compares with the visit before it whose magnet
/// was alike. Magnets are alike if kind, size and number are the same as far as they were typed in
/// or measured (to a tenth of the size), none was added, and neither is full. A change is sure if
/// the shares differ by more than chance (95 %) or the mean overhangs by more than both chance
/// (95 %) and 0.6 mm, twice what one of them was seen to be off by in photos with truth; ours.
/// Checked: tests/judgement/coat_history_test.cpp.
CoatHistory coatHistory(const Evidence& evidence, const SuggestionModel& model);

/// "62 ± 4 %": the share with its 95 % half-width.
std::string coveredShareWords(const Measured<Share>& share);
/// "1.2 ± 0.6 mm": how far the fuzz reaches past the rim with its 95 % half-width, or "1.2 mm" of
/// an older finding, whose uncertainty is not known.
std::string overhangWords(Millimetres overhang, const std::optional<Millimetres>& uncertainty);
/// "62 ± 4 % of the face under fuzz, 1.2 ± 0.6 mm past the rim on average (F2, covered)"; of a full
/// magnet it begins with "at least".
std::string coatInFigures(const CoatAtVisit& coat);

/// The coat of each visit, a line each, with why it is not compared; empty unless there are two.
std::vector<std::string> coatLines(const CoatHistory& coats);

/// Members `visits` (as CoatAtVisit), `changed` and `sentence`, for JSON documents.
nlohmann::ordered_json toJson(const CoatHistory& coats);

} // namespace swarfbook
