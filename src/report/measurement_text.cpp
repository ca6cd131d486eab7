// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/measurement_text.h"

#include "assess/sample_basis_json.h"
#include "particles/type_evidence.h"
#include "report/basis_words.h"
#include "report/clean_reference_words.h"
#include "report/magnet_words.h"
#include "report/report_words.h"
#include "report/second_light_words.h"
#include "report/size_words.h"
#include "report/sweep_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// ", 3.1 px in the window's softest part"
std::string worstEdgeWords(const Measurement& m) {
    Pixels widest;
    for (const EdgeWidths& place : m.edgesOverWindow)
        widest = std::max(widest, place.wider());
    return m.edgesOverWindow.empty()
               ? ""
               : fmt::format(", {:.1f} px in the window's softest part", widest.value());
}

std::vector<MeasuredFact> cardFacts(const Measurement& m) {
    const CardFacts& c = *m.card;
    return {{"card", fmt::format("{} layout, {} of 10 markers used, seen {:.0f} degrees off the "
                                 "vertical, {:.1f} px/mm ± {:.2f} %",
                                 c.layout, c.markersUsed, c.tilt.value(), c.scale.value(),
                                 1.96 * c.scaleUPercent)},
            {"print scale",
             c.printScale.checked
                 ? fmt::format("{:.4f} ± {:.4f}, from the check bar", c.printScale.value,
                               1.96 * c.printScale.standardUncertainty)
                 : fmt::format("not checked, so every length carries ± {:.0f} %; measure the "
                               "card's check bar and give --measured-bar MM",
                               196.0 * c.printScale.standardUncertainty)},
            {"edges", fmt::format("{:.1f} px wide ({:.3f} mm){}", m.edgeWidth.value(),
                                  m.edgeWidthOnCard.value(), worstEdgeWords(m))}};
}

std::vector<MeasuredFact> limitFacts(const DebrisFinding& d) {
    std::vector<MeasuredFact> facts{
        {"size limit",
         fmt::format("complete down to {:.2f} mm (nine of ten pieces; fewer threads); nothing "
                     "shows under {:.2f} mm{}",
                     d.detectionLimit.value(), d.resolutionLimit.value(),
                     d.onWhiteCard ? "" : "; smaller ones show when spread on the white card")}};
    if (!d.leftOut.empty())
        facts.push_back(
            {"left out", fmt::format("{:.1f} cm² of the window's {:.1f} cm² ({}): not counted as "
                                     "clean",
                                     d.windowArea.value() - d.measuredArea.value(),
                                     d.windowArea.value(), d.leftOut.front().why)});
    return facts;
}

std::string typesOf(const ClassCount& row) {
    std::string out;
    for (int i = 0; i < particleTypeCount; ++i)
        if (const int n = row.byType[static_cast<std::size_t>(i)]; n > 0)
            out += fmt::format("{}{} {}", out.empty() ? "" : ", ", n,
                               typeWord(static_cast<ParticleType>(i)));
    return out;
}

std::vector<CountWords> countsInWords(const DebrisFinding& d) {
    std::vector<CountWords> rows;
    for (const ClassCount& row : rowsToShow(d))
        rows.push_back({row.sizeClass, sizeWords(row),
                        intervalWords(row.per100Cm2, row.intervalLow, row.intervalHigh) +
                            (row.complete ? "" : ", minimum"),
                        typesOf(row)});
    return rows;
}

std::vector<MeasuredFact> sampleFacts(const Measurement& m) {
    const DebrisFinding& d = *m.debris;
    std::vector<MeasuredFact> facts;
    if (d.shownOnly) {
        facts = {{"shown, not counted", d.shownOnly->why}, {"what to do", d.shownOnly->advice}};
    } else {
        if (const std::string doubt = doubtSentence(d); !doubt.empty())
            facts.push_back({"doubt", doubt});
        if (d.sizeSampling)
            facts.push_back({"sizes", sizeSamplingSentence(*d.sizeSampling)});
        if (!d.code.empty())
            facts.push_back({"ISO 16232 code", d.code});
    }
    for (const std::string& line : basisSentences(m.basis, d, areaRelativeU(*m.card)))
        facts.push_back({"sample", line});
    return facts;
}

std::string magnetWords(Ferrous ferrous) {
    return ferrous == Ferrous::yes ? ", magnetic" : ferrous == Ferrous::no ? ", not magnetic" : "";
}

std::vector<MeasuredFact> largestPieces(const DebrisFinding& d) {
    std::vector<MeasuredFact> facts;
    for (const Particle& p : d.particles) {
        if (p.mayBeNone() || p.type == ParticleType::fibre || facts.size() == 5)
            continue;
        const std::string who = whoSaidType(p);
        facts.push_back(
            {longestSideWords(p),
             fmt::format("{}{}{}{}{}", typeWord(p.type), who.empty() ? "" : " (" + who + ")",
                         magnetWords(p.ferrous), p.atEdge ? ", touches the window's edge" : "",
                         p.mayBeSeveral ? ", may be several" : "")});
    }
    return facts;
}

std::vector<MeasuredFact> furtherFacts(const Measurement& m, const std::string& coatClass) {
    std::vector<MeasuredFact> facts;
    if (const Particle* thread = longestThread(*m.debris))
        facts.push_back({"longest thread", lengthWords(thread->maxFeret)});
    if (m.magnet)
        facts.push_back(
            {"magnet", magnetSentence(*m.magnet) + (coatClass.empty() ? "" : " " + coatClass)});
    if (const std::string height = m.magnet ? magnetHeightSentence(*m.magnet) : ""; !height.empty())
        facts.push_back({"magnet", height});
    if (!m.magnetNote.empty())
        facts.push_back({"magnet", "not measured. " + m.magnetNote});
    if (const std::string cleanReference = cleanReferenceSentence(m); !cleanReference.empty())
        facts.push_back({"cleaned place", cleanReference});
    return facts;
}

std::string linesOf(const std::vector<MeasuredFact>& facts) {
    std::string out;
    for (const MeasuredFact& fact : facts)
        out += fmt::format("  {}: {}\n", fact.name, fact.words);
    return out;
}

std::string countLines(const MeasuredWords& words) {
    if (words.countsPer.empty())
        return "";
    std::string out = fmt::format("  counts, {} (95 % interval):\n", words.countsPer);
    for (const CountWords& row : words.counts)
        out += fmt::format("    {:<2} {:<16} {:<29} {}\n", row.sizeClass, row.sizes, row.count,
                           row.types);
    return out;
}

std::string largestLines(const std::vector<MeasuredFact>& largest) {
    std::string out = largest.empty() ? "" : "  largest pieces:\n";
    for (const MeasuredFact& piece : largest)
        out += fmt::format("    {:<18} {}\n", piece.name, piece.words);
    return out;
}

} // namespace

MeasuredWords measuredWords(const Measurement& m, const std::string& coatClass) {
    MeasuredWords words;
    words.card = cardFacts(m);
    words.limits = limitFacts(*m.debris);
    if (!m.debris->shownOnly) {
        words.countsPer = countUnit(*m.debris);
        words.counts = countsInWords(*m.debris);
    }
    words.sample = sampleFacts(m);
    words.largest = largestPieces(*m.debris);
    words.more = furtherFacts(m, coatClass);
    return words;
}

std::string measurementText(const Measurement& m, const std::string& coatClass) {
    std::string out = fmt::format("{} ({})\n", m.photo.file, placeWords(m.place, m.basis));
    if (m.refusal)
        return out + fmt::format("  could not be measured: {}\n  what to do: {}\n",
                                 m.refusal->detail, m.refusal->advice);
    const MeasuredWords words = measuredWords(m, coatClass);
    out += linesOf(words.card) + linesOf(words.limits) + countLines(words) + linesOf(words.sample) +
           largestLines(words.largest) + linesOf(words.more);
    out += afterMagnetLines(m);
    out += secondLightLine(m);
    for (const std::string& caution : m.cautions)
        out += "  caution: " + caution + "\n";
    return out;
}

} // namespace swarfbook
