// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/after_repair_fields.h"
#include "bench/observation.h"

#include <algorithm>
#include <string>
#include <tuple>
#include <unordered_map>
#include <vector>

/// The fields of each observation with the names they are stored under. One list serves storing,
/// reading back and adding up several readings of one part.
namespace swarfbook::fields {

template <> struct Of<SinceClean> {
    static constexpr std::string_view kind = "since-clean";
    static constexpr auto all = std::tuple{field("distance_km", &SinceClean::distance)};
};
template <> struct Of<History> {
    static constexpr std::string_view kind = "history";
    static constexpr auto all =
        std::tuple{field("first_opening", &History::firstOpening),
                   field("wiped_without_record", &History::wipedWithoutRecord),
                   field("since_rebuild_km", &History::sinceRebuild),
                   field("cooler_flushed", &History::coolerFlushed),
                   field("magnets_changed", &History::magnetsChanged),
                   field("note", &History::note)};
};
template <> struct Of<Codes> {
    static constexpr std::string_view kind = "codes";
    static constexpr auto all =
        std::tuple{field("codes", &Codes::codes), field("when", &Codes::when),
                   field("only_hot", &Codes::onlyHot), field("makers_text", &Codes::makersText)};
};
template <> struct Of<Noise> {
    static constexpr std::string_view kind = "noise";
    static constexpr auto all =
        std::tuple{field("noise", &Noise::noise), field("heard_in", &Noise::heardIn),
                   field("quiet_in", &Noise::quietIn)};
};
template <> struct Of<FluidSeen> {
    static constexpr std::string_view kind = "fluid";
    static constexpr auto all =
        std::tuple{field("drained_l", &FluidSeen::drained), field("colour", &FluidSeen::colour),
                   field("smell", &FluidSeen::smell), field("milky", &FluidSeen::milky),
                   field("glitter", &FluidSeen::glitter)};
};
template <> struct Of<LevelSeen> {
    static constexpr std::string_view kind = "level";
    static constexpr auto all =
        std::tuple{field("found", &LevelSeen::found), field("by_l", &LevelSeen::by),
                   field("at_c", &LevelSeen::at), field("leak", &LevelSeen::leak)};
};
template <> struct Of<OutsideCheck> {
    static constexpr std::string_view kind = "outside";
    static constexpr auto all =
        std::tuple{field("item", &OutsideCheck::item), field("result", &OutsideCheck::result),
                   field("volts", &OutsideCheck::volts), field("detail", &OutsideCheck::detail)};
};
template <> struct Of<SolenoidReadings> {
    using S = SolenoidReadings;
    static constexpr std::string_view kind = "solenoid";
    static constexpr auto all = std::tuple{field("name", &S::name),
                                           field("type", &S::type),
                                           field("ohm", &S::resistance),
                                           field("at_c", &S::at),
                                           field("open_circuit", &S::openCircuit),
                                           field("shorted", &S::shorted),
                                           field("band_low_ohm", &S::bandLow),
                                           field("band_high_ohm", &S::bandHigh),
                                           field("hot_ohm", &S::hotResistance),
                                           field("hot_at_c", &S::hotAt),
                                           field("hot_open", &S::hotOpen),
                                           field("leak_off", &S::leakOff),
                                           field("leak_on", &S::leakOn),
                                           field("pull_in_v", &S::pullIn),
                                           field("drop_out_v", &S::dropOut),
                                           field("current_a", &S::current),
                                           field("frequency_hz", &S::frequency),
                                           field("command", &S::command),
                                           field("hot_command", &S::hotCommand),
                                           field("swap", &S::swap),
                                           field("flushed", &S::flushed),
                                           field("demagnetised", &S::demagnetised),
                                           field("siblings", &S::siblings),
                                           field("note", &S::note)};
};
template <> struct Of<BoreReadings> {
    using B = BoreReadings;
    static constexpr std::string_view kind = "bore";
    static constexpr auto all = std::tuple{field("name", &B::name),
                                           field("concerns", &B::concerns),
                                           field("vacuum_kpa", &B::vacuum),
                                           field("open_kpa", &B::open),
                                           field("blocked_kpa", &B::blocked),
                                           field("jet_kpa", &B::jet),
                                           field("jet_usual_kpa", &B::jetUsual),
                                           field("new_valve_kpa", &B::newValve),
                                           field("good_unit_kpa", &B::goodUnit),
                                           field("wet", &B::wet),
                                           field("wet_air", &B::wetAir),
                                           field("scored", &B::scored),
                                           field("reamed_before", &B::reamedBefore),
                                           field("repaired_kpa", &B::repaired),
                                           field("note", &B::note)};
};
template <> struct Of<PressureSeen> {
    static constexpr std::string_view kind = "pressure";
    static constexpr auto all =
        std::tuple{field("gear", &PressureSeen::gear), field("found", &PressureSeen::found),
                   field("reading_kpa", &PressureSeen::reading),
                   field("makers_low_kpa", &PressureSeen::makersLow),
                   field("makers_high_kpa", &PressureSeen::makersHigh)};
};
template <> struct Of<AirCheck> {
    static constexpr std::string_view kind = "air-check";
    static constexpr auto all =
        std::tuple{field("element", &AirCheck::element), field("gears", &AirCheck::gears),
                   field("result", &AirCheck::result)};
};
template <> struct Of<FingerTest> {
    static constexpr std::string_view kind = "finger";
    static constexpr auto all = std::tuple{field("feel", &FingerTest::feel)};
};
template <> struct Of<MagnetTest> {
    static constexpr std::string_view kind = "magnet-test";
    static constexpr auto all =
        std::tuple{field("result", &MagnetTest::result), field("share", &MagnetTest::share)};
};
template <> struct Of<SqueezeTest> {
    static constexpr std::string_view kind = "squeeze";
    static constexpr auto all = std::tuple{field("result", &SqueezeTest::result)};
};
template <> struct Of<DebrisSeen> {
    using D = DebrisSeen;
    static constexpr std::string_view kind = "debris";
    static constexpr auto all = std::tuple{field("place", &D::place),
                                           field("what", &D::what),
                                           field("size", &D::size),
                                           field("coat", &D::coat),
                                           field("amount", &D::amount),
                                           field("magnetic", &D::magnetic),
                                           field("machined_face", &D::machinedFace),
                                           field("paper_texture", &D::paperTexture),
                                           field("burnt", &D::burnt),
                                           field("assembly_left_over", &D::assemblyLeftOver),
                                           field("seen_before", &D::seenBefore)};
};
template <> struct Of<CoolerFlow> {
    static constexpr std::string_view kind = "cooler";
    static constexpr auto all =
        std::tuple{field("amount_l", &CoolerFlow::amount), field("in_s", &CoolerFlow::in),
                   field("result", &CoolerFlow::result), field("flushed", &CoolerFlow::flushed)};
};
template <> struct Of<ConverterSeen> {
    static constexpr std::string_view kind = "converter";
    static constexpr auto all =
        std::tuple{field("drain", &ConverterSeen::drain), field("hub", &ConverterSeen::hub),
                   field("blued", &ConverterSeen::blued),
                   field("coolant_inside", &ConverterSeen::coolantInside)};
};
template <> struct Of<EndPlaySeen> {
    static constexpr std::string_view kind = "end-play";
    static constexpr auto all = std::tuple{field("result", &EndPlaySeen::result)};
};
template <> struct Of<ValveBodySeen> {
    using V = ValveBodySeen;
    static constexpr std::string_view kind = "valve-body";
    static constexpr auto all = std::tuple{field("cracked", &V::cracked),
                                           field("warped", &V::warped),
                                           field("scored", &V::scored),
                                           field("reamed_before", &V::reamedBefore),
                                           field("electronics_inside", &V::electronicsInside),
                                           field("repair_costs_more", &V::repairCostsMore)};
};
template <> struct Of<AdaptationSeen> {
    static constexpr std::string_view kind = "adaptation";
    static constexpr auto all = std::tuple{field("result", &AdaptationSeen::result)};
};
template <> struct Of<FilterNeckSeen> {
    using F = FilterNeckSeen;
    static constexpr std::string_view kind = "filter-neck";
    static constexpr auto all =
        std::tuple{field("neck", &F::neck), field("seal", &F::seal), field("note", &F::note)};
};
template <> struct Of<NotInspected> {
    static constexpr std::string_view kind = "not-inspected";
    static constexpr auto all = std::tuple{field("what", &NotInspected::what)};
};
template <> struct Of<Overruled> {
    static constexpr std::string_view kind = "overrule";
    static constexpr auto all =
        std::tuple{field("outcome", &Overruled::outcome), field("note", &Overruled::note)};
};

/// Calls use(field) for every field of T.
template <class T, class Use> void forEach(Use&& use) {
    std::apply([&](const auto&... each) { (use(each), ...); }, Of<T>::all);
}

inline bool isGiven(const std::string& text) {
    return !text.empty();
}
inline bool isGiven(bool flag) {
    return flag;
}
template <class T> bool isGiven(const std::optional<T>& value) {
    return value.has_value();
}
template <class T> bool isGiven(const std::vector<T>& values) {
    return !values.empty();
}
/// Words such as "not-said" and "not-tested" stand for nothing given.
template <HasWords Enum> constexpr bool hasNothing(Enum value) {
    const std::string_view word = wordOf(value);
    return word == "not-said" || word == "not-tested" || word == "not-compared" ||
           word == "not-swapped" || word == "not-looked" || word == "not-known";
}
template <HasWords Enum> bool isGiven(Enum value) {
    return !hasNothing(value);
}

/// What the later reading says replaces what `into` holds; what it leaves out stays.
template <class T> void addLater(T& into, const T& later) {
    forEach<T>([&](const auto& f) {
        if (isGiven(later.*f.member))
            into.*f.member = later.*f.member;
    });
}

/// Readings of one name joined in the order they were taken; names keep the order first seen.
template <class T> std::vector<T> mergedByName(const std::vector<T>& readings) {
    std::vector<T> merged;
    std::unordered_map<std::string, std::size_t> places;
    for (const T& reading : readings) {
        const auto [at, isNew] = places.try_emplace(reading.name, merged.size());
        if (isNew)
            merged.push_back(reading);
        else
            addLater(merged[at->second], reading);
    }
    return merged;
}

} // namespace swarfbook::fields
