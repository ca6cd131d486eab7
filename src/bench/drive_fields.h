// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/field.h"
#include "bench/observation.h"

#include <tuple>

/// The fields of what is known before the pan comes off.
namespace swarfbook::fields {

template <> struct Of<SinceClean> {
    static constexpr std::string_view kind = "since-clean";
    static constexpr auto all =
        std::tuple{field("distance_km", &SinceClean::distance,
                         {.help = "the distance, such as 45000km, or unknown",
                          .label = "since the last clean",
                          .told = Told::withOthers})};
};
template <> struct Of<History> {
    static constexpr std::string_view kind = "history";
    static constexpr auto all = std::tuple{
        field("first_opening", &History::firstOpening,
              {.option = "first-opening",
               .help = "the pan was never off before",
               .label = "first opening",
               .said = "first opening"}),
        field("wiped_without_record", &History::wipedWithoutRecord,
              {.option = "wiped",
               .help = "cleaned lately, nobody wrote down what was found",
               .label = "cleaned lately, no record",
               .said = "opened or cleaned lately without a record"}),
        field("since_rebuild_km", &History::sinceRebuild,
              {.option = "rebuilt",
               .help = "distance since a rebuild",
               .label = "since a rebuild",
               .said = "driven since the rebuild"}),
        field("cooler_flushed", &History::coolerFlushed,
              {.option = "cooler-flushed",
               .label = "cooler flushed",
               .said = "cooler flushed",
               .saidNo = "no cooler flush on record"}),
        field("magnets_changed", &History::magnetsChanged,
              {.option = "magnets-changed",
               .label = "magnets changed",
               .said = "magnets changed",
               .saidNo = "magnets unchanged"}),
        field("note", &History::note, {.option = "note", .help = "a remark", .label = "remark"})};
};
template <> struct Of<Codes> {
    static constexpr std::string_view kind = "codes";
    static constexpr auto all =
        std::tuple{field("codes", &Codes::codes,
                         {.help = "the codes, or none",
                          .label = "codes",
                          .typing = Typing::codes,
                          .told = Told::withOthers}),
                   field("when", &Codes::when,
                         {.option = "after",
                          .help = "read after the repair",
                          .label = "read after the repair",
                          .yes = "after",
                          .typing = Typing::marks,
                          .told = Told::withOthers}),
                   field("only_hot", &Codes::onlyHot,
                         {.option = "only-hot", .label = "only hot", .said = "only when hot"}),
                   field("makers_text", &Codes::makersText,
                         {.option = "text",
                          .help = "the maker's own text",
                          .label = "maker's text",
                          .said = "maker's text:"})};
};
template <> struct Of<Noise> {
    static constexpr std::string_view kind = "noise";
    static constexpr auto all =
        std::tuple{field("noise", &Noise::noise,
                         {.help = "which noise", .label = "noise", .saidNo = "no noise"}),
                   field("heard_in", &Noise::heardIn,
                         {.option = "heard",
                          .help = "gears, such as 1,R",
                          .label = "heard in",
                          .said = "heard in",
                          .typing = Typing::gears}),
                   field("quiet_in", &Noise::quietIn,
                         {.option = "quiet",
                          .help = "gears",
                          .label = "quiet in",
                          .said = "quiet in",
                          .typing = Typing::gears})};
};
template <> struct Of<FluidSeen> {
    static constexpr std::string_view kind = "fluid";
    static constexpr auto all = std::tuple{
        field("colour", &FluidSeen::colour,
              {.option = "colour", .help = "in your words", .label = "fluid's colour"}),
        field("smell", &FluidSeen::smell,
              {.option = "smell", .label = "smell", .said = "smells", .saidNo = "no smell"}),
        field("milky", &FluidSeen::milky,
              {.option = "milky", .label = "milky", .said = "milky", .saidNo = "not milky"}),
        field("glitter", &FluidSeen::glitter,
              {.option = "glitter",
               .label = "glitters",
               .said = "glitters",
               .saidNo = "nothing glitters"}),
        field("type", &FluidSeen::type,
              {.option = "type",
               .help = "as the maker asks for: right or wrong",
               .label = "type of fluid",
               .said = "type of fluid",
               .yes = "right",
               .no = "wrong"}),
        field("drained_l", &FluidSeen::drained,
              {.option = "drained",
               .help = "how much came out, such as 4.2l",
               .label = "drained",
               .said = "drained"})};
};
template <> struct Of<LevelSeen> {
    static constexpr std::string_view kind = "level";
    static constexpr auto all =
        std::tuple{field("found", &LevelSeen::found,
                         {.help = "the level", .label = "level", .told = Told::withOthers}),
                   field("by_l", &LevelSeen::by,
                         {.help = "how much low or high, such as 1.5l",
                          .label = "by",
                          .told = Told::withOthers}),
                   field("at_c", &LevelSeen::at,
                         {.option = "at",
                          .help = "temperature of the fluid, such as 40C",
                          .label = "at",
                          .said = "at"}),
                   field("leak", &LevelSeen::leak,
                         {.option = "leak",
                          .help = "where it leaks",
                          .label = "leak at",
                          .said = "leak at the"}),
                   field("leak_amount", &LevelSeen::leakAmount,
                         {.option = "leak-amount", .label = "the leak", .said = "how much:"})};
};
template <> struct Of<OutsideCheck> {
    static constexpr std::string_view kind = "outside";
    static constexpr auto all = std::tuple{
        field("item", &OutsideCheck::item,
              {.help = "what", .label = "part", .told = Told::withOthers}),
        field("result", &OutsideCheck::result,
              {.help = "how it was found", .label = "found", .told = Told::withOthers}),
        field("volts", &OutsideCheck::volts,
              {.option = "volts", .help = "the voltage measured there", .label = "reads"}),
        field("detail", &OutsideCheck::detail,
              {.option = "detail", .help = "what was found", .label = "what was found"})};
};

} // namespace swarfbook::fields
