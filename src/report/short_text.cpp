// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/short_text.h"

#include "base/text.h"
#include "report/customer_words.h"
#include "report/report_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace swarfbook {

namespace {

/// The first few sentences in one line, and how many more there are.
std::string inOneLine(const std::vector<std::string>& sentences, std::size_t most) {
    std::string line;
    for (std::size_t i = 0; i < std::min(most, sentences.size()); ++i)
        line += (line.empty() ? "" : " ") + sentences[i];
    if (sentences.size() > most)
        line += fmt::format(" And {} more.", sentences.size() - most);
    return line;
}

std::string workshopLine(const ReportedJob& job) {
    const std::string contact = contactLine(job);
    return job.workshop + (job.workshop.empty() || contact.empty() ? "" : ", ") + contact;
}

std::string jobLine(const ReportedJob& job) {
    std::string line =
        fmt::format("Transmission inspection: vehicle {}, {}", job.vehicle, dateWords(job.date));
    if (job.odometerKm)
        line += ", " + distanceWords(*job.odometerKm);
    if (!job.unit.empty())
        line += ", " + job.unit;
    if (!job.plate.empty())
        line += ", plate " + job.plate;
    if (!job.vin.empty())
        line += ", VIN " + job.vin;
    return line;
}

} // namespace

std::string shortReportText(const ReportModel& model) {
    std::vector<std::pair<std::string, std::string>> lines{{"", workshopLine(model.job)},
                                                           {"", jobLine(model.job)},
                                                           {"Complaint", model.job.complaint}};
    lines.emplace_back("", model.verdict);
    const std::vector<std::string> reasons = reasonSentences(model);
    for (std::size_t i = 0; i < std::min<std::size_t>(3, reasons.size()); ++i)
        lines.emplace_back("-", reasons[i]);
    if (!model.pieces.restedOn)
        lines.emplace_back("Photos", inOneLine(photoSentences(model), 1));
    lines.emplace_back("Since the last visit", comparisonSentence(model));
    if (model.suggestion) {
        lines.emplace_back("We suggest", inOneLine(suggestionSentences(*model.suggestion), 4));
        lines.emplace_back("If you wait", waitingSentence(model.suggestion));
    }
    std::vector<std::string> done = model.workDone;
    for (const FlushOfPart& flush : model.flushes)
        done.push_back(flushedSentence(flush));
    lines.emplace_back("What was done", inOneLine(done, 8));
    lines.emplace_back("Next check", model.nextCheck);
    lines.emplace_back("Not looked at or not known", inOneLine(notLookedAt(model), 2));
    lines.emplace_back("", std::string(standingLine()));
    std::string text;
    for (auto& [title, words] : lines) {
        if (words.empty())
            continue;
        std::replace(words.begin(), words.end(), '\n', ' ');
        text += title.empty() ? "" : title == "-" ? "- " : title + ": ";
        text += shown(words) + "\n";
    }
    return text;
}

} // namespace swarfbook
