// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "base/errors.h"
#include "cli/book_output.h"
#include "fuzz/fuzz_target.h"
#include "judgement/sensitivity.h"
#include "judgement/suggestion_model.h"
#include "judgement/visit_samples.h"
#include "judgement/wear_score.h"
#include "judgement/wear_trend.h"
#include "record/evidence_of_visit.h"
#include "record/unit_charts.h"
#include "record/verify_book.h"
#include "record/whole_book.h"
#include "report/learned_cases.h"
#include "report/report_from_book.h"
#include "report/report_json.h"
#include "report/report_text.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <stdexcept>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

/// A sound book of two visits in a folder of its own, and the bytes of its database.
class SoundBook {
  public:
    SoundBook() {
        {
            Book book = fillWholeBook(folder());
            const Visit second = book.addVisit(visitOn(1, "2025-09-01", 140000.0));
            for (const int number : {5, 6})
                book.addPhoto(newPhoto(second.id), photoBytes(number),
                              findingOf(photoBytes(number)));
            book.addObservation({0, second.id, "outcome", R"({"result":"fixed"})", ""});
        }
        Database(folder() / "book.db", "the book").run("PRAGMA journal_mode = DELETE");
        bytes_ = contentOf(folder() / "book.db");
        photos_ = filesOf(folder());
    }
    [[nodiscard]] fs::path folder() const { return place_.path() / "book"; }
    [[nodiscard]] fs::path backup() const { return place_.path() / "backup"; }
    [[nodiscard]] const std::string& bytes() const { return bytes_; }

    void replaceDatabase(const std::string& bytes) const {
        for (const char* name : {"book.db-wal", "book.db-shm", "book.db-journal"})
            fs::remove(folder() / name);
        fs::remove_all(backup());
        std::ofstream(folder() / "book.db", std::ios::binary) << bytes;
    }
    /// There is only the book and its backup, and no photo was changed.
    void requireUntouched() const {
        for (const std::string& name : namesIn(place_.path()))
            if (name != "book" && name != "backup")
                throw std::logic_error("a file outside the book and its backup: " + name);
        if (filesOf(folder()) != photos_)
            throw std::logic_error("a file of the book changed");
    }

  private:
    TemporaryFolder place_;
    std::string bytes_;
    std::map<std::string, std::string> photos_;
};

/// Three bytes say where, one says how, one is the new value; a last odd one cuts the file short.
std::string damaged(std::string bytes, std::span<const std::uint8_t> edits) {
    while (edits.size() >= 5) {
        const std::size_t at = (edits[0] + edits[1] * 256U + edits[2] * 65536U) % bytes.size();
        const auto value = static_cast<char>(edits[4]);
        const std::size_t length = edits[3] % 4 == 3 ? 8 : 1;
        for (std::size_t i = at; i < std::min(at + length, bytes.size()); ++i)
            bytes[i] = edits[3] % 4 == 1 ? static_cast<char>(bytes[i] ^ value) : value;
        edits = edits.subspan(5);
    }
    if (edits.size() == 1)
        bytes.resize(bytes.size() * edits[0] / 256);
    return bytes;
}

/// The work of one verb: a book may be refused in any of the three ways, but in no other.
template <class Verb> void attempt(const Verb& verb) {
    try {
        verb();
    } catch (const ToolError&) {
    } catch (const UsageError&) {
    } catch (const EvidenceRefused&) {
    }
}

template <class Verb> void attemptOn(const fs::path& folder, const Verb& verb) {
    attempt([&] {
        Book book = Book::open(folder, IfNoBook::refuse);
        verb(book);
    });
}

void compare(const Book& book) {
    const Evidence evidence = evidenceOfVisit(book, 2);
    for (const VisitEvidence& before : evidence.earlier) {
        const VisitComparison found = compareVisits(before, evidence.now, std::nullopt);
        (void)comparableScores(evidence, found.place,
                               loadWearScoreModel(dataFolder() / "models" / "wear-score.json"));
    }
}

void runVerbs(const SoundBook& sound) {
    const fs::path models = dataFolder() / "models";
    static const SuggestionModel model = loadSuggestionModel(models / "suggestion.json");
    attemptOn(sound.folder(), [](Book& book) {
        (void)cli::vehicleListText(book);
        (void)cli::vehicleListJson(book).dump();
        for (const Vehicle& vehicle : book.vehicles())
            (void)cli::vehicleText(book, vehicle);
    });
    attemptOn(sound.folder(), [](Book& book) {
        (void)cli::visitText(book, book.visit(1));
        (void)cli::visitJson(book, book.visit(1)).dump();
    });
    attemptOn(sound.folder(), [&](Book& book) {
        (void)suggestWithTurns(evidenceWithUnit(book, 2, models), model);
        (void)learnedCases(book, model);
    });
    attemptOn(sound.folder(), [&](Book& book) {
        const ReportModel report = reportFromBook(book, 2, {models, "0.1.0", "", true});
        (void)reportText(report);
        (void)reportJson(report).dump();
    });
    attemptOn(sound.folder(), [](Book& book) { compare(book); });
    attemptOn(sound.folder(), [&](Book& book) { (void)book.backUp(sound.backup()); });
    attemptOn(sound.folder(), [](Book& book) { (void)book.check(); });
}

} // namespace

/// whatever book.db holds, the work of seven verbs on it ends, reports what is
/// wrong, and writes nothing outside the book and its backup.
FUZZ_TARGET(book_fuzz, data, size) {
    static const SoundBook sound;
    sound.replaceDatabase(damaged(sound.bytes(), std::span(data, size)));
    runVerbs(sound);
    sound.requireUntouched();
    return 0;
}
