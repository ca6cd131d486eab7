// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/coat_of_magnet.h"

#include "judgement/visit_samples.h"

#include <fmt/format.h>

namespace swarfbook {

Coat coatOf(const MagnetFinding& magnet, double share, const SuggestionModel& model) {
    if (magnet.overhangP95 >= model.coatF4Overhang)
        return Coat::f4;
    if (magnet.outlineLost || magnet.overhangP95 >= model.coatF3Overhang)
        return Coat::f3;
    if (share >= model.coatF2Share)
        return Coat::f2;
    return share >= model.coatF1Share ? Coat::f1 : Coat::f0;
}

std::string coatInTradeWords(const MagnetFinding& magnet, const SuggestionModel& model) {
    constexpr const char* words[] = {"none", "thin", "covered", "outline lost", "bearded"};
    const Coat coat = coatOf(magnet, magnet.coveredShare.value.value(), model);
    return fmt::format("{}, {}", wordOf(coat), words[static_cast<std::size_t>(coat)]);
}

std::string coatClassSentence(const MagnetFinding& magnet, const SuggestionModel& model) {
    return fmt::format("In the trade's words: {}.{}", coatInTradeWords(magnet, model),
                       isFull(magnet, model.fullMagnet) ? " " + fullMagnetSentence() : "");
}

std::string fullMagnetSentence() {
    return "A magnet this full gathers no more: there was at least so much fuzz, and nothing can "
           "be said of how fast it came.";
}

std::string magnetsWords(const std::optional<MagnetsFitted>& magnets) {
    if (!magnets)
        return "";
    const bool one = magnets->count == "1";
    std::string words = magnets->count;
    if (magnets->form != MagnetForm::notSaid)
        words += fmt::format(" {}", wordOf(magnets->form));
    words += one ? " magnet" : " magnets";
    if (magnets->size)
        words += fmt::format(" of {:g} mm", magnets->size->value.value());
    if (magnets->added == true)
        words += ", one of them added since the last clean";
    return words;
}

std::string otherMagnets(const VisitEvidence& before, const VisitEvidence& now) {
    const MagnetsFitted *then = latest<MagnetsFitted>(before), *today = latest<MagnetsFitted>(now);
    if (today != nullptr && today->added == true)
        return "A magnet was added since, so the fuzz of before and now cannot be compared.";
    if (then == nullptr || today == nullptr)
        return "";
    const bool otherForm = then->form != today->form && then->form != MagnetForm::notSaid &&
                           today->form != MagnetForm::notSaid;
    const bool otherSize = then->size && today->size && then->size->value != today->size->value;
    if (then->count == today->count && !otherForm && !otherSize)
        return "";
    return fmt::format(
        "Then it was gathered by {}, now by {}: the fuzz of before and now cannot be "
        "compared.",
        magnetsWords(*then), magnetsWords(*today));
}

} // namespace swarfbook
