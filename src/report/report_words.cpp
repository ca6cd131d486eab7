// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_words.h"

#include "particles/count.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace swarfbook {

namespace {

constexpr double k95 = 1.959964; // two-sided 95 % of the normal distribution

/// Two digits that count, never in powers of ten.
std::string twoDigits(double value) {
    return value < 100.0 ? fmt::format("{:.2g}", value) : fmt::format("{:.0f}", value);
}

/// The longest thread or the longest other piece, none that is doubtful.
const Particle* longestOf(const DebrisFinding& debris, bool thread) {
    const Particle* longest = nullptr;
    for (const Particle& particle : debris.particles)
        if ((particle.type == ParticleType::fibre) == thread && !particle.mayBeNone() &&
            (longest == nullptr || particle.maxFeret.value > longest->maxFeret.value))
            longest = &particle;
    return longest;
}

} // namespace

std::string asSentence(std::string text) {
    if (text.empty())
        return text;
    if (text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    const char last = text.back();
    return last == '.' || last == '!' || last == '?' ? text : text + ".";
}

std::string contactLine(const ReportedJob& job) {
    std::string line = job.address;
    if (!job.telephone.empty())
        line += (line.empty() ? "" : ", ") + ("telephone " + job.telephone);
    return line;
}

std::string placeTitle(Place place) {
    switch (place) {
    case Place::pan:
        return "Pan floor";
    case Place::magnet:
        return "Magnet";
    case Place::filter:
        return "Filter";
    case Place::tray:
        return "Wash tray";
    case Place::pad:
        return "Debris on the white card";
    case Place::strained:
        return "Strained fluid";
    }
    throw std::logic_error("a place without a title");
}

std::string lengthWords(const Measured<Millimetres>& length) {
    const double half = std::max(0.01, k95 * length.standardUncertainty.value());
    return fmt::format("{:.2f} \u00b1 {:.2f} mm", length.value.value(), half);
}

std::string sizeWords(const ClassCount& row) {
    const double from = toMillimetres(row.from).value();
    if (!std::isfinite(row.to.value()))
        return fmt::format("{:g} mm and more", from);
    return fmt::format("{:g} to {:g} mm", from, toMillimetres(row.to).value());
}

std::string intervalWords(double value, double low, double high) {
    const double shown = std::max(std::abs(value), std::abs(high));
    const int decimals = shown >= 100.0 ? 0 : 1;
    return fmt::format("{:.{}f} ({:.{}f} to {:.{}f})", value, decimals, low, decimals, high,
                       decimals);
}

std::string wearWords(const WearScoreResult& score) {
    if (const auto* none = std::get_if<NoWearScore>(&score))
        return "Not computed: " + asSentence(none->why) + " " + asSentence(none->advice);
    const WearScore& wear = std::get<WearScore>(score);
    return fmt::format("{}{:.0f} ({:.0f} to {:.0f}) of 100, higher means more wear, 95 % interval; "
                       "{}, over {}, pieces of {:.2f} mm and more",
                       wear.atLeast ? "at least " : "", wear.value, wear.low, wear.high,
                       placeWord(wear.place), distanceWords(wear.since.value()),
                       wear.detectionLimit.value());
}

std::string ferrousWords(Ferrous ferrous) {
    switch (ferrous) {
    case Ferrous::yes:
        return "yes";
    case Ferrous::no:
        return "no";
    case Ferrous::notKnown:
        break;
    }
    return "not known";
}

const Particle* longestPiece(const DebrisFinding& debris) {
    return longestOf(debris, false);
}

const Particle* longestThread(const DebrisFinding& debris) {
    return longestOf(debris, true);
}

Measured<Millimetres> widthOf(const Particle& piece) {
    const double length = std::max(piece.length.value(), piece.maxFeret.value.value());
    const double area = piece.area.value.value();
    if (piece.type != ParticleType::fibre || !(length > 0.0) || !(area > 0.0))
        return piece.minFeret;
    const double width = area / length;
    const double relative = std::hypot(piece.area.standardUncertainty.value() / area,
                                       piece.maxFeret.standardUncertainty.value() / length);
    return {Millimetres(width), Millimetres(width * relative)};
}

std::size_t piecesInDoubt(const DebrisFinding& debris) {
    return static_cast<std::size_t>(std::count_if(debris.particles.begin(), debris.particles.end(),
                                                  [](const Particle& p) { return p.mayBeNone(); }));
}

std::string doubtSentence(const DebrisFinding& debris) {
    const std::size_t doubtful = piecesInDoubt(debris);
    if (doubtful == 0)
        return "";
    return fmt::format("{} of these {} doubtful.", doubtful, doubtful == 1 ? "is" : "are");
}

std::string sampleSentence(const ReportedSample& sample) {
    if (sample.refusal)
        return (sample.refusal->reason == RefusalReason::findingDamaged
                    ? "Left out: "
                    : "Could not be measured: ") +
               asSentence(sample.refusal->detail) + " " + asSentence(sample.refusal->advice);
    if (sample.debris.shownOnly)
        return "Shown, not counted. " + sample.debris.shownOnly->why + " " +
               sample.debris.shownOnly->advice;
    if (sample.debris.particles.empty())
        return fmt::format("No piece found{}. The photo is complete down to {:.2f} mm; "
                           "smaller pieces may be there.",
                           sample.magnet ? " beside the magnet" : "",
                           sample.debris.detectionLimit.value());
    std::string sentence = sample.magnet ? "On the paper beside the magnet: " : "";
    sentence += piecesWords(sample.debris) + ".";
    if (const Particle* piece = longestPiece(sample.debris))
        sentence += fmt::format(" Longest piece: {} ({}).", lengthWords(piece->maxFeret),
                                typeWord(piece->type));
    if (const Particle* thread = longestThread(sample.debris))
        sentence += fmt::format(" Longest thread: {}.", lengthWords(thread->maxFeret));
    if (const std::string doubt = doubtSentence(sample.debris); !doubt.empty())
        sentence += " " + doubt;
    if (sample.place == Place::magnet && !sample.magnet)
        sentence += " The fuzz on the magnet itself was not measured" +
                    (sample.magnetNote.empty() ? "." : ": " + asSentence(sample.magnetNote));
    return sentence;
}

std::string correctedSentence(const CorrectedPiece& piece) {
    const PieceCorrection& said = piece.correction;
    const std::string by = said.reason.by.empty() ? "" : fmt::format(" (by {})", said.reason.by);
    if (!piece.piece)
        return fmt::format("The piece at {:.1f}, {:.1f} mm, said to be {}{}, is no longer found.",
                           said.at.x, said.at.y, said.said, by);
    const std::string_view counted =
        said.said == "not debris" || said.said == "left over" ? " and is not counted" : "";
    return fmt::format("Piece {}, measured as {}, is {}{}{}.", *piece.piece, piece.measuredAs,
                       said.said, counted, by);
}

std::string byHandSentence(const ReportedSample& sample) {
    std::string all;
    for (const std::string& sentence : sample.byHand)
        all += " " + sentence;
    return all.empty() ? "" : "Corrected by hand:" + all;
}

std::string comparisonSentence(const ReportModel& model) {
    if (!model.comparison)
        return model.noComparison;
    const ReportedComparison& both = *model.comparison;
    return fmt::format("{}, {} against {}: {}", placeTitle(both.place), dateWords(both.nowDate),
                       dateWords(both.beforeDate), both.sentence);
}

std::string ratioWords(const ReportedChange& change) {
    if (change.ratio && std::isfinite(change.high))
        return fmt::format("{} ({} to {})", twoDigits(*change.ratio), twoDigits(change.low),
                           twoDigits(change.high));
    if (change.low > 0.0)
        return "at least " + twoDigits(change.low);
    return "no ratio can be given";
}

std::string typesWord(const std::optional<ParticleType>& type) {
    return type ? std::string(typeWord(*type)) : "all pieces";
}

std::string countUnit(const DebrisFinding& debris) {
    return debris.onWhiteCard ? "pieces in the sample" : "pieces per 100 cm\u00b2 of measured area";
}

std::string piecesWords(const DebrisFinding& debris) {
    const PiecesFound found = piecesFound(debris);
    std::string words =
        fmt::format("{} {} of {:.2f} mm or more", found.fromFloor,
                    found.fromFloor == 1 ? "piece" : "pieces", debris.detectionLimit.value());
    if (found.smaller > 0)
        words += fmt::format(" and at least {} smaller", found.smaller);
    return words;
}

std::vector<ClassCount> rowsToShow(const DebrisFinding& debris) {
    std::vector<ClassCount> rows = debris.counts;
    while (rows.size() > 1 && rows.back().count == 0)
        rows.pop_back();
    return rows;
}

std::string cardSentence(const ReportedSample& sample) {
    std::string sentence =
        fmt::format("Card \"{}\", {}", sample.layout,
                    sample.serial.empty() ? "serial number not given" : "serial " + sample.serial);
    const double u = 100.0 * sample.printScale.standardUncertainty;
    sentence += sample.printScale.checked
                    ? fmt::format("; print scale checked: {:.4f}, standard uncertainty {:.2f} %",
                                  sample.printScale.value, u)
                    : fmt::format("; print scale not checked: every length may be off by {:.1f} % "
                                  "(standard uncertainty)",
                                  u);
    return sentence +
           fmt::format("; seen at {:.0f}\u00b0 from straight above.", sample.tilt.value());
}

std::vector<std::string> notLookedAt(const ReportModel& model) {
    std::vector<std::string> all;
    auto add = [&](std::string text) {
        text = asSentence(std::move(text));
        if (!text.empty() && std::find(all.begin(), all.end(), text) == all.end())
            all.push_back(std::move(text));
    };
    for (const std::string& what : model.notInspected)
        add("Not inspected: " + what);
    for (const std::string& what : model.notKnown)
        add(what);
    if (model.suggestion)
        for (const std::string& what : model.suggestion->notKnown)
            add(what);
    return all;
}

} // namespace swarfbook
