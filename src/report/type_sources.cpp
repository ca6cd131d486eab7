// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/type_sources.h"

#include "particles/type_evidence.h"

#include <fmt/format.h>

#include <array>
#include <map>
#include <string_view>

namespace swarfbook {

std::string typeSourcesSentence(const DebrisFinding& debris) {
    std::map<std::string_view, int> decidedBy;
    int otherwise = 0;
    for (const Particle& piece : debris.particles) {
        ++decidedBy[typeDecidedBy(piece)];
        if (piece.said.photo && piece.said.photo->type != piece.type)
            ++otherwise;
    }
    std::string list;
    for (const auto& [by, words] : std::array<std::pair<const char*, const char*>, 3>{
             {{"hand", "by hand"}, {"magnet", "by the magnet"}, {"two lights", "by two lights"}}})
        if (const int count = decidedBy[by]; count > 0)
            list += fmt::format("{}{} {}", list.empty() ? "" : ", ", count, words);
    if (list.empty())
        return "";
    const int alone = decidedBy["photo"];
    return fmt::format("The types were decided so: {}{}. The photo alone says another type of {}.",
                       list, alone > 0 ? fmt::format(", {} by the photo alone", alone) : "",
                       otherwise == 0 ? "none" : std::to_string(otherwise));
}

} // namespace swarfbook
