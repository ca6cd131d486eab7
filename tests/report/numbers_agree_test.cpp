// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/count.h"
#include "report/pdf_reader.h"
#include "report/pdf_report.h"
#include "report/photo_legend.h"
#include "report/report_json.h"
#include "report/report_text.h"
#include "report/short_text.h"
#include "report/trial_report_book.h"

#include <catch2/catch.hpp>

#include <map>
#include <numeric>
#include <regex>
#include <set>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// Two visits with a photo of the pad each: types mixed, doubtful pieces, threads, and pieces close
/// to the size floor on either side.
ReportModel mixedModel(TrialBook& trial) {
    const auto mixed = [](int count) {
        std::vector<Particle> all;
        for (int i = 0; i < count; ++i) {
            const ParticleType type = i < 9 ? ParticleType::brightMetal
                                            : static_cast<ParticleType>(i % particleTypeCount);
            const double radius = i < 9 ? 0.6 + 0.03 * i : 0.098 + 0.002 * i;
            all.push_back(roundParticle(i + 1, TrialBook::placeOfPiece(i), radius, type));
            all.back().debrisProbability = i % 5 == 4 ? 0.6 : 0.99;
        }
        return all;
    };
    const std::int64_t before = trial.visit("2024-01-10", 50000.0, 20000.0);
    trial.photo(before, mixed(25));
    const std::int64_t now = trial.visit("2025-01-10", 60000.0, 10000.0);
    trial.photo(now, mixed(45));
    trial.observe(now, FingerTest{Feel::felt});
    return reportFromBook(trial.book(), now, options());
}

/// Everything that a reader of this visit can be handed, line ends and hard blanks as blanks.
std::map<std::string, std::string> outputsOf(const ReportModel& model) {
    std::map<std::string, std::string> outputs{
        {"text", shortReportText(model)},
        {"full text", reportText(model)},
        {"customer's PDF", readPdf(pdfReport(model, a4Paper, Reader::customer)).text},
        {"workshop's PDF", readPdf(pdfReport(model)).text},
        {"JSON", reportJson(model).dump()}};
    for (auto& [name, text] : outputs) {
        text = std::regex_replace(text, std::regex("\u00a0"), " ");
        text = std::regex_replace(text, std::regex("\\s+"), " ");
    }
    return outputs;
}

/// One thing, and every way in which its number is written.
struct Thing {
    std::string name;
    std::vector<std::string> patterns; ///< the number is what the first brackets hold
};

const std::vector<Thing>& things() {
    static const std::vector<Thing> all{
        {"pieces from the size limit up",
         {"(\\d+) pieces? of [\\d.]+ mm or more(?! then)",
          "\"pieces\":(\\d+),\"smaller_pieces_seen\"", "From (\\d+) pieces: mean size"}},
        {"size limit of this photo",
         {"\\d+ pieces? of ([\\d.]+) mm or more", "complete only down to ([\\d.]+) mm"}},
        {"longest piece",
         {"Longest piece: ([\\d.]+ \u00b1 [\\d.]+) mm",
          "Largest pieces, each in a field of [\\d.]+ mm, all at one scale \\d+: ([\\d.]+ \u00b1 "
          "[\\d.]+) mm long"}},
        {"doubtful pieces", {"(\\d+) of these (?:is|are) doubtful"}},
        {"pieces that the verdict rests on",
         {"shows (\\d+) pieces? of bright metal", "Now: (\\d+) piece",
          "\"verdict_rests_on_them\":true,\"sentence\":\"[^\"]*\",\"pieces\":(\\d+)"}},
        {"wear score",
         {"Wear score: (\\d+ \\(\\d+ to \\d+\\))", "This visit: (\\d+ \\(\\d+ to \\d+\\))",
          "2 2025-01-10 60,000 km (\\d+ \\(\\d+ to \\d+\\))"}},
        {"pieces now, compared",
         {"mm or more then, (\\d+) now", "all pieces: \\d+ then, (\\d+) now"}},
        {"pieces then, compared",
         {"(\\d+) pieces of [0-9.]+ mm or more then", "all pieces: (\\d+) then"}}};
    return all;
}

} // namespace

TEST_CASE("no number of a report appears twice with two values") {
    TrialBook trial;
    const ReportModel model = mixedModel(trial);
    const auto outputs = outputsOf(model);
    for (const Thing& thing : things()) {
        std::set<std::string> values;
        std::string where;
        int times = 0;
        for (const auto& [name, text] : outputs)
            for (const std::string& pattern : thing.patterns) {
                const std::regex sought(pattern);
                for (std::sregex_iterator at(text.begin(), text.end(), sought), end; at != end;
                     ++at, ++times) {
                    values.insert((*at)[1].str());
                    where += name + ": " + (*at)[0].str() + "\n";
                }
            }
        INFO(thing.name << "\n" << where);
        CHECK(times > 1); // else nothing was compared
        CHECK(values.size() == 1);
    }
}

TEST_CASE("the table of counts, the sentence and the legend of a photo add up alike") {
    TrialBook trial;
    const ReportModel model = mixedModel(trial);
    const DebrisFinding& debris = model.samples.front().debris;
    const PiecesFound found = piecesFound(debris);
    std::vector<int> table(particleTypeCount, 0);
    for (const ClassCount& row : debris.counts) {
        CHECK(std::accumulate(row.byType.begin(), row.byType.end(), 0) == row.count);
        for (std::size_t i = 0; i < table.size(); ++i)
            table[i] += row.byType[i];
    }
    Measurement measurement = emptyMeasurement({});
    measurement.debris = debris;
    const LegendWords legend = legendWords(measurement, {}, 0);
    for (std::size_t i = 0; i < table.size(); ++i)
        CHECK(legend.byType[i] == table[i]);
    const auto seen = static_cast<int>(found.fromFloor + found.smaller);
    CHECK(std::accumulate(table.begin(), table.end(), 0) == seen);
}
