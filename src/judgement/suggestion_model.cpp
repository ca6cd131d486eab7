// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/suggestion_model.h"

#include "base/data_file.h"
#include "base/sha256.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <initializer_list>
#include <span>
#include <stdexcept>

namespace swarfbook {
namespace {

using nlohmann::json;

SuggestionModel::Limit readLimit(const std::string& name, const json& from) {
    SuggestionModel::Limit limit{from.at("value").get<double>(), from.at("unit").get<std::string>(),
                                 from.at("source").get<std::string>()};
    if (limit.source.empty())
        throw std::invalid_argument(fmt::format("\"{}\" has no source beside it", name));
    return limit;
}

SuggestionModel::Rule readRule(const SuggestionModel& model, const json& from) {
    SuggestionModel::Rule rule{from.at("words").get<std::string>(),
                               from.at("source").get<std::string>(),
                               from.value("limits", std::vector<std::string>{}),
                               from.value("reads", std::vector<std::string>{})};
    for (const std::string& name : rule.limits)
        static_cast<void>(model.limit(name));
    const auto kinds = observationKinds();
    for (const std::string& kind : rule.reads)
        if (kind != "photo" && std::find(kinds.begin(), kinds.end(), kind) == kinds.end())
            throw std::invalid_argument(fmt::format("\"{}\" is not a kind of observation", kind));
    return rule;
}

Kilopascals fromInHg(const SuggestionModel& model, const char* name) {
    return Kilopascals(model.limit(name).value * kpaPerInHg);
}

void needRising(const SuggestionModel& model, std::initializer_list<const char*> names) {
    const char* before = nullptr;
    for (const char* name : names) {
        if (before != nullptr && !(model.limit(name).value > model.limit(before).value))
            throw std::invalid_argument(fmt::format("\"{}\" must be above \"{}\"", name, before));
        before = name;
    }
}

void fillDebris(SuggestionModel& m) {
    needRising(m, {"size_s1_from", "size_s2_from", "size_s3_from", "size_s4_from"});
    needRising(m, {"coat_f1_share", "coat_f2_share", "coat_full_share"});
    needRising(m, {"coat_f3_overhang", "coat_f4_overhang"});
    m.s1From = Millimetres(m.limit("size_s1_from").value);
    m.s2From = Millimetres(m.limit("size_s2_from").value);
    m.s3From = Millimetres(m.limit("size_s3_from").value);
    m.s4From = Millimetres(m.limit("size_s4_from").value);
    m.sureOfType = m.limit("sure_of_type").value;
    m.plentyFrom = static_cast<long>(m.limit("plenty_from").value);
    m.beyondDoubt = m.limit("beyond_doubt").value;
    m.coatF1Share = m.limit("coat_f1_share").value;
    m.coatF2Share = m.limit("coat_f2_share").value;
    m.coatF3Overhang = Millimetres(m.limit("coat_f3_overhang").value);
    m.coatF4Overhang = Millimetres(m.limit("coat_f4_overhang").value);
    m.fullMagnet = {m.limit("coat_full_share").value, m.coatF3Overhang};
}

void fillBench(SuggestionModel& m) {
    needRising(m, {"bore_heavy_leak", "bore_marginal", "bore_pass", "bore_good"});
    needRising(m, {"cold_below", "hot_from"});
    m.warmth = {Celsius(m.limit("cold_below").value), Celsius(m.limit("hot_from").value)};
    m.solenoids.hotFrom = m.warmth.hotFrom;
    m.solenoids.siblingPercent = m.limit("sibling_percent").value;
    m.solenoids.alikePercent = m.limit("all_coils_alike_percent").value;
    m.solenoids.pullInHigh = Volts(m.limit("pull_in_high").value);
    m.solenoids.dropOutLow = Volts(m.limit("drop_out_low").value);
    m.solenoids.shortBelow = Ohms(m.limit("coil_short_below").value);
    m.bores.good = fromInHg(m, "bore_good");
    m.bores.pass = fromInHg(m, "bore_pass");
    m.bores.marginal = fromInHg(m, "bore_marginal");
    m.bores.heavyLeak = fromInHg(m, "bore_heavy_leak");
    m.bores.standBlocked = fromInHg(m, "stand_blocked");
    m.bores.standUsable = fromInHg(m, "stand_usable");
    m.bores.standOpen = fromInHg(m, "stand_open");
    m.bores.nominalBlocked = fromInHg(m, "stand_nominal_blocked");
    m.bores.jetDrift = fromInHg(m, "stand_jet_drift");
    m.bores.alikeSpread = fromInHg(m, "bores_alike_spread");
    m.bores.manyBores = static_cast<int>(m.limit("many_bores").value);
    needRising(m, {"try_bore_leaking", "try_bore_tight"});
    m.tryTight = fromInHg(m, "try_bore_tight");
    m.tryLeaking = fromInHg(m, "try_bore_leaking");
    m.tryCoil = Ohms(m.limit("try_coil").value);
    m.tryBandShare = m.limit("try_band_percent").value / 100.0;
    m.readVacuum = fromInHg(m, "reading_vacuum");
    m.readOhms = Ohms(m.limit("reading_ohm").value);
    m.readVolts = Volts(m.limit("reading_volt").value);
    m.readPressureShare = m.limit("reading_pressure").value / 100.0;
    m.readFlowShare = m.limit("reading_flow").value / 100.0;
    m.sharedFeedFrom = static_cast<int>(m.limit("shared_feed_from").value);
    m.coolerLitresPerSecond =
        m.limit("cooler_flow_litres").value / m.limit("cooler_flow_seconds").value;
}

/// All weights are there, and each strength weighs more than the next.
void needWeights(const SuggestionModel& model) {
    for (int i = 0; i < static_cast<int>(Strength::faint); ++i)
        if (!(model.weight(static_cast<Strength>(i)) > model.weight(static_cast<Strength>(i + 1))))
            throw std::invalid_argument(fmt::format("\"{}\" must weigh more than \"{}\"",
                                                    strengthName(static_cast<Strength>(i)),
                                                    strengthName(static_cast<Strength>(i + 1))));
    for (const char* name : {"step_in_a_list", "turn_to_a_repair", "turn_to_more_tests",
                             "turn_within_the_job", "turn_rested_on", "turn_unexpected"})
        static_cast<void>(model.weight(name));
}

SuggestionModel readSuggestionModel(const json& from) {
    SuggestionModel model;
    model.version = from.at("format").get<std::string>();
    if (model.version != "swarfbook suggestion model 1")
        throw std::invalid_argument("its format is not \"swarfbook suggestion model 1\"");
    const std::string text = from.dump();
    model.sha256 = sha256Hex(std::as_bytes(std::span(text)));
    for (const auto& entry : from.at("limits").items())
        model.limits[entry.key()] = readLimit(entry.key(), entry.value());
    for (const auto& entry : from.at("rules").items())
        model.rules[entry.key()] = readRule(model, entry.value());
    for (const auto& entry : from.at("minutes").items())
        if (entry.value().is_number())
            model.minutes[entry.key()] = entry.value().get<double>();
    for (const auto& entry : from.at("weights").items())
        model.weights[entry.key()] = readLimit(entry.key(), entry.value());
    needWeights(model);
    fillDebris(model);
    fillBench(model);
    needRising(model, {"recheck_doubtful", "recheck_thick", "recheck_usual"});
    model.recheckUsual = Kilometres(model.limit("recheck_usual").value);
    model.recheckThick = Kilometres(model.limit("recheck_thick").value);
    model.recheckDoubtful = Kilometres(model.limit("recheck_doubtful").value);
    return model;
}

} // namespace

const SuggestionModel::Limit& SuggestionModel::limit(const std::string& name) const {
    const auto found = limits.find(name);
    if (found == limits.end())
        throw std::logic_error(fmt::format("the limit \"{}\" is missing", name));
    return found->second;
}

double SuggestionModel::weight(const std::string& name) const {
    const auto found = weights.find(name);
    if (found == weights.end())
        throw std::invalid_argument(fmt::format("the weight \"{}\" is missing", name));
    return found->second.value;
}

double SuggestionModel::weight(Strength strength, int place) const {
    return weight(std::string(strengthName(strength))) -
           (place == 0 ? 0.0 : place * weight("step_in_a_list"));
}

SuggestionModel loadSuggestionModel(const std::filesystem::path& file) {
    return readDataFile("The suggestion's rules", file, readSuggestionModel);
}

} // namespace swarfbook
