// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/judged_case.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

/// A book whose visits are judged, for the tests of what a change of the book makes of that.
namespace swarfbook::test {

inline const std::string rules(64, 'a'), otherRules(64, 'b');

inline JudgedCase caseOf(std::int64_t visit) {
    return {visit, "clean and refit", "no code, slips, fines", "fixed", visit % 2 == 1};
}

inline std::vector<std::int64_t> keptIn(const Book& book, const std::string& by = rules) {
    std::vector<std::int64_t> visits;
    for (const JudgedCase& one : book.judgedCases("outcome", by).kept)
        visits.push_back(one.visitId);
    return visits;
}

/// Keeps a judgement of every visit that has none.
inline void judgeAll(const Book& book) {
    const JudgedCases asked = book.judgedCases("outcome", rules);
    std::vector<JudgedCase> judged;
    for (const std::int64_t visit : asked.missing)
        judged.push_back(caseOf(visit));
    book.keepJudgedCases(asked, judged);
}

/// Three visits of one vehicle, each with a photo and an outcome; all are judged.
struct JudgedBook {
    TemporaryFolder folder;
    Book book = Book::open(folder.path());

    JudgedBook() {
        const std::int64_t vehicle = book.addVehicle(labelled("DEMO-01")).id;
        for (const int number : {1, 2, 3}) {
            const std::string date = fmt::format("2025-0{}-14", number);
            const Visit visit = book.addVisit(visitOn(vehicle, date, 1000.0 * number));
            book.addPhoto(newPhoto(visit.id), photoBytes(number), findingOf(photoBytes(number)));
            book.addObservation({0, visit.id, "outcome", R"({"held":"fixed"})", ""});
        }
        judgeAll(book);
        REQUIRE(keptIn(book) == std::vector<std::int64_t>{1, 2, 3});
    }
    void spoil(const std::string& sql) const {
        Database database(folder.path() / "book.db", "the book in a test");
        database.run(sql);
    }
};

} // namespace swarfbook::test
