// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/measure_for_book.h"

#include "base/errors.h"
#include "cli/book_pages.h"
#include "cli/command.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <iostream>

namespace swarfbook::cli {

std::string programVersion() {
    return SWARFBOOK_VERSION;
}

AssessOptions assessOptions(const Book& book, const HowMeasured& how) {
    AssessOptions options;
    options.place = how.place;
    options.serial = how.serial;
    if (how.typedBarMm)
        options.measuredBar = Millimetres(*how.typedBarMm);
    if (how.serial.empty() || how.typedBarMm)
        return options;
    const auto card = book.card(how.serial);
    if (!card)
        throw UsageError(fmt::format(
            "There is no card {0} in the book, so its true scale is not known. Check the number "
            "printed on it; give its check bar with --measured-bar MM; or keep it in the book "
            "with: swarfbook card --layout close --serial {0} --measured-bar MM.",
            how.serial));
    if (card->measuredBarMm)
        options.measuredBar = Millimetres(*card->measuredBarMm);
    return options;
}

std::string optionsText(const HowMeasured& how, const AssessOptions& used) {
    const nlohmann::json none = nullptr;
    return nlohmann::json{
        {"place", placeName(how.place)},
        {"serial", how.serial.empty() ? none : nlohmann::json(how.serial)},
        {"typed_bar_mm", how.typedBarMm ? nlohmann::json(*how.typedBarMm) : none},
        {"measured_bar_mm", used.measuredBar ? nlohmann::json(used.measuredBar->value()) : none}}
        .dump();
}

HowMeasured howMeasured(const StoredPhoto& photo) {
    const auto options = nlohmann::json::parse(photo.options, nullptr, false);
    HowMeasured how;
    how.place = photo.place;
    if (!options.is_object())
        return how;
    if (const auto serial = options.find("serial"); serial != options.end() && serial->is_string())
        how.serial = serial->get<std::string>();
    if (const auto bar = options.find("typed_bar_mm"); bar != options.end() && bar->is_number())
        how.typedBarMm = bar->get<double>();
    return how;
}

void checkCardOfSerial(const Book& book, const HowMeasured& how, const Measurement& measurement) {
    if (how.serial.empty() || !measurement.card)
        return;
    const auto card = book.card(how.serial);
    if (card && card->layout != measurement.card->layout)
        throw UsageError(fmt::format(
            "{} shows a {} card, and card {} is a {} one. Check the number printed on the card. "
            "Nothing was kept.",
            measurement.photo.file, measurement.card->layout, card->serial, card->layout));
}

int measureAgain(Book& book, std::int64_t visitId) {
    const std::vector<StoredPhoto> photos = book.photos(book.visit(visitId).id);
    if (photos.empty())
        throw EvidenceRefused(fmt::format("Visit {0} has no photos to measure. Add one with: "
                                          "swarfbook add --visit {0} PHOTO --place pan.",
                                          visitId));
    const AssessData data = loadAssessData();
    int code = done;
    BookTransaction transaction = book.begin();
    for (const StoredPhoto& photo : photos) {
        std::cerr << fmt::format("measuring {} ...\n", photo.fileName);
        const HowMeasured how = howMeasured(photo);
        const AssessOptions options = assessOptions(book, how);
        (void)book.originalBytes(photo.sha256); // refuses a changed original
        Measurement now = assessPhotoFile(book.originalPhoto(photo.sha256), data, options);
        now.photo.file = photo.fileName;
        const bool worse = now.refusal && !photo.measurement.refusal;
        if (!worse)
            book.addFinding(photo.id, now, optionsText(how, options), programVersion());
        code = now.refusal ? static_cast<int>(refused) : code;
        std::cout << fmt::format("{}: {}, {}{}\n", photo.fileName, placeName(photo.place),
                                 findingInShort(now),
                                 worse ? " The finding from before still counts." : "");
    }
    transaction.commit();
    return code;
}

} // namespace swarfbook::cli
