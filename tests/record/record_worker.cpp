// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/trial_book.h"

#include <fmt/format.h>

#include <cstdio>
#include <unistd.h>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// Keeps a judgement of every visit that has none.
void judgeAll(const Book& book) {
    const JudgedCases asked = book.judgedCases("fluid", std::string(64, 'a'));
    std::vector<JudgedCase> judged;
    for (const std::int64_t visit : asked.missing)
        judged.push_back({visit, "clean and refit", "no code, slips, fines", "fixed", true});
    book.keepJudgedCases(asked, judged);
}

/// Continues the book until it is killed: entry after entry, each one transaction of a vehicle, its
/// visit, two photos and two observations; after each commit the visit is judged, and one byte goes
/// to standard output.
int writeUntilKilled(Book book) {
    for (int number = static_cast<int>(book.vehicles().size());; ++number) {
        BookTransaction transaction = book.begin();
        const Vehicle vehicle = book.addVehicle(labelled(fmt::format("DEMO-{}", number)));
        const Visit visit = book.addVisit(visitOn(vehicle.id, "2025-03-14", 1000.0 * number));
        for (const int photo : {2 * number, 2 * number + 1}) {
            const auto bytes = photoBytes(photo);
            book.addPhoto(newPhoto(visit.id), bytes, findingOf(bytes));
            book.addObservation({0, visit.id, "fluid", fmt::format("[{}]", photo), ""});
        }
        transaction.commit();
        judgeAll(book);
        if (write(STDOUT_FILENO, "+", 1) != 1)
            return 1;
    }
}

/// The book that is stored in old-books when a version of the book is released.
int writeBookToStore(Book book) {
    const Vehicle vehicle = book.addVehicle({0, "DEMO-01", "TEST 1", "", "invented", "Demo 5"});
    const Visit visit = book.addVisit(visitOn(vehicle.id, "2025-03-14", 120000.0));
    const auto bytes = photoBytes(7);
    book.addPhoto(newPhoto(visit.id), bytes, findingOf(bytes));
    book.addObservation({0, visit.id, "fluid", R"({"colour":"brown"})", ""});
    book.saveCard({"C0001", "close", 79.6, ""});
    judgeAll(book);
    return 0;
}

} // namespace

/// record_worker FOLDER writes until it is killed; record_worker --store FOLDER writes the book
/// whose book.db is to be stored as tests/record/old-books/version-<n>.db.
int main(int argc, char** argv) {
    const std::vector<std::string> words(argv + 1, argv + argc);
    if (words.size() == 1)
        return writeUntilKilled(Book::open(words[0]));
    if (words.size() == 2 && words[0] == "--store")
        return writeBookToStore(Book::open(words[1]));
    return 2;
}
