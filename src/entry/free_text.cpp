// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/free_text.h"

#include "base/errors.h"
#include "base/text.h"

#include <fmt/format.h>

#include <array>
#include <string_view>

namespace swarfbook {
namespace {

/// A word of the trade that is a finding, and how it is typed.
struct Finding {
    std::string_view word, typed;
};
constexpr std::array<Finding, 12> findings{{{"milkshake", "fluid --milky yes"},
                                            {"milky", "fluid --milky yes"},
                                            {"coolant", "fluid --milky yes"},
                                            {"rust", "fluid --milky yes, or debris pan ..."},
                                            {"burnt", "fluid --smell burnt"},
                                            {"burned", "fluid --smell burnt"},
                                            {"glitter", "fluid --glitter silver"},
                                            {"metal flakes", "debris pan bright-metal --size S2"},
                                            {"chips", "debris pan bright-metal --size S4"},
                                            {"wrong fluid", "fluid --type wrong"},
                                            {"whine", "noise whine"},
                                            {"grinding", "noise grind"}}};

} // namespace

void questionNote(const std::string& note, Sure sure) {
    if (sure == Sure::meant)
        return;
    const std::string lower = lowered(note);
    for (const Finding& finding : findings)
        if (lower.find(finding.word) != std::string::npos)
            throw UsageError(fmt::format(
                "\"{}\" in the note sounds like a finding of its own, and a note counts "
                "nowhere: type it so that it counts, such as {}. To keep it as a note "
                "all the same, type this again with --sure.",
                finding.word, finding.typed));
}

} // namespace swarfbook
