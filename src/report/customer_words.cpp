// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/customer_words.h"

#include "report/magnet_words.h"
#include "report/report_words.h"
#include "report/sweep_words.h"

#include <fmt/format.h>

#include <stdexcept>

namespace swarfbook {

std::vector<std::string> reasonSentences(const ReportModel& model) {
    if (!model.suggestion)
        return {model.noSuggestion};
    std::vector<std::string> reasons = model.suggestion->strongestReasons;
    if (!model.suggestion->strongestContrary.empty())
        reasons.push_back("Evidence against this: " + model.suggestion->strongestContrary);
    return reasons;
}

std::string waitingSentence(const std::optional<Suggestion>& suggestion) {
    if (!suggestion)
        return {};
    if (!suggestion->heldRepair.empty())
        return "The repair has held. Come back soon if the complaint does.";
    switch (suggestion->outcome) {
    case Recommendation::outsideTheUnit:
        return "The transmission itself need not be opened, but the complaint stays until the "
               "cause is put right, and a unit that is wrongly controlled or filled wears faster.";
    case Recommendation::cleanAndRefit:
        return "Nothing found is urgent. Old fluid and a full filter wear the unit faster, so the "
               "clean should not wait for long.";
    case Recommendation::replaceSolenoids:
    case Recommendation::repairBores:
    case Recommendation::replaceValveBody:
        return "A control fault makes clutches slip, and a clutch that slips burns. Driving on can "
               "turn this repair into a rebuild.";
    case Recommendation::openTheTransmission:
        return suggestion->doNotDrive
                   ? "Driving on carries broken pieces through the whole transmission, its cooler "
                     "and its converter. The car can stop driving without warning, and parts that "
                     "could "
                     "be kept today may have to be replaced."
                   : "Wear of this kind does not stop by itself. Its pieces go through pump, valve "
                     "body and cooler, and parts that could be kept today may have to be replaced.";
    case Recommendation::notEnoughEvidence:
        return suggestion->doNotDrive
                   ? "Until the test is made, driving on can damage the transmission further."
                   : "Until the test is made, nobody can say whether driving on does harm.";
    }
    throw std::logic_error("a suggestion without a sentence on waiting");
}

std::vector<std::string> priceLines(const std::optional<Suggestion>& suggestion) {
    std::vector<std::string> lines;
    if (suggestion) {
        lines.push_back(asSentence(workOf(*suggestion)));
        for (const std::string& scope : suggestion->scope)
            lines.push_back(asSentence(scope));
        if (suggestion->converterAsOption)
            lines.emplace_back("Option: torque converter.");
        if (suggestion->coolerAsOption)
            lines.emplace_back("Option: cooler.");
    }
    lines.emplace_back("Diagnosis so far.");
    lines.emplace_back("");
    lines.emplace_back("Total, tax included");
    return lines;
}

namespace {

/// "64 pieces"
std::string piecesBrought(int count) {
    return fmt::format("{} piece{}", count, count == 1 ? "" : "s");
}

std::string whatPassesBrought(const FlushSeries& series) {
    const PassCount &first = series.passes.front(), &last = series.passes.back();
    if (!first.counted || !last.counted)
        return "";
    if (series.passes.size() == 1)
        return fmt::format(" It washed out {} of {:.2f} mm and larger.",
                           piecesBrought(first.pieces), series.from.value());
    return fmt::format(" The first washed out {} of {:.2f} mm and larger, the last one {}.",
                       piecesBrought(first.pieces), series.from.value(), last.pieces);
}

std::string whetherClean(const FlushDecay& decay) {
    const auto lastShare = [&] { return 100.0 * decay.ratios.back()->ratio; };
    switch (decay.verdict) {
    case FlushVerdict::clean:
        return fmt::format("It is clean now: the last time brought {:.0f} % of all that came out, "
                           "and a tenth or less counts as clean.",
                           lastShare());
    case FlushVerdict::goOn:
        return fmt::format("It is not clean yet: the last time still brought {:.0f} % of all that "
                           "came out; a tenth or less counts as clean.",
                           lastShare());
    case FlushVerdict::changeMethod:
        return fmt::format("It did not come clean this way: the last time still brought {:.0f} % "
                           "of all that came out, so it has to be cleaned in another way.",
                           lastShare());
    case FlushVerdict::nothingCame:
        return "Nothing of that size came out of it.";
    case FlushVerdict::notKnown:
        break;
    }
    return "Whether it is clean is not known: a photo of what came out could not be counted.";
}

} // namespace

std::string flushedSentence(const FlushOfPart& flush) {
    const FlushSeries& series = flush.series;
    if (series.passes.empty())
        return "";
    const std::size_t times = series.passes.size();
    return asSentence(fmt::format("{} was flushed {}", flush.part,
                                  times == 1 ? "once" : fmt::format("{} times", times))) +
           whatPassesBrought(series) + " " + whetherClean(series.decay);
}

std::vector<std::string> photoSentences(const ReportModel& model) {
    std::vector<std::string> sentences;
    for (const ReportedSample& sample : model.samples) {
        if (sample.ofFlush)
            continue; // the flush itself is told, pass by pass
        sentences.push_back(
            fmt::format("{}: {}", placeTitle(sample.place),
                        sample.magnet ? coatSentences(sample) : sampleSentence(sample)));
        if (const std::string magnet = sample.afterMagnet ? sweepInShort(*sample.afterMagnet) : "";
            !magnet.empty())
            sentences.back() += " " + magnet;
        if (!sample.byHand.empty())
            sentences.back() += " " + byHandSentence(sample);
    }
    return sentences;
}

} // namespace swarfbook
