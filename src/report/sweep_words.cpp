// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/sweep_words.h"

#include "report/report_words.h"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

namespace swarfbook {
namespace {

/// "47 % (33 to 63 %)"
std::string percentWords(const MagneticShare& share) {
    return fmt::format("{:.0f} % ({:.0f} to {:.0f} %)", 100.0 * share.share, 100.0 * share.low,
                       100.0 * share.high);
}

/// "47 % (33 to 63 %) by count, 40 % (25 to 59 %) by area"
std::string sharesWords(const SweepTally& tally) {
    if (!tally.byCount || !tally.byArea)
        return "share not known";
    return percentWords(*tally.byCount) + " by count, " + percentWords(*tally.byArea) + " by area";
}

std::string tallyWords(const SweepTally& tally) {
    return fmt::format("{} gone, {} left, {} not known", tally.gone, tally.left, tally.notKnown);
}

std::string piecesOf(int count, const char* what) {
    return fmt::format("{} piece{}{}", count, count == 1 ? "" : "s", what);
}

std::string movesWords(const MagnetSweep& sweep) {
    std::string out;
    if (sweep.moved > 0)
        out += fmt::format("; {} of those left lay elsewhere", sweep.moved);
    if (sweep.gained > 0)
        out += fmt::format("; {} after it that {} not seen before", piecesOf(sweep.gained, ""),
                           sweep.gained == 1 ? "was" : "were");
    if (sweep.smaller > 0)
        out += fmt::format("; {} smaller {} not judged", sweep.smaller,
                           sweep.smaller == 1 ? "one is" : "ones are");
    return out;
}

std::string placeLine(const MagnetSweep& sweep) {
    return sweep.placeByPieces
               ? ""
               : "    too few pieces are in both photos to show that the card lies on the same "
                 "spot; the pieces gone rest on that\n";
}

std::string classLines(const MagnetSweep& sweep) {
    std::string out;
    for (const SweepClass& c : sweep.classes) {
        ClassCount row;
        row.from = c.from;
        row.to = c.to;
        out += fmt::format("    {:<2} {:<16} {:<32} {}\n", c.sizeClass, sizeWords(row),
                           tallyWords(c.pieces), sharesWords(c.pieces));
    }
    return out;
}

/// Aluminium comes from other parts than steel, but both are bright in a photo.
std::string brightLine(const MagnetSweep& sweep) {
    const SweepTally& bright = sweep.bright;
    if (bright.gone + bright.left == 0)
        return "";
    if (bright.left == 0)
        return fmt::format("  bright, not magnetic: none; the magnet took {} of bright metal\n",
                           piecesOf(bright.gone, ""));
    return fmt::format("  bright, not magnetic: the magnet left {} of bright metal and took {}. "
                       "What it leaves may be aluminium, or stainless steel, which is often not "
                       "magnetic. Draw the magnet over again where fluid may hold steel.\n",
                       piecesOf(bright.left, ""), bright.gone);
}

/// Without the blanks and line end for a terminal.
std::string sentenceOfLine(const std::string& line) {
    const auto first = line.find_first_not_of(' ');
    if (first == std::string::npos)
        return "";
    std::string sentence = line.substr(first, line.find_last_not_of('\n') + 1 - first);
    sentence.front() =
        static_cast<char>(std::toupper(static_cast<unsigned char>(sentence.front())));
    return sentence.back() == '.' ? sentence : sentence + ".";
}

std::string tookLine(const MagnetSweep& sweep) {
    return fmt::format("  after the magnet: of {} {} of {:.2f} mm or more {}{}\n",
                       sweep.pieces.before(), sweep.pieces.before() == 1 ? "piece" : "pieces",
                       sweep.judgedFrom.value(), tallyWords(sweep.pieces), movesWords(sweep));
}

std::string shareLine(const MagnetSweep& sweep) {
    return fmt::format("  magnetic (95 % interval): {}\n", sharesWords(sweep.pieces));
}

} // namespace

std::string afterMagnetLines(const Measurement& measurement) {
    if (!measurement.afterMagnet)
        return "";
    if (!measurement.afterMagnet->sweep)
        return "  after the magnet: not known; the second photo was not used\n";
    const MagnetSweep& sweep = *measurement.afterMagnet->sweep;
    return tookLine(sweep) + placeLine(sweep) + shareLine(sweep) + classLines(sweep) +
           brightLine(sweep);
}

std::vector<std::string> sweepSentences(const AfterMagnet& after) {
    if (!after.sweep)
        return {"The photo after the magnet was not used, so it is not known which pieces are "
                "magnetic. " +
                after.whyNot};
    std::vector<std::string> sentences;
    for (const std::string& line : {tookLine(*after.sweep), shareLine(*after.sweep),
                                    brightLine(*after.sweep), placeLine(*after.sweep)})
        if (!line.empty())
            sentences.push_back(sentenceOfLine(line));
    return sentences;
}

std::string sweepInShort(const AfterMagnet& after) {
    if (!after.sweep || !after.sweep->pieces.byCount)
        return "";
    const MagneticShare& share = *after.sweep->pieces.byCount;
    std::string text = fmt::format("A magnet took {:.0f} % of the judged pieces of {:.2f} mm or "
                                   "more (95 %: {:.0f} to {:.0f} %): they are iron or steel.",
                                   100.0 * share.share, after.sweep->judgedFrom.value(),
                                   100.0 * share.low, 100.0 * share.high);
    if (const int left = after.sweep->bright.left; left > 0)
        text += fmt::format(" It left {} of bright metal, which may be aluminium or stainless "
                            "steel.",
                            piecesOf(left, ""));
    return text;
}

} // namespace swarfbook
