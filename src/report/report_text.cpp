// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_text.h"

#include "base/text.h"
#include "judgement/flush_words.h"
#include "report/elimination_table.h"
#include "report/flush_table.h"
#include "report/magnet_words.h"
#include "report/report_words.h"
#include "report/report_work_photos.h"
#include "report/second_light_words.h"
#include "report/size_words.h"
#include "report/sweep_words.h"
#include "report/type_sources.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {

namespace {

/// Text with one line an entry; line breaks become blanks, and what else is unprintable is escaped.
class Lines {
  public:
    void line(const std::string& text) {
        std::string inOneLine = text;
        std::replace(inOneLine.begin(), inOneLine.end(), '\n', ' ');
        out_ += shown(inOneLine);
        out_ += '\n';
    }
    void heading(const std::string& text) {
        out_ += '\n';
        line(text);
    }
    void bullets(const std::vector<std::string>& list) {
        for (const std::string& entry : list)
            line("- " + entry);
    }
    /// "what: text", or nothing at all when there is no text.
    void said(const std::string& what, const std::string& text) {
        if (!text.empty())
            line(what + ": " + text);
    }
    [[nodiscard]] std::string str() const { return out_; }

  private:
    std::string out_;
};

void writeJob(Lines& lines, const ReportedJob& job) {
    lines.line("TRANSMISSION DEBRIS REPORT");
    lines.said("Workshop", job.workshop);
    lines.said("Address", job.address);
    lines.said("Telephone", job.telephone);
    lines.line(fmt::format("Vehicle {}, visit {}, {}{}", job.vehicle, job.visit,
                           dateWords(job.date),
                           job.odometerKm ? ", odometer " + distanceWords(*job.odometerKm) : ""));
    lines.said("Transmission", job.unit);
    lines.said("Plate", job.plate);
    lines.said("VIN", job.vin);
    lines.line("Since the last documented clean: " +
               (job.sinceCleanKm ? distanceWords(*job.sinceCleanKm) : std::string("not known")));
    lines.said("Complaint", job.complaint);
}

void writeSuggestion(Lines& lines, const ReportModel& model) {
    lines.heading("VERDICT");
    lines.line(model.verdict);
    if (!model.suggestion) {
        lines.line(model.noSuggestion);
        return;
    }
    const Suggestion& suggestion = *model.suggestion;
    if (!suggestion.strongestReasons.empty())
        lines.line("Why:");
    lines.bullets(suggestion.strongestReasons);
    lines.said("Evidence against", suggestion.strongestContrary);
    lines.said("What would change it", suggestion.wouldChange);
    lines.bullets(turnSentences(suggestion));
    lines.bullets(suggestion.learned);
    lines.heading("WE SUGGEST");
    lines.bullets(suggestionSentences(suggestion));
    lines.said("Next check", model.nextCheck);
}

void writeWork(Lines& lines, const ReportModel& model) {
    if (model.workDone.empty())
        return;
    lines.heading("WHAT WAS DONE");
    lines.bullets(model.workDone);
    for (const ReportedWork& work : model.workShown)
        lines.line(fmt::format("{} {} (in the PDF).", work.work, workPhotoCounts(work)));
}

void writeCounts(Lines& lines, const DebrisFinding& debris) {
    lines.line(fmt::format("Counts, {} (95 % interval):", countUnit(debris)));
    for (const ClassCount& row : rowsToShow(debris)) {
        std::string types;
        for (int i = 0; i < particleTypeCount; ++i)
            if (const int n = row.byType.at(static_cast<std::size_t>(i)); n > 0)
                types += fmt::format("{}{} {}", types.empty() ? ": " : ", ",
                                     typeWord(static_cast<ParticleType>(i)), n);
        lines.line(fmt::format("- {} (class {}{}): {} seen, {}{}", sizeWords(row), row.sizeClass,
                               row.complete ? "" : ", minimum count", row.count,
                               intervalWords(row.per100Cm2, row.intervalLow, row.intervalHigh),
                               types));
    }
}

void writeSample(Lines& lines, const ReportedSample& sample, std::size_t number) {
    lines.heading(fmt::format("PHOTO {}: ", number) + placeTitle(sample.place) +
                  (sample.sampling.empty() ? "" : " (" + sample.sampling + ")"));
    lines.line(sampleSentence(sample));
    if (sample.refusal)
        return;
    if (!sample.byHand.empty())
        lines.line(byHandSentence(sample));
    if (sample.magnet) {
        lines.line(coatSentences(sample));
        if (const std::string height = magnetHeightSentence(*sample.magnet); !height.empty())
            lines.line(height);
    }
    if (sample.afterMagnet)
        lines.bullets(sweepSentences(*sample.afterMagnet));
    if (sample.secondLight)
        lines.line(secondLightSentence(*sample.secondLight, sample.debris));
    if (const std::string types = typeSourcesSentence(sample.debris); !types.empty())
        lines.line(types);
    writeCounts(lines, sample.debris);
    if (sample.debris.sizeSampling)
        lines.line(sizeSamplingSentence(*sample.debris.sizeSampling));
    for (const std::string& sentence : sample.basis)
        lines.line(sentence);
    lines.line(cardSentence(sample));
}

void writeHistory(Lines& lines, const ReportModel& model) {
    lines.heading("BEFORE AND NOW");
    if (!model.comparison) {
        lines.line(model.noComparison);
    } else {
        lines.line(comparisonSentence(model));
        for (const ReportedChange& change : model.comparison->changes)
            lines.line(fmt::format("- {}: {} then, {} now; rate now / before {}",
                                   typesWord(change.type), change.before, change.now,
                                   ratioWords(change)));
    }
    lines.said("Wear score", wearWords(model.wearScore));
    lines.said("Trend", model.trendSentence);
    lines.said("Fuzz on the magnet", model.coats.sentence);
    lines.bullets(coatLines(model.coats));
}

void writeElimination(Lines& lines, const Elimination& elimination) {
    lines.heading("WHICH PART: ELIMINATION BY GEAR");
    lines.line(elimination.summary);
    for (const std::vector<std::string>& row : eliminationRows(elimination)) {
        std::string cells;
        for (std::size_t i = 1; i + 1 < row.size(); ++i)
            if (!row[i].empty())
                cells += fmt::format("{}{}: {}", cells.empty() ? "" : ", ",
                                     elimination.gears[i - 1], row[i]);
        if (row.front() != "Part")
            lines.line(fmt::format("- {}{}{}{}", row.front(), cells.empty() ? "" : "; ", cells,
                                   row.back().empty() ? "" : "; " + row.back()));
    }
    lines.line(eliminationLegend());
    lines.bullets(eliminationSentences(elimination));
    if (!elimination.tests.empty())
        lines.said("Next test", testInWords(elimination.tests.front()));
    lines.bullets(elimination.notes);
}

/// "- A: coil as read 12.6 ohm at 80C; at 20 C ...": a row a line.
void writeTables(Lines& lines, const ReportModel& model) {
    for (const ReportedTable& table : model.benchTables) {
        lines.heading(table.title);
        for (const std::vector<std::string>& row : table.rows) {
            std::string text;
            for (std::size_t i = 1; i < row.size(); ++i)
                if (!row[i].empty())
                    text += (text.empty() ? "" : "; ") +
                            (i + 1 == row.size() ? row[i] : table.columns[i].title + " " + row[i]);
            lines.line("- " + row.front() + ": " + text);
        }
        lines.line(table.conditions);
    }
}

/// "- Pass 1, wash: ##########  64 pieces; ...": a bar chart that can be pasted.
void writeFlushLines(Lines& lines, const FlushOfPart& flush) {
    lines.heading("FLUSH OF " + flush.part);
    lines.line(flushHead(flush));
    lines.bullets(flushBars(flush));
    for (const std::string& sentence : flushSentences(flush))
        lines.line(sentence);
}

} // namespace

std::string reportText(const ReportModel& model) {
    Lines lines;
    writeJob(lines, model.job);
    writeSuggestion(lines, model);
    writeWork(lines, model);
    for (std::size_t i = 0; i < model.samples.size(); ++i)
        writeSample(lines, model.samples[i], i + 1);
    writeHistory(lines, model);
    if (model.elimination)
        writeElimination(lines, *model.elimination);
    writeTables(lines, model);
    for (const FlushOfPart& flush : model.flushes)
        writeFlushLines(lines, flush);
    if (!model.observations.empty())
        lines.heading("OBSERVED");
    for (const ReportedObservation& observation : model.observations)
        lines.line("- " + observation.line +
                   (observation.by.empty() ? "" : " (" + observation.by + ")"));
    lines.said("Entries corrected by later ones, kept in the book",
               model.corrected > 0 ? std::to_string(model.corrected) : "");
    lines.heading("NOT LOOKED AT, NOT KNOWN");
    const std::vector<std::string> unknown = notLookedAt(model);
    lines.bullets(unknown);
    if (unknown.empty())
        lines.line("Nothing was recorded as left out.");
    lines.line("");
    lines.line(std::string(standingLine()));
    return lines.str();
}

} // namespace swarfbook
