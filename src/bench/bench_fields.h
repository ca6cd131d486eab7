// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/field.h"
#include "bench/observation.h"

#include <tuple>

/// The fields of bores, pressures, clutches, cooler, converter and casting.
namespace swarfbook::fields {

template <> struct Of<BoreReadings> {
    using B = BoreReadings;
    static constexpr std::string_view kind = "bore";
    static constexpr auto all = std::tuple{
        field("name", &B::name,
              {.help = "which bore by its name, or stand for the stand's own readings",
               .label = "bore",
               .told = Told::withOthers}),
        field("vacuum_kpa", &B::vacuum,
              {.option = "vacuum",
               .help = "lowest reading, such as 12inHg",
               .label = "reads",
               .typing = Typing::vacuum}),
        field("open_kpa", &B::open,
              {.option = "open",
               .help = "what the stand reads with its hose open",
               .label = "hose open",
               .said = "stand open",
               .typing = Typing::vacuum}),
        field("blocked_kpa", &B::blocked,
              {.option = "blocked",
               .help = "what the stand reads with its hose blocked",
               .label = "hose blocked",
               .said = "blocked",
               .typing = Typing::vacuum}),
        field("jet_kpa", &B::jet,
              {.option = "jet",
               .help = "what the stand reads at its fixed jet today",
               .label = "jet",
               .said = "jet",
               .typing = Typing::vacuum}),
        field("jet_usual_kpa", &B::jetUsual,
              {.option = "jet-usual",
               .help = "what that jet always reads",
               .label = "jet as usual",
               .said = "jet as usual",
               .typing = Typing::vacuum}),
        field("new_valve_kpa", &B::newValve,
              {.option = "new-valve",
               .help = "what it reads with a new valve",
               .label = "with a new valve",
               .said = "with a new valve",
               .typing = Typing::vacuum}),
        field("good_unit_kpa", &B::goodUnit,
              {.option = "good-unit",
               .help = "what the same bore of a good unit reads",
               .label = "in a good unit",
               .said = "in a good unit",
               .typing = Typing::vacuum}),
        field("wet", &B::wet,
              {.option = "film",
               .help = "wet or dry",
               .label = "wet",
               .said = "wet",
               .saidNo = "dry",
               .yes = "wet",
               .no = "dry"}),
        field("wet_air", &B::wetAir,
              {.option = "wet-air",
               .label = "wet air fizzes",
               .said = "wet air",
               .yes = "fizzes",
               .no = "quiet"}),
        field("scored", &B::scored, {.option = "scored", .label = "scored", .said = "scored"}),
        field("reamed_before", &B::reamedBefore,
              {.option = "reamed", .label = "reamed before", .said = "reamed before"}),
        field("concerns", &B::concerns,
              {.option = "concerns",
               .help = "gear, shift, solenoid or converter",
               .label = "concerns",
               .said = "concerns"}),
        field("repaired_kpa", &B::repaired,
              {.option = "repaired",
               .help = "reading after the repair",
               .label = "after the repair",
               .said = "after the repair",
               .typing = Typing::vacuum}),
        field("note", &B::note, {.option = "note", .help = "a remark", .label = "remark"})};
};
template <> struct Of<PressureSeen> {
    using P = PressureSeen;
    static constexpr std::string_view kind = "pressure";
    static constexpr auto all = std::tuple{
        field("gear", &P::gear,
              {.option = "gear",
               .help = "1, 2, ... R, or all",
               .label = "range",
               .typing = Typing::gear,
               .told = Told::withOthers}),
        field("found", &P::found, {.help = "how", .label = "pressure", .told = Told::withOthers}),
        field("reading_kpa", &P::reading,
              {.option = "reading", .help = "such as 60psi", .label = "reads"}),
        field("makers_low_kpa", &P::makersLow,
              {.option = "makers",
               .help = "the maker's, such as 60-90psi",
               .label = "maker's",
               .said = "maker's from",
               .typing = Typing::lowEnd}),
        field("makers_high_kpa", &P::makersHigh,
              {.option = "makers", .said = "to", .typing = Typing::highEnd})};
};
template <> struct Of<AirCheck> {
    static constexpr std::string_view kind = "air-check";
    static constexpr auto all =
        std::tuple{field("element", &AirCheck::element,
                         {.help = "which clutch or brake by its name",
                          .label = "clutch or brake",
                          .told = Told::withOthers}),
                   field("gears", &AirCheck::gears,
                         {.option = "gears",
                          .help = "gears the element serves",
                          .label = "serves",
                          .said = "serves",
                          .typing = Typing::gears}),
                   field("result", &AirCheck::result,
                         {.help = "how", .label = "air check", .told = Told::withOthers})};
};
template <> struct Of<CoolerFlow> {
    using C = CoolerFlow;
    static constexpr std::string_view kind = "cooler";
    static constexpr auto all = std::tuple{
        field("amount_l", &C::amount,
              {.help = "how much passes, such as 0.9l",
               .label = "cooler passes",
               .told = Told::withOthers}),
        field("in_s", &C::in,
              {.option = "in", .help = "such as 30s", .label = "in", .told = Told::withOthers}),
        field(
            "result", &C::result,
            {.option = "result", .help = "good or fault, by the maker's figure", .label = "flow"}),
        field(
            "flushed", &C::flushed,
            {.option = "flushed", .label = "flushed", .said = "flushed", .saidNo = "not flushed"})};
};
template <> struct Of<ConverterSeen> {
    using C = ConverterSeen;
    static constexpr std::string_view kind = "converter";
    static constexpr auto all = std::tuple{
        field("drain", &C::drain,
              {.option = "drain",
               .label = "converter drains",
               .said = "drain",
               .boxes = "clean,dirty"}),
        field("hub", &C::hub, {.option = "hub", .label = "hub", .said = "hub"}),
        field("blued", &C::blued,
              {.option = "blued", .label = "blue", .said = "blued by heat", .saidNo = "not blued"}),
        field("coolant_inside", &C::coolantInside,
              {.option = "coolant",
               .label = "coolant inside",
               .said = "coolant inside",
               .saidNo = "no coolant inside"})};
};
template <> struct Of<EndPlaySeen> {
    using E = EndPlaySeen;
    static constexpr std::string_view kind = "end-play";
    static constexpr auto all =
        std::tuple{field("result", &E::result,
                         {.help = "how: normal, excess, or the reading, such as 0.45mm",
                          .label = "end play",
                          .boxes = "normal,too much"}),
                   field("reading_mm", &E::reading, {.label = "reads"}),
                   field("makers_low_mm", &E::makersLow,
                         {.option = "makers",
                          .help = "the maker's, such as 0.2-0.6mm",
                          .label = "maker's",
                          .said = "maker's from",
                          .typing = Typing::lowEnd}),
                   field("makers_high_mm", &E::makersHigh,
                         {.option = "makers", .said = "to", .typing = Typing::highEnd})};
};
template <> struct Of<ValveBodySeen> {
    using V = ValveBodySeen;
    static constexpr std::string_view kind = "valve-body";
    static constexpr auto all = std::tuple{
        field("cracked", &V::cracked,
              {.option = "cracked",
               .label = "casting cracked",
               .said = "cracked",
               .saidNo = "not cracked"}),
        field("warped", &V::warped,
              {.option = "warped", .label = "warped", .said = "warped", .saidNo = "not warped"}),
        field("scored", &V::scored,
              {.option = "scored", .label = "scored", .said = "scored", .saidNo = "not scored"}),
        field("reamed_before", &V::reamedBefore,
              {.option = "reamed",
               .label = "reamed before",
               .said = "reamed before",
               .saidNo = "not reamed before"}),
        field("electronics_inside", &V::electronicsInside,
              {.option = "electronics",
               .help = "yes or no: electronics are built in",
               .label = "electronics inside",
               .said = "electronics inside",
               .saidNo = "no electronics inside"}),
        field("repair_costs_more", &V::repairCostsMore,
              {.option = "repair-costs-more",
               .help = "yes or no: a repair costs more than another body",
               .label = "repair costs more than another body",
               .said = "repair costs more than another body",
               .saidNo = "repair costs less than another body"})};
};
template <> struct Of<AdaptationSeen> {
    static constexpr std::string_view kind = "adaptation";
    static constexpr auto all =
        std::tuple{field("result", &AdaptationSeen::result,
                         {.help = "how", .label = "adaptation", .boxes = "normal,at its limit"})};
};

} // namespace swarfbook::fields
