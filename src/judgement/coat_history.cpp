// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/coat_history.h"

#include "base/shown_units.h"
#include "judgement/coat_of_magnet.h"
#include "judgement/full_magnet.h"
#include "judgement/visit_samples.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace swarfbook {
namespace {

constexpr double surely = 1.959964; // standard uncertainties: two-sided 95 %
constexpr double overhangDiffers = 0.6;
constexpr double sizeDiffers = 0.1; // of the larger: the height that is estimated turns 3 % of it

const MagnetFinding* mostFuzz(const VisitEvidence& visit) {
    const MagnetFinding* most = nullptr;
    const auto amount = [](const MagnetFinding& magnet) {
        return std::pair(magnet.coveredShare.value.value(), magnet.overhangMean.value());
    };
    for (const DebrisSample& sample : visit.samples)
        if (sample.magnet && (most == nullptr || amount(*sample.magnet) > amount(*most)))
            most = &*sample.magnet;
    return most;
}

/// The measured magnet in words: "ring of 37 mm".
std::string measuredWords(const MagnetFinding& magnet) {
    std::string words(magnetShapeName(magnet.shape));
    if (!magnet.size.empty())
        words += fmt::format(" of {:.0f} mm", magnet.size.front().value());
    return words;
}

bool looksOtherwise(const MagnetFinding& one, const MagnetFinding& other) {
    if (one.shape != other.shape)
        return true;
    if (one.size.empty() || other.size.empty())
        return false;
    const double a = one.size.front().value(), b = other.size.front().value();
    return std::abs(a - b) > sizeDiffers * std::max(a, b);
}

/// A visit with the magnet that counts.
struct Coated {
    const VisitEvidence& visit;
    const MagnetFinding& magnet;
};

std::string whyNotAlike(const Coated& then, const Coated& now, const SuggestionModel& model) {
    if (std::string others = otherMagnets(then.visit, now.visit); !others.empty())
        return others;
    if (looksOtherwise(then.magnet, now.magnet))
        return fmt::format("Then the photo showed a {}, now a {}: the fuzz of before and now "
                           "cannot be compared.",
                           measuredWords(then.magnet), measuredWords(now.magnet));
    if (isFull(then.magnet, model.fullMagnet))
        return "The magnet was full then and gathered no more, so there may have been more than it "
               "held.";
    return "";
}

CoatAtVisit coatAt(const Coated& of, const SuggestionModel& model) {
    CoatAtVisit coat;
    coat.visit = of.visit.visitId;
    coat.date = of.visit.date;
    coat.odometer = of.visit.odometer;
    coat.sinceClean = sinceClean(of.visit);
    coat.coveredShare = of.magnet.coveredShare;
    coat.overhangMean = of.magnet.overhangMean;
    coat.overhangUncertainty = of.magnet.overhangUncertainty;
    coat.inWords = coatInTradeWords(of.magnet, model);
    coat.full = isFull(of.magnet, model.fullMagnet);
    return coat;
}

std::string gatheredOver(const CoatAtVisit& coat) {
    return coat.sinceClean
               ? fmt::format("gathered over {}", distanceWords(coat.sinceClean->value()))
               : std::string("over a distance that was not said");
}

/// More (1), less (-1) or no sure difference (0).
int sureChange(const CoatAtVisit& then, const CoatAtVisit& now) {
    const double shares = (now.coveredShare.value - then.coveredShare.value).value();
    const double chance = surely * std::hypot(now.coveredShare.standardUncertainty.value(),
                                              then.coveredShare.standardUncertainty.value());
    const double overhangs = (now.overhangMean - then.overhangMean).value();
    const bool byShare = std::abs(shares) > chance;
    const auto u = [](const CoatAtVisit& coat) {
        return coat.overhangUncertainty.value_or(Millimetres(0.0)).value();
    };
    const bool byOverhang =
        std::abs(overhangs) > std::max(overhangDiffers, surely * std::hypot(u(now), u(then)));
    if (byShare && byOverhang && (shares > 0.0) != (overhangs > 0.0))
        return 0;
    if (byShare)
        return shares > 0.0 ? 1 : -1;
    return !byOverhang ? 0 : overhangs > 0.0 ? 1 : -1;
}

std::string changeSentence(const CoatAtVisit& then, const CoatAtVisit& now, int change) {
    const char* const more = change > 0   ? "There is more fuzz on the magnet than"
                             : change < 0 ? "There is less fuzz on the magnet than"
                                          : "The fuzz on the magnet does not differ surely from";
    return fmt::format("{} on {}: then {}, {}; now {}, {}.", more, dateWords(then.date),
                       coatInFigures(then), gatheredOver(then), coatInFigures(now),
                       gatheredOver(now));
}

} // namespace

std::string coveredShareWords(const Measured<Share>& share) {
    return fmt::format("{:.0f} \u00b1 {:.0f} %", 100.0 * share.value.value(),
                       std::max(1.0, 100.0 * surely * share.standardUncertainty.value()));
}

std::string overhangWords(Millimetres overhang, const std::optional<Millimetres>& uncertainty) {
    if (!uncertainty)
        return fmt::format("{:.1f} mm", overhang.value());
    return fmt::format("{:.1f} \u00b1 {:.1f} mm", overhang.value(),
                       std::max(0.1, surely * uncertainty->value()));
}

std::string coatInFigures(const CoatAtVisit& coat) {
    return fmt::format("{}{} of the face under fuzz, {} past the rim on average ({})",
                       coat.full ? "at least " : "", coveredShareWords(coat.coveredShare),
                       overhangWords(coat.overhangMean, coat.overhangUncertainty), coat.inWords);
}

std::vector<std::string> coatLines(const CoatHistory& coats) {
    std::vector<std::string> lines;
    if (coats.visits.size() < 2)
        return lines;
    for (const CoatAtVisit& coat : coats.visits)
        lines.push_back(fmt::format(
            "Visit {}, {}{}: {}{}", coat.visit, dateWords(coat.date),
            coat.odometer ? ", " + distanceWords(coat.odometer->value()) : "", coatInFigures(coat),
            coat.notLikeNow.empty() ? "." : ". Not compared: " + coat.notLikeNow));
    return lines;
}

nlohmann::ordered_json toJson(const CoatHistory& coats) {
    using Json = nlohmann::ordered_json;
    const auto shown = [](double value) { return std::round(value * 1000.0) / 1000.0; };
    const auto kilometres = [](const std::optional<Kilometres>& km) {
        return km ? Json(km->value()) : Json(nullptr);
    };
    Json visits = Json::array();
    for (const CoatAtVisit& coat : coats.visits)
        visits.push_back(
            {{"visit", coat.visit},
             {"date", coat.date},
             {"odometer_km", kilometres(coat.odometer)},
             {"since_clean_km", kilometres(coat.sinceClean)},
             {"covered_share", shown(coat.coveredShare.value.value())},
             {"covered_share_u", shown(coat.coveredShare.standardUncertainty.value())},
             {"overhang_mean_mm", shown(coat.overhangMean.value())},
             {"overhang_u_mm", coat.overhangUncertainty
                                   ? Json(shown(coat.overhangUncertainty->value()))
                                   : Json(nullptr)},
             {"in_words", coat.inWords},
             {"full", coat.full},
             {"not_compared", coat.notLikeNow.empty() ? Json(nullptr) : Json(coat.notLikeNow)}});
    return {{"visits", std::move(visits)},
            {"changed", coats.changed},
            {"sentence", coats.sentence.empty() ? Json(nullptr) : Json(coats.sentence)}};
}

CoatHistory coatHistory(const Evidence& evidence, const SuggestionModel& model) {
    CoatHistory history;
    const MagnetFinding* today = mostFuzz(evidence.now);
    for (const VisitEvidence& visit : evidence.earlier)
        if (const MagnetFinding* magnet = mostFuzz(visit)) {
            history.visits.push_back(coatAt({visit, *magnet}, model));
            if (today != nullptr)
                history.visits.back().notLikeNow =
                    whyNotAlike({visit, *magnet}, {evidence.now, *today}, model);
        }
    if (today == nullptr)
        return history;
    const CoatAtVisit now = coatAt({evidence.now, *today}, model);
    const auto before = std::find_if(history.visits.rbegin(), history.visits.rend(),
                                     [](const CoatAtVisit& v) { return v.notLikeNow.empty(); });
    if (history.visits.empty())
        history.sentence = "No earlier visit has a measured magnet, so its fuzz is not compared.";
    else if (now.full)
        history.sentence = fullMagnetSentence();
    else if (before == history.visits.rend())
        history.sentence = history.visits.back().notLikeNow;
    else {
        const int change = sureChange(*before, now);
        history.changed = change != 0;
        history.sentence = changeSentence(*before, now, change);
    }
    history.visits.push_back(now);
    return history;
}

} // namespace swarfbook
