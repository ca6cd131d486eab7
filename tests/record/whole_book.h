// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/run_program.h"
#include "record/database.h"
#include "record/trial_book.h"
#include "record/unit_charts.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <sys/stat.h>

/// A book with something in every table and folder, and the whole content of a book, for comparing.
namespace swarfbook::test {

inline void writeText(const std::filesystem::path& file, const std::string& text) {
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << text;
}

/// Two photos, one measured twice, a clean reference, a flush with a pass, one withdrawn,
/// corrections, observations, one with two photos of work, of which one is measured as well, a
/// judged case, a check withdrawn and brought back, a withdrawn vehicle, cards, charts, an
/// unfinished interview, a photo set aside.
inline Book fillWholeBook(const std::filesystem::path& folder) {
    Book book = Book::open(folder);
    const Vehicle vehicle = book.addVehicle({0, "DEMO-01", "TEST 1", "TESTVIN1", "a\nnote", ""});
    book.nameUnit("DEMO-01", "Demo 5");
    Visit visit = book.addVisit(visitOn(vehicle.id, "2025-03-14", 120000.0));
    visit.odometerKm = 120001.5;
    book.correctVisit(visit);
    for (const int number : {1, 2})
        book.addPhoto(newPhoto(visit.id), photoBytes(number),
                      inWindow(findingOf(photoBytes(number))));
    book.regroupPieces(book.photoBySha256(sha256Hex(photoBytes(2)))->id,
                       {{{31.0, 20.0}, {32.0, 20.0}}, {"R. Demo", "one chip"}, ""});
    const auto photo = book.photoBySha256(sha256Hex(photoBytes(1)));
    book.addFinding(photo->id, findingOf(photoBytes(1)), R"({"place":"pan"})", "0.1.0");
    book.movePhoto(photo->sha256, visit.id, Place::tray);
    book.keepCleanReference("cleaned.jpg", photoBytes(3));
    const StoredFlush flush = book.startFlush(
        {visit.id, "solenoid A", sha256Hex(photoBytes(3)), findingOf(photoBytes(3), Place::tray)});
    book.withdrawFlush(book.startFlush({visit.id, "solenoid B"}).id, {"R. Demo", "wrong part"});
    book.addFlushPass(flush.id, photo->id, FlushStep::wash);
    book.addObservation({0, visit.id, "fluid", R"({"colour":"brown"})", ""});
    book.addObservation({0, visit.id, "fluid", R"({"colour":"black"})", "", "R. Demo", 1});
    book.addWorkPhoto({2, WorkMoment::before, "filter.jpg"}, photoBytes(12));
    book.addWorkPhoto({2, WorkMoment::after, "again.jpg"}, photoBytes(2));
    book.keepJudgedCases(book.judgedCases("fluid", std::string(64, 'a')),
                         {{visit.id, "clean and refit", "no code, slips, fines", "fixed", true}});
    StoredCheck check;
    check.photoSha256 = sha256Hex(photoBytes(4));
    check.knownText = "3.00mm";
    check.knownMm = 3.0;
    check.knownUMm = 0.003;
    check.thing = "shank";
    check.readingMm = 2.99;
    check.readingUMm = 0.02;
    check.layout = "close";
    check.programVersion = "0.1.0";
    check.at = PointOnCard{30.0, 20.0};
    book.withdrawCheck(book.addCheck(check).id, {"R. Demo", "another thing was read"});
    book.bringBackCheck(1, {"R. Demo", ""});
    book.withdrawVehicle(book.addVehicle(labelled("DEMO-90")).id, {"R. Demo", "added twice"});
    book.saveCard({"C0001", "close", 79.6, ""});
    book.saveCard({"C0002", "wide", std::nullopt, ""});
    std::filesystem::create_directories(unitsFolder(folder));
    std::filesystem::copy_file(std::filesystem::path(SWARFBOOK_SOURCE_DIR) /
                                   "models/units/demo-5.json",
                               unitsFolder(folder) / "demo-5.json");
    writeText(unitsFolder(folder) / "half.unfinished", "half\nan interview\n");
    writeText(folder / "set-aside" / (std::string(64, 'a') + ".jpg"), "a photo set aside");
    return book;
}

/// Every row of every table, in the order of their keys.
inline std::string tablesOf(const std::filesystem::path& folder) {
    Database database(folder / "book.db", "the book in a test");
    std::string all;
    std::vector<std::string> tables;
    Statement names = database.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND "
                                       "name NOT LIKE 'sqlite_stat%' ORDER BY name");
    while (names.step())
        tables.push_back(names.text(0));
    for (const std::string& table : tables) {
        std::string columns;
        Statement info = database.prepare("SELECT name FROM pragma_table_info('" + table + "')");
        while (info.step())
            columns += (columns.empty() ? "quote(" : " || '|' || quote(") + info.text(0) + ")";
        Statement rows = database.prepare("SELECT " + columns + " FROM " + table + " ORDER BY 1");
        while (rows.step())
            all += table + ": " + rows.text(0) + "\n";
    }
    return all;
}

/// Every file but book.db and SQLite's own beside it: name and content.
inline std::map<std::string, std::string> filesOf(const std::filesystem::path& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        const std::string name = entry.path().lexically_relative(folder).string();
        if (entry.is_regular_file() && !name.starts_with("book.db"))
            files[name] = contentOf(entry.path());
    }
    return files;
}

/// Names of files and folders that others than their owner may use, with their rights.
inline std::string openToOthers(const std::filesystem::path& folder) {
    std::string open;
    const auto type = [&](const std::filesystem::path& path) {
        struct stat facts {};
        if (::lstat(path.c_str(), &facts) == 0 && (facts.st_mode & 0077U) != 0)
            open += fmt::format("{} {:o}\n", path.string(), facts.st_mode & 0777U);
    };
    type(folder);
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        type(entry.path());
    return open;
}

/// Names directly in a folder.
inline std::vector<std::string> namesIn(const std::filesystem::path& folder) {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        names.push_back(entry.path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
}

} // namespace swarfbook::test
