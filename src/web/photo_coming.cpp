// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/photo_coming.h"

#include "base/errors.h"
#include "entry/check_bar.h"
#include "entry/finding_words.h"
#include "record/entry_text.h"
#include "web/html.h"
#include "web/page_words.h"

#include <fmt/format.h>

#include <charconv>
#include <future>
#include <sys/resource.h>

namespace swarfbook::web {

namespace {

/// For the calling thread and those that it starts: who asks for a page waits for none of them.
/// Linux takes 0 for the thread; where it refuses, the photo is measured all the same.
void letOthersFirst() {
    constexpr int later = 10; // ours: pages get nine tenths of a core that both want
    (void)setpriority(PRIO_PROCESS, 0, later);
}

} // namespace

ComingPhoto comingPhotoOf(const Asked& asked) {
    const std::string size = asked.said("size");
    std::uint64_t bytes = 0;
    const auto [stop, error] = std::from_chars(size.data(), size.data() + size.size(), bytes);
    if (error != std::errc() || stop != size.data() + size.size())
        throw UsageError("The photo was not named with its size, so it was not added.");
    return {asked.said("sha256"), bytes};
}

Answer answeredOnce(Workshop& workshop, const ComingPhoto& coming,
                    const std::function<Answer()>& answer) {
    try {
        Answer given = answer();
        workshop.uploads.forget(coming);
        return given;
    } catch (const EvidenceRefused&) {
        workshop.uploads.forget(coming);
        throw;
    }
}

std::string photoNameOf(const Asked& asked) {
    const std::string file = asked.said("file");
    const std::string name = file.substr(file.find_last_of("/\\") + 1); // npos + 1 is 0
    return readableText(name.empty() ? "photo" : name);
}

std::optional<double> barTyped(const Asked& asked) {
    const std::string bar = asked.said("bar");
    if (bar.find_first_not_of(' ') == std::string::npos)
        return std::nullopt;
    return checkBarTyped(bar).value();
}

std::string barField() {
    return "<details><summary>The card has no code</summary>" +
           field({"bar", "Its check bar as callipers read it", "", "such as 79.6 mm or 3.15 in"}) +
           "</details>";
}

nlohmann::json toldOf(const StoredPhoto& photo, const std::string& before) {
    nlohmann::json cautions = nlohmann::json::array();
    for (const std::string& caution : photo.measurement.cautions)
        cautions.push_back(forPages(caution));
    return {{"photo", photo.id},
            {"href", fmt::format("/photo/{}", photo.id)},
            {"said", before + forPages(findingInFull(photo.measurement))},
            {"cautions", std::move(cautions)}};
}

Measurement
measuredForPages(Workshop& workshop,
                 const std::function<Measurement(const Book&, const AssessData&)>& measure) {
    const AssessData& data = workshop.measuringData();
    const std::lock_guard one(workshop.measuring);
    return std::async(std::launch::async,
                      [&] {
                          letOthersFirst();
                          const Book book = Book::openForReading(workshop.book.folder());
                          return measure(book, data);
                      })
        .get();
}

Answer refusedPhoto(const Refusal& refusal) {
    return json(
        jsonText({{"refused", forPages(refusal.detail)}, {"advice", forPages(refusal.advice)}}));
}

std::string jsonText(const nlohmann::json& document) {
    return document.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string howToHold() {
    // The phone straight above the card, from the side; then the card with its window, from above.
    return "<section><h2>How to hold phone and card</h2><svg class=\"hold\" viewBox=\"0 0 300 "
           "110\" aria-hidden=\"true\">"
           "<rect x=\"45\" y=\"8\" width=\"80\" height=\"9\" rx=\"3\"/>"
           "<path class=\"ray\" d=\"M85 17 30 94M85 17 140 94\"/>"
           "<path d=\"M15 102h140\"/><path class=\"thick\" d=\"M35 97h100\"/>"
           "<rect x=\"185\" y=\"8\" width=\"96\" height=\"96\" rx=\"3\"/>"
           "<rect x=\"197\" y=\"20\" width=\"72\" height=\"72\"/>"
           "<rect x=\"209\" y=\"32\" width=\"48\" height=\"48\" class=\"ray\"/>"
           "<circle cx=\"225\" cy=\"50\" r=\"3\"/><circle cx=\"242\" cy=\"66\" r=\"2\"/>"
           "<circle cx=\"238\" cy=\"45\" r=\"2\"/></svg>"
           "<ul class=\"how\"><li>Lay the card flat. Hold the phone straight above it, the whole "
           "card in the photo.</li><li>Use even light, without glare on the card and without flash "
           "on wet metal.</li><li>Come as near as the card allows, and focus on the "
           "card.</li></ul></section>";
}

std::string photoButtons() {
    return "<p id=\"missing\" role=\"alert\"></p>"
           "<label class=\"button main\" for=\"camera\">Take a photo</label>"
           "<input class=\"file\" id=\"camera\" type=\"file\" accept=\"image/*\" "
           "capture=\"environment\"><label class=\"button\" for=\"files\">Choose photos</label>"
           "<input class=\"file\" id=\"files\" type=\"file\" "
           "accept=\"image/*,.heic,.heif\" multiple>";
}

std::string sentPhotos() {
    return "<noscript>" + notice("warning", "Sending photos needs the browser's scripts.") +
           "</noscript><ul id=\"sent\" class=\"rows\" aria-live=\"polite\"></ul>";
}

} // namespace swarfbook::web
