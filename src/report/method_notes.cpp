// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/method_notes.h"

#include "particles/repeats.h"
#include "report/check_study.h"
#include "report/clean_reference_words.h"
#include "report/report_words.h"
#include "report/size_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace swarfbook {
namespace {

std::string checksOfCard(const std::vector<StoredCheck>& all, const std::string& serial) {
    std::vector<StoredCheck> own;
    std::copy_if(all.begin(), all.end(), std::back_inserter(own),
                 [&](const StoredCheck& check) { return check.serial == serial; });
    if (own.empty())
        return fmt::format("Card {} was not checked with a thing of known size.", serial);
    std::string text = checkSentence(own.back());
    if (own.size() > 1) {
        const auto agreeing =
            std::count_if(own.begin(), own.end(), [](const StoredCheck& c) { return c.agrees(); });
        text += fmt::format(" Of {} such readings with this card {} agree.", own.size(), agreeing);
    }
    return text;
}

} // namespace

std::vector<std::string> repeatNotes(const std::vector<StoredPhoto>& photos) {
    std::map<std::tuple<Place, std::string, bool>, std::vector<DebrisFinding>> samples;
    for (const StoredPhoto& photo : photos)
        if (!photo.measurement.refusal && photo.measurement.debris)
            samples[{photo.place, samplingOf(photo.sampling, photo.measurement.basis),
                     photo.measurement.debris->onWhiteCard}]
                .push_back(*photo.measurement.debris);
    std::vector<std::string> notes;
    for (const auto& [sample, findings] : samples)
        if (findings.size() > 1)
            notes.push_back(placeTitle(std::get<0>(sample)) + ": " +
                            repeatsSentence(combineRepeats(findings)));
    return notes;
}

std::vector<std::string> methodNotes(const Book& book, const std::vector<StoredPhoto>& photos) {
    std::vector<std::string> notes = repeatNotes(photos);
    for (const StoredPhoto& photo : photos)
        if (const std::string cleanReference = cleanReferenceSentence(photo.measurement);
            !cleanReference.empty())
            notes.push_back(placeTitle(photo.place) + ": " + cleanReference);
    std::set<std::string> serials;
    for (const StoredPhoto& photo : photos)
        if (photo.measurement.card && !photo.measurement.card->serial.empty())
            serials.insert(photo.measurement.card->serial);
    const std::vector<StoredCheck> checks = book.checks();
    for (const std::string& serial : serials)
        notes.push_back(checksOfCard(checks, serial));
    return notes;
}

} // namespace swarfbook
