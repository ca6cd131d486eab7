// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/field.h"
#include "bench/observation.h"

#include <tuple>

/// The fields of debris by eye and hand, and of what was left out or decided otherwise.
namespace swarfbook::fields {

template <> struct Of<FingerTest> {
    static constexpr std::string_view kind = "finger";
    static constexpr auto all =
        std::tuple{field("feel", &FingerTest::feel, {.help = "what is felt", .label = "rubbed"}),
                   field("place", &FingerTest::place,
                         {.option = "place",
                          .help = "where the debris came from: pan, magnet, filter ...",
                          .label = "of",
                          .said = "debris of the"}),
                   field("pieces", &FingerTest::pieces,
                         {.option = "pieces",
                          .help = "which pieces, such as \"the largest\"",
                          .label = "which pieces"})};
};
template <> struct Of<MagnetTest> {
    static constexpr std::string_view kind = "magnet-test";
    static constexpr auto all =
        std::tuple{field("result", &MagnetTest::result,
                         {.help = "what the debris does", .label = "magnet under the paper"}),
                   field("share", &MagnetTest::share,
                         {.option = "share",
                          .help = "of the bright pieces, one, few, plenty",
                          .label = "how many bright pieces",
                          .said = "share"}),
                   field("place", &MagnetTest::place,
                         {.option = "place",
                          .help = "where the debris came from: pan, magnet, filter ...",
                          .label = "of",
                          .said = "debris of the"}),
                   field("pieces", &MagnetTest::pieces,
                         {.option = "pieces",
                          .help = "which pieces, such as \"the largest\"",
                          .label = "which pieces"})};
};
template <> struct Of<SqueezeTest> {
    static constexpr std::string_view kind = "squeeze";
    static constexpr auto all = std::tuple{
        field("result", &SqueezeTest::result, {.help = "what the flake does", .label = "squeezed"}),
        field("place", &SqueezeTest::place,
              {.option = "place",
               .help = "where the debris came from: pan, magnet, filter ...",
               .label = "of",
               .said = "debris of the"}),
        field("pieces", &SqueezeTest::pieces,
              {.option = "pieces",
               .help = "which pieces, such as \"the largest\"",
               .label = "which pieces"})};
};
template <> struct Of<DebrisSeen> {
    using D = DebrisSeen;
    static constexpr std::string_view kind = "debris";
    static constexpr auto all = std::tuple{
        field("place", &D::place, {.help = "where", .label = "place", .told = Told::withOthers}),
        field("what", &D::what, {.help = "what", .label = "what", .told = Told::withOthers}),
        field("size", &D::size,
              {.option = "size",
               .help = "S0 to S4, or the longest side, such as 2mm",
               .label = "size"}),
        field("length_mm", &D::length, {.option = "size"}),
        field("coat", &D::coat,
              {.option = "coat", .help = "of the magnet, F0 to F4", .label = "magnet's coat"}),
        field("amount", &D::amount, {.option = "amount", .label = "how many"}),
        field("magnetic", &D::magnetic,
              {.option = "magnetic",
               .label = "magnetic",
               .said = "magnetic",
               .saidNo = "not magnetic",
               .yes = "yes",
               .no = "no"}),
        field("machined_face", &D::machinedFace,
              {.option = "machined-face",
               .help = "a machined face, needle or tooth form",
               .label = "machined face",
               .said = "machined face"}),
        field("paper_texture", &D::paperTexture,
              {.option = "paper-texture",
               .help = "lining with paper texture",
               .label = "paper texture",
               .said = "paper texture"}),
        field("burnt", &D::burnt,
              {.option = "burnt",
               .help = "burnt or melted edge",
               .label = "burnt",
               .said = "burnt edge"}),
        field("assembly_left_over", &D::assemblyLeftOver,
              {.option = "left-over",
               .help = "left from assembly",
               .label = "left from assembly",
               .said = "left over from assembly"}),
        field("seen_before", &D::seenBefore,
              {.option = "seen-before",
               .help = "the same came out before",
               .label = "seen before",
               .said = "seen before"}),
        field("part", &D::part,
              {.option = "part",
               .help =
                   "of plastic, what it broke off: baffle, filter-neck, check-ball ..., not-found",
               .label = "broke off",
               .said = "of the part"})};
};
template <> struct Of<FilterNeckSeen> {
    using F = FilterNeckSeen;
    static constexpr std::string_view kind = "filter-neck";
    static constexpr auto all = std::tuple{
        field("neck", &F::neck,
              {.help = "how the neck is", .label = "filter neck", .said = "neck"}),
        field("seal", &F::seal, {.option = "seal", .label = "its seal", .said = "seal"}),
        field("note", &F::note, {.option = "note", .help = "a remark", .label = "remark"})};
};
template <> struct Of<MagnetsFitted> {
    using M = MagnetsFitted;
    static constexpr std::string_view kind = "magnets";
    static constexpr auto all =
        std::tuple{field("count", &M::count, {.help = "how many", .label = "magnets in the pan"}),
                   field("form", &M::form, {.option = "form", .label = "their form"}),
                   field("size_mm", &M::size,
                         {.option = "size",
                          .help = "diameter, or the longer side of a block, such as 30mm",
                          .label = "their size"}),
                   field("added", &M::added,
                         {.option = "added",
                          .help = "yes where one more was fitted since the last clean",
                          .label = "one added",
                          .said = "one was added since the last clean",
                          .saidNo = "none was added since the last clean"})};
};
template <> struct Of<NotInspected> {
    static constexpr std::string_view kind = "not-inspected";
    static constexpr auto all =
        std::tuple{field("what", &NotInspected::what, {.help = "what was not inspected"})};
};
template <> struct Of<Overruled> {
    static constexpr std::string_view kind = "overrule";
    static constexpr auto all =
        std::tuple{field("outcome", &Overruled::outcome,
                         {.help = "the outcome you decide for, in quotation marks"}),
                   field("note", &Overruled::note, {.option = "note", .help = "why"})};
};

} // namespace swarfbook::fields
