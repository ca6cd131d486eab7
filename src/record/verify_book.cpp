// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/verify_book.h"

#include "record/evidence_of_visit.h"
#include "record/finding_options.h"
#include "record/finding_text.h"
#include "record/flush_of_visit.h"
#include "record/judged_case.h"
#include "record/kept_originals.h"
#include "record/photo_store.h"
#include "record/reading_rights.h"
#include "record/stored_values.h"
#include "record/withdrawn.h"
#include "unit/application_chart.h"

#include <fmt/format.h>

#include <new>

namespace swarfbook {
namespace {

constexpr std::string_view fromBackup =
    "Bring it back from your last backup (swarfbook restore), beside this book.";
// Further ones would say nothing more.
constexpr std::size_t mostDatabaseFaults = 20;

/// The verification of one book.
class Verification {
  public:
    Verification(const Folder& book, Database& database, const std::set<std::string>& passedOver)
        : book_(book), database_(database), passedOver_(passedOver) {}

    BookState run() {
        part([&] { verifyDatabase(); });
        part([&] { verifyReferences(); });
        part([&] { verifyOriginals(); });
        part([&] { verifyFindings(); });
        part([&] { verifyPhotosHaveFindings(); });
        part([&] { verifyObservations(); });
        part([&] { verifyFlushes(); });
        part([&] { verifyWithdrawals(); });
        part([&] { verifyJudgedCases(); });
        verifyCharts();
        return std::move(state_);
    }

  private:
    /// If one part finds that book.db cannot be read further, the others continue.
    template <class Part> void part(const Part& type) {
        try {
            type();
        } catch (const ToolError& error) {
            databaseFault(error.what());
        }
    }

    void databaseFault(std::string what) {
        state_.faults.push_back(
            {std::move(what),
             "Leave the book as it is and go on with your last backup (swarfbook restore).", true});
    }

    void verifyDatabase() {
        Statement rows = database_.prepare("PRAGMA integrity_check");
        for (std::size_t found = 0; found < mostDatabaseFaults && rows.step(); ++found)
            if (rows.text(0) != "ok")
                databaseFault(fmt::format("book.db is damaged: {}.", rows.text(0)));
    }

    void verifyReferences() {
        Statement rows = database_.prepare("PRAGMA foreign_key_check");
        for (std::size_t found = 0; found < mostDatabaseFaults && rows.step(); ++found)
            databaseFault(fmt::format("Entry {} of the table {} refers to an entry of the table "
                                      "{} that is missing.",
                                      rows.integer(1), rows.text(0), rows.text(2)));
    }

    void verifyOriginals() {
        Statement rows = database_.prepare(
            fmt::format("SELECT sha256, extension, byte_count, file_name FROM {}", keptOriginals));
        std::set<std::string> files;
        while (rows.step()) {
            files.insert(rows.text(0));
            state_.photos = files.size();
            const auto name = photoNameFrom(rows.text(0) + "." + rows.text(1));
            if (!name)
                databaseFault(fmt::format("The entry of the photo {} names an impossible file.",
                                          rows.text(3)));
            else if (!passedOver_.contains(name->sha256))
                verifyOriginal(*name, rows.integer(2), rows.text(3));
        }
    }

    void verifyOriginal(const PhotoName& name, std::int64_t byteCount, const std::string& called) {
        const std::string file = fmt::format("photos/{}/{}", name.folder(), name.file());
        try {
            const auto photos = book_.maybeChild("photos");
            const auto folder = photos ? photos->maybeChild(name.folder()) : std::nullopt;
            if (!folder || !folder->kindOf(name.file()))
                return originalFault(file, called, "is missing");
            const FileDigest digest = folder->digestOf(name.file());
            if (digest.sha256 != name.sha256)
                originalFault(file, called, "has changed since it was put into the book");
            else if (static_cast<std::int64_t>(digest.byteCount) != byteCount)
                databaseFault(fmt::format("The entry of the photo {} has a wrong size.", called));
        } catch (const FileTrouble& trouble) {
            fileFault(trouble, file, fmt::format("the original {} ({})", file, called));
        }
    }

    /// A file that cannot be read may be whole if this account lacks the right to read it.
    void fileFault(const FileTrouble& trouble, const std::string& file, std::string_view what) {
        if (lacksRight(trouble))
            state_.faults.push_back(
                {fmt::format("The account {} may not read {}; it was not checked and may be whole.",
                             thisAccount(), what),
                 adviceOnRights(book_.path(), file), false, true});
        else
            state_.faults.push_back({trouble.what(), std::string(fromBackup)});
    }

    void originalFault(const std::string& file, const std::string& called, std::string_view what) {
        state_.faults.push_back(
            {fmt::format("The original {} ({}) {}.", file, called, what),
             "Bring it back from your last backup, or add the same photo file again."});
    }

    void verifyFindings() {
        Statement rows = database_.prepare(
            "SELECT finding.id, photo.visit_id, photo.file_name, photo.sha256, measurement, "
            "mapping, options FROM finding JOIN photo ON photo.id = photo_id ORDER BY finding.id");
        while (rows.step()) {
            ++state_.findings;
            const std::string wrong = troubleOfFinding(rows);
            if (!wrong.empty())
                state_.faults.push_back(
                    {fmt::format("Finding {} of the photo {} cannot be used: {}", rows.integer(0),
                                 rows.text(2), wrong),
                     fmt::format("Measure the visit again: swarfbook visit measure {}.",
                                 rows.integer(1))});
        }
    }

    [[nodiscard]] static std::string troubleOfFinding(const Statement& row) {
        try {
            const Measurement finding = findingFromText({row.text(4), row.text(5)}, "this book");
            if (finding.photo.sha256 != row.text(3))
                return "it is of another photo.";
        } catch (const ToolError&) {
            return "it is damaged, or a newer program wrote it.";
        }
        return findingOptionsFrom(row.text(6)) ? "" : "how it was measured cannot be read.";
    }

    void verifyPhotosHaveFindings() {
        Statement rows = database_.prepare("SELECT file_name, visit_id FROM photo WHERE NOT EXISTS "
                                           "(SELECT 1 FROM finding WHERE photo_id = photo.id)");
        while (rows.step())
            databaseFault(fmt::format("The photo {} of visit {} has lost its findings.",
                                      rows.text(0), rows.integer(1)));
    }

    void verifyObservations() {
        Statement rows = database_.prepare("SELECT id, visit_id, kind, json, recorded_at FROM "
                                           "observation ORDER BY id");
        while (rows.step()) {
            ++state_.observations;
            try {
                (void)observationOf(
                    {rows.integer(0), rows.integer(1), rows.text(2), rows.text(3), rows.text(4)});
            } catch (const ToolError& error) {
                state_.faults.push_back(
                    {error.what(),
                     fmt::format("Type it in again: swarfbook observe --visit {} {} --corrects {}.",
                                 rows.integer(1), rows.text(2), rows.integer(0))});
            }
        }
    }

    void verifyFlushes() {
        Statement rows = database_.prepare(
            "SELECT id, visit_id, part, tray_finding FROM flush WHERE tray_finding IS NOT NULL");
        while (rows.step())
            if (!cleanTrayFromText(rows.text(3)))
                state_.faults.push_back(
                    {fmt::format("The finding of the clean tray of flush {} ({}) is damaged; it is "
                                 "not used.",
                                 rows.integer(0), rows.text(2)),
                     fmt::format("Bring the book back from your last backup, or begin the flush "
                                 "anew: swarfbook flush start --visit {}.",
                                 rows.integer(1))});
    }

    /// No command withdraws a vehicle whose visits count.
    void verifyWithdrawals() {
        Statement rows = database_.prepare(fmt::format(
            "SELECT visit.id, label FROM visit JOIN vehicle ON vehicle.id = vehicle_id WHERE "
            "vehicle_id IN {} AND visit.id NOT IN {}",
            withdrawnVehicleNumbers, withdrawnVisitNumbers));
        while (rows.step())
            state_.faults.push_back(
                {fmt::format("Visit {} is not withdrawn, but its vehicle {} is.", rows.integer(0),
                             rows.text(1)),
                 fmt::format("Bring the vehicle back: swarfbook vehicle withdraw \"{}\" --undo.",
                             rows.text(1))});
    }

    void verifyJudgedCases() {
        for (const std::int64_t visit : damagedJudgedCases(database_))
            state_.faults.push_back(
                {fmt::format("The kept judgement of visit {} is damaged; it is not used.", visit),
                 "swarfbook book check --mend removes it; swarfbook track-record judges the visit "
                 "again."});
    }

    void verifyCharts() {
        try {
            const auto units = book_.maybeChild("units");
            if (!units)
                return;
            for (const FolderEntry& entry : units->entries()) {
                if (!entry.name.ends_with(".json"))
                    continue;
                ++state_.charts;
                verifyChart(*units, entry.name);
            }
        } catch (const FileTrouble& trouble) {
            fileFault(trouble, "units", "the folder units");
        }
    }

    void verifyChart(const Folder& units, const std::string& name) {
        const std::string file = "units/" + name;
        try {
            const auto bytes = units.read(name, largestChartBytes);
            (void)chartFromText({reinterpret_cast<const char*>(bytes.data()), bytes.size()}, file);
        } catch (const FileTrouble& trouble) {
            fileFault(trouble, file, "the chart " + file);
        } catch (const ToolError& error) {
            state_.faults.push_back(
                {error.what(), "Type it in again with swarfbook unit new NAME --replace, or bring "
                               "the file back from your last backup."});
        }
    }

    const Folder& book_;
    Database& database_;
    const std::set<std::string>& passedOver_;
    BookState state_;
};

} // namespace

BookState verifyBook(const Folder& book, Database& database,
                     const std::set<std::string>& passedOver) {
    return Verification(book, database, passedOver).run();
}

} // namespace swarfbook
