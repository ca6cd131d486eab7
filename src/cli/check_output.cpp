// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/check_output.h"

#include "assess/text_or_null.h"
#include "cli/text_table.h"
#include "report/check_study.h"

#include <fmt/format.h>

#include <cmath>

namespace swarfbook::cli {
namespace {

using nlohmann::ordered_json;

double rounded(double value) {
    return std::round(value * 1e5) / 1e5;
}

std::string thingWords(const StandardReading& reading) {
    if (reading.kind)
        return std::string(standardName(*reading.kind));
    return "bar (round or flat? --thing shank, wire or strip makes it surer)";
}

std::string readingText(const StandardCheck& check, const std::string& known) {
    const StandardReading& r = *check.reading;
    const double u = r.size.standardUncertainty.value();
    std::string text = fmt::format(
        "  {} at {:.0f}, {:.0f} mm: reads {:.3f} \u00b1 {:.3f} mm (k = 2), seen as {:.3f} mm on "
        "the card's plane\n",
        thingWords(r), r.centre.x, r.centre.y, r.size.value.value(), 2.0 * u, r.seen.value());
    const Conformity& a = *check.conformity;
    text += fmt::format("  known: {}; off by {:+.3f} mm, {} the \u00b1 {:.3f} mm of both together: "
                        "{}\n",
                        known, a.off.value(), a.agrees() ? "inside" : "outside", a.expanded.value(),
                        a.agrees() ? "agrees"
                                   : "does NOT agree. Check the typed size, the card's check bar "
                                     "(--measured-bar) and that the card lay flat");
    text += "  uncertainty from:";
    for (const UncertaintyPart& part : r.parts)
        text += fmt::format("{} {} {:.4f} mm", &part == &r.parts.front() ? "" : ",", part.from,
                            part.standardUncertainty.value());
    text += "\n";
    if (!check.card->printScale.checked)
        text += "  the card's check bar was not measured, so the card may be printed too large or "
                "too small: for large things that is most of the uncertainty\n";
    return text;
}

} // namespace

std::string checkText(const StandardCheck& check, const std::string& known) {
    std::string text = check.photo.file + "\n";
    if (check.refusal)
        return text + fmt::format("  could not be measured: {}\n  what to do: {}\n",
                                  check.refusal->detail, check.refusal->advice);
    if (check.notRead)
        text += fmt::format("  not read: {}\n  what to do: {}\n", check.notRead->detail,
                            check.notRead->advice);
    else
        text += readingText(check, known);
    for (const std::string& caution : check.cautions)
        text += "  caution: " + caution + "\n";
    return text;
}

ordered_json checkJson(const StandardCheck& check) {
    ordered_json out{{"format", "swarfbook check 1"},
                     {"photo", {{"file", check.photo.file}, {"sha256", check.photo.sha256}}},
                     {"known_mm", rounded(check.thing.size.value.value())},
                     {"known_u_mm", rounded(check.thing.size.standardUncertainty.value())},
                     {"refusal", nullptr},
                     {"not_read", nullptr},
                     {"reading", nullptr}};
    if (check.refusal)
        out["refusal"] = {{"reason", reasonName(check.refusal->reason)},
                          {"detail", check.refusal->detail},
                          {"advice", check.refusal->advice}};
    if (check.notRead)
        out["not_read"] = {{"detail", check.notRead->detail}, {"advice", check.notRead->advice}};
    if (!check.reading)
        return out;
    const StandardReading& r = *check.reading;
    ordered_json parts = ordered_json::array();
    for (const UncertaintyPart& part : r.parts)
        parts.push_back({{"from", part.from}, {"u_mm", rounded(part.standardUncertainty.value())}});
    out["reading"] = {
        {"thing", r.kind ? ordered_json(standardName(*r.kind)) : ordered_json(nullptr)},
        {"size_mm", rounded(r.size.value.value())},
        {"size_u_mm", rounded(r.size.standardUncertainty.value())},
        {"seen_mm", rounded(r.seen.value())},
        {"x_mm", rounded(r.centre.x)},
        {"y_mm", rounded(r.centre.y)},
        {"length_mm", rounded(r.length.value())},
        {"off_mm", rounded(check.conformity->off.value())},
        {"expanded_mm", rounded(check.conformity->expanded.value())},
        {"agrees", check.conformity->agrees()},
        {"uncertainty_from", std::move(parts)}};
    out["cautions"] = check.cautions;
    return out;
}

std::string checksText(const std::vector<StoredCheck>& checks) {
    std::vector<std::vector<std::string>> rows{{"reading", "checked", "known", "thing", "reads, mm",
                                                "\u00b1 mm", "off, mm", "agrees", "by", "phone",
                                                "card"}};
    const auto orDash = [](const std::string& text) { return text.empty() ? "-" : text; };
    for (const StoredCheck& c : checks)
        rows.push_back({fmt::format("{}", c.id), c.checkedAt.substr(0, 10), c.knownText,
                        orDash(c.thing), fmt::format("{:.3f}", c.readingMm),
                        fmt::format("{:.3f}", c.expandedMm()), fmt::format("{:+.3f}", c.offMm()),
                        c.agrees() ? "yes" : "NO", orDash(c.seenBy), orDash(c.phone),
                        c.serial.empty() ? c.layout : c.serial});
    std::string text = textTable(rows) + "\n";
    for (const std::string& sentence : studySentences(studyChecks(checks)))
        text += sentence + "\n";
    return text;
}

ordered_json checksJson(const std::vector<StoredCheck>& checks) {
    ordered_json list = ordered_json::array();
    for (const StoredCheck& c : checks)
        list.push_back({{"number", c.id},
                        {"checked_at", c.checkedAt},
                        {"known", c.knownText},
                        {"known_mm", rounded(c.knownMm)},
                        {"known_u_mm", rounded(c.knownUMm)},
                        {"thing", textOrNull(c.thing)},
                        {"size_mm", rounded(c.readingMm)},
                        {"size_u_mm", rounded(c.readingUMm)},
                        {"off_mm", rounded(c.offMm())},
                        {"expanded_mm", rounded(c.expandedMm())},
                        {"agrees", c.agrees()},
                        {"by", textOrNull(c.seenBy)},
                        {"phone", textOrNull(c.phone)},
                        {"layout", c.layout},
                        {"serial", textOrNull(c.serial)},
                        {"print_scale_checked", c.printScaleChecked},
                        {"photo_sha256", c.photoSha256}});
    ordered_json out{{"format", "swarfbook checks 1"}, {"checks", std::move(list)}};
    out["study"] = nullptr;
    if (checks.empty())
        return out;
    const CheckStudy study = studyChecks(checks);
    out["agreeing"] = study.agreeing;
    out["mean_off_mm"] = rounded(study.meanOffMm);
    if (study.study)
        out["study"] = {
            {"people", study.people},
            {"things", study.things},
            {"trials", study.study->trials},
            {"repeatability_mm", rounded(study.study->repeatability)},
            {"reproducibility_mm", study.study->people > 1
                                       ? ordered_json(rounded(study.study->reproducibility))
                                       : ordered_json(nullptr)},
            {"both_mm", rounded(study.study->both)}};
    out["sentences"] = studySentences(study);
    return out;
}

} // namespace swarfbook::cli
