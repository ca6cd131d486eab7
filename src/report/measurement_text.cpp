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

std::string cardLines(const Measurement& m) {
    const CardFacts& c = *m.card;
    std::string out = fmt::format(
        "  card: {} layout, {} of 10 markers used, seen {:.0f} degrees off the vertical, {:.1f} "
        "px/mm ± {:.2f} %\n",
        c.layout, c.markersUsed, c.tilt.value(), c.scale.value(), 1.96 * c.scaleUPercent);
    if (c.printScale.checked)
        out += fmt::format("  print scale: {:.4f} ± {:.4f}, from the check bar\n",
                           c.printScale.value, 1.96 * c.printScale.standardUncertainty);
    else
        out +=
            fmt::format("  print scale: not checked, so every length carries ± {:.0f} %; measure "
                        "the card's check bar and give --measured-bar MM\n",
                        196.0 * c.printScale.standardUncertainty);
    out += fmt::format(
        "  edges: {:.1f} px wide ({:.3f} mm){}\n"
        "  size limit: complete down to {:.2f} mm (nine of ten pieces; fewer threads); nothing "
        "shows under {:.2f} mm{}\n",
        m.edgeWidth.value(), m.edgeWidthOnCard.value(), worstEdgeWords(m),
        m.debris->detectionLimit.value(), m.debris->resolutionLimit.value(),
        m.debris->onWhiteCard ? "" : "; smaller ones show when spread on the white card");
    return out;
}

std::string typesOf(const ClassCount& row) {
    std::string out;
    for (int i = 0; i < particleTypeCount; ++i)
        if (const int n = row.byType[static_cast<std::size_t>(i)]; n > 0)
            out += fmt::format("{}{} {}", out.empty() ? "" : ", ", n,
                               typeWord(static_cast<ParticleType>(i)));
    return out;
}

std::string countLines(const DebrisFinding& d) {
    std::string out = fmt::format("  counts, {} (95 % interval):\n", countUnit(d));
    for (const ClassCount& row : rowsToShow(d))
        out += fmt::format("    {:<2} {:<16} {:<29} {}\n", row.sizeClass, sizeWords(row),
                           intervalWords(row.per100Cm2, row.intervalLow, row.intervalHigh) +
                               (row.complete ? "" : ", minimum"),
                           typesOf(row));
    if (const std::string doubt = doubtSentence(d); !doubt.empty())
        out += "  doubt: " + doubt + "\n";
    if (d.sizeSampling)
        out += "  sizes: " + sizeSamplingSentence(*d.sizeSampling) + "\n";
    if (!d.code.empty())
        out += fmt::format("  ISO 16232 code: {}\n", d.code);
    return out;
}

std::string shownOnlyLines(const DebrisFinding& d) {
    return fmt::format("  shown, not counted: {}\n  what to do: {}\n", d.shownOnly->why,
                       d.shownOnly->advice);
}

std::string magnetWords(Ferrous ferrous) {
    return ferrous == Ferrous::yes ? ", magnetic" : ferrous == Ferrous::no ? ", not magnetic" : "";
}

std::string largestLines(const DebrisFinding& d) {
    std::string out;
    std::size_t shown = 0;
    for (const Particle& p : d.particles) {
        if (p.mayBeNone() || p.type == ParticleType::fibre || ++shown > 5)
            continue;
        const std::string who = whoSaidType(p);
        out += fmt::format("    {:<18} {}{}{}{}{}\n", longestSideWords(p), typeWord(p.type),
                           who.empty() ? "" : " (" + who + ")", magnetWords(p.ferrous),
                           p.atEdge ? ", touches the window's edge" : "",
                           p.mayBeSeveral ? ", may be several" : "");
    }
    if (!out.empty())
        out = "  largest pieces:\n" + out;
    if (const Particle* thread = longestThread(d))
        out += fmt::format("  longest thread: {}\n", lengthWords(thread->maxFeret));
    return out;
}

std::string leftOutLines(const DebrisFinding& d) {
    if (d.leftOut.empty())
        return "";
    return fmt::format("  left out: {} of the window's {:.1f} cm² ({}): not counted as clean\n",
                       fmt::format("{:.1f} cm²", d.windowArea.value() - d.measuredArea.value()),
                       d.windowArea.value(), d.leftOut.front().why);
}

} // namespace

std::string measurementText(const Measurement& m, const std::string& coatClass) {
    std::string out = fmt::format("{} ({})\n", m.photo.file, placeWords(m.place, m.basis));
    if (m.refusal)
        return out + fmt::format("  could not be measured: {}\n  what to do: {}\n",
                                 m.refusal->detail, m.refusal->advice);
    out += cardLines(m) + leftOutLines(*m.debris);
    out += m.debris->shownOnly ? shownOnlyLines(*m.debris) : countLines(*m.debris);
    for (const std::string& line : basisSentences(m.basis, *m.debris, areaRelativeU(*m.card)))
        out += "  sample: " + line + "\n";
    out += largestLines(*m.debris);
    if (m.magnet)
        out += "  magnet: " + magnetSentence(*m.magnet) +
               (coatClass.empty() ? "" : " " + coatClass) + "\n";
    if (const std::string height = m.magnet ? magnetHeightSentence(*m.magnet) : ""; !height.empty())
        out += "  magnet: " + height + "\n";
    if (!m.magnetNote.empty())
        out += "  magnet: not measured. " + m.magnetNote + "\n";
    if (const std::string cleanReference = cleanReferenceSentence(m); !cleanReference.empty())
        out += "  cleaned place: " + cleanReference + "\n";
    out += afterMagnetLines(m);
    out += secondLightLine(m);
    for (const std::string& caution : m.cautions)
        out += "  caution: " + caution + "\n";
    return out;
}

} // namespace swarfbook
