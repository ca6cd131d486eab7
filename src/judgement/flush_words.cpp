// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/flush_words.h"

#include "base/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double tenth = 0.1; // ISO 16232

std::string piecesInWords(int count) {
    return fmt::format("{} piece{}", count, count == 1 ? "" : "s");
}

std::string lastPass(const FlushOfPart& flush) {
    const auto& ratios = flush.series.decay.ratios;
    return fmt::format("Pass {} washed out {} of all that came", ratios.size(),
                       decayWords(*ratios.back()));
}

std::string cleanWords(const FlushOfPart& flush) {
    const bool sure = flush.series.decay.ratios.back()->high <= tenth;
    return fmt::format("clean. {}, and 10 % or less counts as clean (ISO 16232).{}",
                       lastPass(flush), sure ? "" : " One more pass would make it sure.");
}

std::string goOnWords(const FlushOfPart& flush) {
    const auto& metAt = flush.series.decay.metAt;
    if (metAt)
        return fmt::format("not clean any more. Pass {} had come down to 10 %. {} again. Flush on.",
                           *metAt, lastPass(flush));
    return fmt::format("not clean yet. {}; 10 % or less counts as clean (ISO 16232). Flush on.",
                       lastPass(flush));
}

std::string changeMethodWords(const FlushOfPart& flush) {
    return fmt::format("not clean, and this way of flushing does not get it clean. {}; 10 % is to "
                       "be reached within six passes (ISO 16232). Change the method, such as "
                       "another fluid, warm fluid, moving the part while it is flushed or "
                       "demagnetising it, and begin a new flush.",
                       lastPass(flush));
}

std::string notKnownWords(const FlushOfPart& flush) {
    const auto& passes = flush.series.passes;
    const auto missing = std::find_if(passes.begin(), passes.end(),
                                      [](const PassCount& pass) { return !pass.counted; });
    if (missing == passes.end())
        return "no pass was photographed yet.";
    return fmt::format("not known whether it is clean. The photo of pass {} could not be counted. "
                       "Begin a new flush, or withdraw that photo.",
                       missing - passes.begin() + 1);
}

std::string verdictWords(const FlushOfPart& flush) {
    switch (flush.series.decay.verdict) {
    case FlushVerdict::clean:
        return cleanWords(flush);
    case FlushVerdict::goOn:
        return goOnWords(flush);
    case FlushVerdict::changeMethod:
        return changeMethodWords(flush);
    case FlushVerdict::nothingCame:
        return fmt::format("nothing of {:.2f} mm or larger came out.", flush.series.from.value());
    case FlushVerdict::notKnown:
        break;
    }
    return notKnownWords(flush);
}

std::string_view verdictName(FlushVerdict verdict) {
    switch (verdict) {
    case FlushVerdict::clean:
        return "clean";
    case FlushVerdict::goOn:
        return "flush on";
    case FlushVerdict::changeMethod:
        return "change the method";
    case FlushVerdict::nothingCame:
        return "nothing came";
    case FlushVerdict::notKnown:
        break;
    }
    return "not known";
}

constexpr double lengthDigits = 1e4, areaDigits = 1e4, shareDigits = 1e4;

double roundedTo(double value, double digits) {
    return std::round(value * digits) / digits;
}

using Json = nlohmann::ordered_json;

Json ratioJson(const std::optional<DecayRatio>& ratio) {
    if (!ratio)
        return nullptr;
    return {
        {"ratio", roundedTo(ratio->ratio, shareDigits)},
        {"interval_95", {roundedTo(ratio->low, shareDigits), roundedTo(ratio->high, shareDigits)}}};
}

Json passJson(const FlushSeries& series, std::size_t i) {
    const PassCount& pass = series.passes[i];
    Json one{{"pass", i + 1}, {"step", flushStepName(pass.step)}, {"counted", pass.counted}};
    if (!pass.counted)
        return one;
    one["pieces"] = pass.pieces;
    one["doubtful"] = pass.doubtful;
    one["expected"] = roundedTo(pass.expected, 10.0);
    one["area_mm2"] = roundedTo(pass.area.value(), areaDigits);
    one["largest_mm"] = nullptr;
    one["largest_u_mm"] = nullptr;
    if (pass.largest) {
        one["largest_mm"] = roundedTo(pass.largest->value.value(), lengthDigits);
        one["largest_u_mm"] = roundedTo(pass.largest->standardUncertainty.value(), lengthDigits);
    }
    for (const ParticleType type : flushTypes)
        one["by_type"][std::string(typeWord(type))] = pass.byType[static_cast<std::size_t>(type)];
    one["last_over_sum"] = ratioJson(series.decay.ratios[i]);
    return one;
}

} // namespace

const FlushOfPart* flushOfSolenoid(const std::vector<FlushOfPart>& flushes,
                                   const std::string& solenoid) {
    const std::string name = lowered(solenoid);
    const auto found = std::find_if(flushes.rbegin(), flushes.rend(), [&](const FlushOfPart& f) {
        const std::string part = lowered(f.part);
        return part == name || part == "solenoid " + name;
    });
    return found == flushes.rend() ? nullptr : &*found;
}

std::string decayWords(const DecayRatio& ratio) {
    return fmt::format("{:.0f} % (95 %: {:.0f} to {:.0f} %)", 100.0 * ratio.ratio,
                       100.0 * ratio.low, 100.0 * ratio.high);
}

std::string flushVerdictSentence(const FlushOfPart& flush) {
    return fmt::format("Flush of {}: {}", flush.part, verdictWords(flush));
}

std::string demagnetisingSentence(const FlushOfPart& flush) {
    if (!flush.series.demagnetising)
        return "";
    const Demagnetising& d = *flush.series.demagnetising;
    const std::string counts = fmt::format("{} in pass {} after {} in pass {}",
                                           piecesInWords(d.released), d.pass, d.before, d.pass - 1);
    switch (d.against) {
    case PassAgainstPass::more:
        return fmt::format("Demagnetising released more than washing alone had: {}. A residual "
                           "field held them.",
                           counts);
    case PassAgainstPass::less:
        return fmt::format("Demagnetising released no more than washing alone had: {}.", counts);
    case PassAgainstPass::notToldApart:
        break;
    }
    return fmt::format("Whether demagnetising released more than washing alone had cannot be told "
                       "from so few: {}.",
                       counts);
}

std::string cleanTraySentence(const FlushOfPart& flush) {
    if (!flush.trayPhotographed)
        return "The clean tray was not photographed, so its marks may be among the pieces.";
    std::vector<std::string> classes;
    for (const TrayNotClean& over : flush.series.trayNotClean)
        classes.push_back(fmt::format("{} in class {}, where the first pass has {}",
                                      piecesInWords(over.tray), over.sizeClass, over.pass));
    if (classes.empty())
        return "";
    return fmt::format("The clean tray itself shows {}: more than 10 % (ISO 16232's blank value). "
                       "What it shows in its place is not counted, but it may hold debris of its "
                       "own: wipe it and begin a new flush.",
                       fmt::join(classes, "; "));
}

nlohmann::ordered_json flushJson(const FlushOfPart& flush) {
    const FlushSeries& series = flush.series;
    Json passes = Json::array();
    for (std::size_t i = 0; i < series.passes.size(); ++i)
        passes.push_back(passJson(series, i));
    Json document{{"from_mm", nullptr},
                  {"passes", passes},
                  {"verdict", verdictName(series.decay.verdict)},
                  {"met_at", nullptr},
                  {"sentences", flushSentences(flush)}};
    if (!series.passes.empty())
        document["from_mm"] = roundedTo(series.from.value(), lengthDigits);
    if (series.decay.metAt)
        document["met_at"] = *series.decay.metAt;
    return document;
}

std::string largestOfPass(const PassCount& pass) {
    return pass.largest ? fmt::format("{:.2f} ± {:.2f}", pass.largest->value.value(),
                                      2.0 * pass.largest->standardUncertainty.value())
                        : "-";
}

std::vector<std::string> flushSentences(const FlushOfPart& flush) {
    std::vector<std::string> all;
    for (std::string sentence :
         {flushVerdictSentence(flush), demagnetisingSentence(flush), cleanTraySentence(flush)})
        if (!sentence.empty())
            all.push_back(std::move(sentence));
    return all;
}

} // namespace swarfbook
