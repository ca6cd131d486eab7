// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_words.h"

#include <algorithm>
#include <array>

namespace swarfbook {

namespace {

/// A usual caution of the trade, and words that tell that another caution says it already.
struct UsualCaution {
    const char* saidBy;
    const char* sentence;
};

/// In our words; common practice, the maker's procedure and local rules come first.
constexpr std::array usualCautions{
    UsualCaution{"rated hoist", "Lift only with a rated hoist or stands on hard level ground, "
                                "wheels chocked; never work under a vehicle on a jack."},
    UsualCaution{"in front or behind",
                 "Engine running: brake on, nobody in front or behind the vehicle."},
    UsualCaution{"hot exhaust", "Working fluid is 80 to 100 \u00b0C hot: let it cool, wear sleeves "
                                "and gloves, keep it off hot exhausts."},
    UsualCaution{"unplugged",
                 "Ignition off and modules asleep before anything is unplugged; never feed a "
                 "solenoid through the control unit. High-voltage hybrids: trained staff only."},
    UsualCaution{"no flame", "Solvents: fresh air, gloves, no flame; no chlorinated cleaner near "
                             "welding or hot metal."},
    UsualCaution{"Compressed air", "Compressed air: eye protection, low pressure, chip guarding; "
                                   "springs and parts can fly out of bores."},
    UsualCaution{"Slivers cut", "Slivers cut and stay in the skin: touch debris through nitrile "
                                "gloves or paper only."},
    UsualCaution{"heart implants",
                 "Magnets and demagnetisers: people with heart implants keep at least 15 cm from "
                 "magnets and stay out of the room when a demagnetiser runs."},
    UsualCaution{"clutch dust",
                 "No blowing of clutch dust: it and old gaskets may hold harmful fibre."},
    UsualCaution{"licensed collector",
                 "Used fluid, filters, rags and solvent go separately to a licensed collector."},
    UsualCaution{"drive wheels",
                 "Do not tow with the drive wheels turning and the engine off; lift "
                 "them or use a flatbed."},
    UsualCaution{
        "Stall",
        "Stall and pressure tests: short, wheels chocked, within the maker's limits only."},
};

bool anyFrame(const ReportModel& model) {
    return std::any_of(model.samples.begin(), model.samples.end(),
                       [](const ReportedSample& s) { return !s.refusal && !s.debris.isPad; });
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
        "The size floor is the smallest size that the photo can be trusted to show, from its "
        "resolution and sharpness. Smaller debris may be there; nothing is claimed of it.",
        "Counts go by the size classes of ISO 16232. The interval in brackets is the exact 95 % "
        "Poisson interval: it holds the chance in a count of this size, not pieces that were "
        "missed or taken for debris wrongly.",
    };
    if (anyFrame(model))
        list.push_back("On a frame, pieces that touch the window's edge are left out and the "
                       "others weighted for it (Miles-Lantu\u00e9joul, ISO 13322-1); counts are "
                       "then per 100 cm\u00b2 of the area that could be measured.");
    list.push_back("The look (bright metal, yellow metal, lining, polymer, fibre) is what a photo "
                   "can tell of a material; the share beside it is how sure the program is. A "
                   "photo cannot show whether metal is magnetic.");
    if (anyMagnet(model))
        list.push_back("The coat on a magnet gathers since it was last cleaned and a full magnet "
                       "gathers no more: a coat tells less than a count.");
    list.push_back("There is no accepted number for too much debris. The verdict rests on kind, "
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
    for (const UsualCaution& usual : usualCautions)
        if (std::none_of(list.begin(), list.end(), [&](const std::string& said) {
                return said.find(usual.saidBy) != std::string::npos;
            }))
            list.emplace_back(usual.sentence);
    return list;
}

} // namespace swarfbook
