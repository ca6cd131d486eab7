// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/result.h"

#include <array>

namespace swarfbook {
namespace {

constexpr std::array<std::pair<RefusalReason, std::string_view>, 11> names{{
    {RefusalReason::noCard, "no_card"},
    {RefusalReason::cardCutOff, "card_cut_off"},
    {RefusalReason::mixedCards, "mixed_cards"},
    {RefusalReason::tooTilted, "too_tilted"},
    {RefusalReason::blurred, "blurred"},
    {RefusalReason::tooDark, "too_dark"},
    {RefusalReason::glare, "glare"},
    {RefusalReason::clipped, "clipped"},
    {RefusalReason::notAPhoto, "not_a_photo"},
    {RefusalReason::tooLarge, "too_large"},
    {RefusalReason::findingDamaged, "finding_damaged"},
}};

} // namespace

std::string_view reasonName(RefusalReason reason) {
    for (const auto& [known, name] : names)
        if (known == reason)
            return name;
    throw std::logic_error("refusal reason without a name");
}

RefusalReason reasonFromName(std::string_view name) {
    for (const auto& [reason, known] : names)
        if (known == name)
            return reason;
    throw std::invalid_argument("unknown refusal reason: " + std::string(name));
}

} // namespace swarfbook
