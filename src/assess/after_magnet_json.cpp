// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/after_magnet_json.h"

#include "assess/document_values.h"
#include "assess/measurement_json.h"
#include "assess/rounded.h"
#include "assess/text_or_null.h"
#include "base/text.h"

#include <cmath>
#include <limits>

namespace swarfbook {
namespace {

constexpr int decimalsOfShare = 4;

nlohmann::ordered_json shareJson(const std::optional<MagneticShare>& share) {
    if (!share)
        return nullptr;
    return {{"share", rounded(share->share, decimalsOfShare)},
            {"interval_95",
             {rounded(share->low, decimalsOfShare), rounded(share->high, decimalsOfShare)}}};
}

nlohmann::ordered_json tallyJson(const SweepTally& tally) {
    return {{"gone", tally.gone},
            {"left", tally.left},
            {"not_known", tally.notKnown},
            {"share_by_count", shareJson(tally.byCount)},
            {"share_by_area", shareJson(tally.byArea)}};
}

nlohmann::ordered_json sweptClassJson(const SweepClass& c) {
    const bool openAbove = !std::isfinite(c.to.value());
    nlohmann::ordered_json one{{"size_class", c.sizeClass},
                               {"from_um", rounded(c.from, 1)},
                               {"to_um", openAbove ? nlohmann::ordered_json(nullptr)
                                                   : nlohmann::ordered_json(rounded(c.to, 1))}};
    one.update(tallyJson(c.pieces));
    return one;
}

std::optional<MagneticShare> shareFrom(const nlohmann::json& from) {
    if (from.is_null())
        return std::nullopt;
    const nlohmann::json& interval = from.at("interval_95");
    return MagneticShare{document::share(from.at("share")), document::share(interval.at(0)),
                         document::share(interval.at(1))};
}

SweepTally tallyFrom(const nlohmann::json& from) {
    SweepTally tally;
    tally.gone = document::whole(from.at("gone"));
    tally.left = document::whole(from.at("left"));
    tally.notKnown = document::whole(from.at("not_known"));
    tally.byCount = shareFrom(from.at("share_by_count"));
    tally.byArea = shareFrom(from.at("share_by_area"));
    return tally;
}

MagnetSweep sweepFrom(const nlohmann::json& from) {
    MagnetSweep sweep;
    sweep.judgedFrom = Millimetres(document::amount(from, "judged_from_mm"));
    sweep.limitByPair = from.at("limit_by").get<std::string>() == "pair";
    sweep.placeByPieces = from.at("place_by").get<std::string>() == "pieces";
    sweep.motion = {Degrees(document::number(from, "turn_deg")),
                    {document::checkedNumber(from.at("shift_mm").at(0)),
                     document::checkedNumber(from.at("shift_mm").at(1))}};
    sweep.smaller = document::whole(from.at("smaller"));
    sweep.moved = document::whole(from.at("moved"));
    sweep.gained = document::whole(from.at("gained"));
    sweep.pieces = tallyFrom(from.at("pieces"));
    sweep.bright = tallyFrom(from.at("bright_metal"));
    for (const nlohmann::json& c : from.at("by_size_class"))
        sweep.classes.push_back(
            {c.at("size_class").get<std::string>(), Micrometres(document::amount(c, "from_um")),
             Micrometres(c.at("to_um").is_null() ? std::numeric_limits<double>::infinity()
                                                 : document::amount(c, "to_um")),
             tallyFrom(c)});
    return sweep;
}

} // namespace

nlohmann::ordered_json toJson(const AfterMagnet& after) {
    nlohmann::ordered_json document{{"file", validUtf8(after.file)},
                                    {"sha256", textOrNull(after.sha256)},
                                    {"used", after.sweep.has_value()},
                                    {"why_not", textOrNull(after.whyNot)}};
    if (!after.sweep)
        return document;
    const MagnetSweep& sweep = *after.sweep;
    document["judged_from_mm"] = rounded(sweep.judgedFrom, lengthDecimals);
    document["limit_by"] = sweep.limitByPair ? "pair" : "size limits";
    document["place_by"] = sweep.placeByPieces ? "pieces" : "card";
    document["turn_deg"] = rounded(sweep.motion.turn, 3);
    document["shift_mm"] = {rounded(sweep.motion.shift.x, lengthDecimals),
                            rounded(sweep.motion.shift.y, lengthDecimals)};
    document["smaller"] = sweep.smaller;
    document["moved"] = sweep.moved;
    document["gained"] = sweep.gained;
    document["pieces"] = tallyJson(sweep.pieces);
    document["bright_metal"] = tallyJson(sweep.bright);
    document["by_size_class"] = nlohmann::ordered_json::array();
    for (const SweepClass& c : sweep.classes)
        document["by_size_class"].push_back(sweptClassJson(c));
    return document;
}

AfterMagnet afterMagnetFromJson(const nlohmann::json& document) {
    AfterMagnet after;
    after.file = document.at("file").get<std::string>();
    after.sha256 = document::textOrEmpty(document, "sha256");
    after.whyNot = document::textOrEmpty(document, "why_not");
    if (document.at("used").get<bool>())
        after.sweep = sweepFrom(document);
    return after;
}

} // namespace swarfbook
