// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/cautions.h"
#include "report/report_words.h"

#include <algorithm>

namespace swarfbook {

namespace {

bool anyFrame(const ReportModel& model) {
    return std::any_of(model.samples.begin(), model.samples.end(),
                       [](const ReportedSample& s) { return !s.refusal && !s.debris.onWhiteCard; });
}

bool anyMagnet(const ReportModel& model) {
    return std::any_of(model.samples.begin(), model.samples.end(),
                       [](const ReportedSample& s) { return s.magnet.has_value(); });
}

} // namespace

std::vector<std::string> methodSentences(const ReportModel& model) {
    std::vector<std::string> list{
        "A length is the longest straight extent (maximum Feret diameter, ISO 13322-1) of a "
        "piece's outline on the plane of the printed card that lay in the photo. The figure after "
        "\u00b1 is the half-width of the 95 % interval (1.96 standard uncertainties) and holds the "
        "outline, the fit of the card and the card's print scale.",
        "A thick piece seen at a slant looks longer than it is; the angle of each photo is given. "
        "Pieces lying above or below the card's plane are seen a little too large or too small.",
        "Size limit: a photo is complete down to the size from which nine of ten pieces are found "
        "(threads less often). It depends on the sharpness of the photo and the texture of what "
        "the debris lies on, and was found with photos whose content is known. Some smaller pieces "
        "are missed, so their counts are minimum counts, and visits are compared from the size "
        "limit up.",
        "Counts go by the size classes of ISO 16232. The interval in brackets is the exact 95 % "
        "Poisson interval: it holds the chance in a count of this size, not pieces that were "
        "missed or taken for debris wrongly.",
    };
    if (anyFrame(model))
        list.emplace_back("On a frame, pieces that touch the window's edge are left out and the "
                          "others weighted for it (Miles-Lantu\u00e9joul, ISO 13322-1); counts are "
                          "then per 100 cm\u00b2 of the area that could be measured.");
    list.emplace_back(
        "The type (bright metal, yellow metal, lining, plastic, fibre) is what a photo "
        "can show of a material; the percentage beside it is how sure the program is that it is "
        "debris of that type. A piece is doubtful where the program is less than 80 % sure that "
        "it is debris at all; doubtful pieces are counted. A photo cannot show whether metal is "
        "magnetic.");
    if (anyMagnet(model))
        list.emplace_back("Fuzz gathers on a magnet from one clean to the next, and a full magnet "
                          "gathers no more: fuzz shows less than a count.");
    list.emplace_back(
        "There is no accepted number for too much debris. The verdict rests on kind, "
        "size, place and change over distance, together with what was tested; the wear "
        "score is this program's own index and compares one vehicle with itself only.");
    if (const auto* wear = std::get_if<WearScore>(&model.wearScore))
        list.push_back("Wear score: " + wear->method);
    list.insert(list.end(), model.methodNotes.begin(), model.methodNotes.end());
    return list;
}

std::vector<std::string> cautionSentences(const ReportModel& model) {
    std::vector<std::string> list;
    if (model.suggestion)
        list = model.suggestion->cautions;
    const bool stopped = model.suggestion && model.suggestion->doNotDrive;
    for (const Hazard hazard : allHazards()) {
        if (hazard == (stopped ? Hazard::towing : Hazard::drivingOn) ||
            hazard == Hazard::untestedMetal) // printed only if the judgement says it
            continue;
        const std::string_view usual = cautionSentence(hazard);
        if (std::find(list.begin(), list.end(), usual) == list.end())
            list.emplace_back(usual);
    }
    return list;
}

} // namespace swarfbook
