// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/coat_of_magnet.h"
#include "report/measurement_text.h"
#include "report/second_light_words.h"
#include "report/sweep_words.h"
#include "web/html.h"
#include "web/page_words.h"
#include "web/pages.h"

#include <fmt/format.h>

#include <string_view>

namespace swarfbook::web {
namespace {

std::string factList(const std::vector<MeasuredFact>& facts, std::string_view style = "facts") {
    std::string items;
    for (const MeasuredFact& fact : facts)
        items += fmt::format("<dt>{}</dt><dd>{}</dd>", escaped(fact.name),
                             escaped(forPages(fact.words)));
    return items.empty() ? "" : fmt::format("<dl class=\"{}\">{}</dl>", style, items);
}

std::string countTable(const MeasuredWords& words) {
    if (words.countsPer.empty())
        return "";
    std::string rows;
    for (const CountWords& row : words.counts)
        rows += fmt::format("<tr><th scope=\"row\">{}{}</th><td>{}{}</td></tr>", escaped(row.sizes),
                            row.sizeClass.empty() ? "" : ", " + escaped(row.sizeClass),
                            escaped(row.count),
                            row.types.empty() ? "" : "<small>" + escaped(row.types) + "</small>");
    return fmt::format("<table class=\"counts\"><caption>Counts, {}, with the 95 % interval; the "
                       "letter is the size class of ISO 16232</caption><thead><tr><th "
                       "scope=\"col\">size</th><th scope=\"col\">count, and of which "
                       "type</th></tr></thead><tbody>{}</tbody></table>",
                       escaped(words.countsPer), rows);
}

/// The coat in the trade's words; "" where no magnet was measured.
std::string coatClassOf(const Measurement& m) {
    if (!m.magnet)
        return "";
    return coatClassSentence(*m.magnet,
                             loadSuggestionModel(dataFolder() / "models" / "suggestion.json"));
}

/// What second photos showed.
std::vector<MeasuredFact> secondPhotoFacts(const Measurement& m) {
    std::vector<MeasuredFact> facts;
    if (m.afterMagnet)
        for (const std::string& sentence : sweepSentences(*m.afterMagnet))
            facts.push_back({"after the magnet", sentence});
    if (m.secondLight)
        facts.push_back({"second light", secondLightSentence(*m.secondLight, *m.debris)});
    return facts;
}

} // namespace

std::string measuredSection(const Measurement& m) {
    if (m.refusal || !m.debris || !m.card)
        return "";
    const MeasuredWords words = measuredWords(m, coatClassOf(m));
    std::string body = "<h2>What was measured</h2>" + factList(words.more) + countTable(words) +
                       factList(words.sample) + factList(words.limits);
    if (!words.largest.empty())
        body += "<h3>Largest pieces</h3>" + factList(words.largest, "facts short");
    return body + factList(secondPhotoFacts(m)) + "<details><summary>Card and sharpness</summary>" +
           factList(words.card) + "</details>";
}

} // namespace swarfbook::web
