// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <random>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

/// The verbs that read everything a book holds, and one that writes to it.
std::vector<std::vector<std::string>> verbsOn(const fs::path& place) {
    return {{"vehicle", "list", "--json"},
            {"vehicle", "show", "DEMO-01"},
            {"visit", "show", "1", "--json"},
            {"suggest", "--visit", "2", "--why"},
            {"report", "--visit", "2", "--text", "--full"},
            {"compare", "--visit", "2", "--with", "1"},
            {"backup", "--out", (place / "backup").string()},
            {"book", "check"},
            {"vehicle", "add", "DEMO-99"},
            {"track-record"},
            {"check", "--list"},
            {"card", "--serial", "C0001"}};
}

/// A book of two visits; no log is left beside its database.
void makeBook(const fs::path& folder) {
    {
        Book book = fillWholeBook(folder);
        const Visit second = book.addVisit(visitOn(1, "2025-09-01", 140000.0));
        book.addPhoto(newPhoto(second.id), photoBytes(5), findingOf(photoBytes(5)));
    }
    Database(folder / "book.db", "the book in a test").run("PRAGMA journal_mode = DELETE");
}

/// The book's bytes with up to eight bits turned over.
std::string withBitsTurned(std::string bytes, std::mt19937& random) {
    std::uniform_int_distribution<std::size_t> where(0, bytes.size() - 1);
    std::uniform_int_distribution<int> bit(0, 7), flips(1, 8);
    for (int flip = flips(random); flip > 0; --flip) {
        char& byte = bytes[where(random)];
        byte = static_cast<char>(byte ^ (1 << bit(random)));
    }
    return bytes;
}

/// Puts these bytes in the place of the book's database, and nothing beside it.
void replaceDatabase(const fs::path& place, const std::string& bytes) {
    for (const char* name : {"book/book.db-wal", "book/book.db-shm", "book/book.db-journal"})
        fs::remove(place / name);
    fs::remove_all(place / "backup");
    std::ofstream(place / "book/book.db", std::ios::binary) << bytes;
}

/// The verb ended by itself, in words of its own, and wrote in the book and the backup alone.
void requireContained(const ProgramResult& outcome, const fs::path& place) {
    INFO(outcome.err);
    REQUIRE(outcome.exit >= 0);
    REQUIRE(outcome.exit <= 3);
    REQUIRE((outcome.exit == 0 || !outcome.err.empty() || !outcome.out.empty()));
    REQUIRE(outcome.err.find("swarfbook: [json.exception") == std::string::npos); // no sentence
    for (const std::string& name : namesIn(place))
        REQUIRE((name == "book" || name == "backup"));
}

} // namespace

// Every verb may say that the book is damaged; none may crash, hang, or write elsewhere.
TEST_CASE("a book with bytes changed at random crashes no verb and leads none out of it",
          "[hostile]") {
    const TemporaryFolder place;
    makeBook(place.path() / "book");
    const std::string sound = contentOf(place.path() / "book/book.db");
    const auto files = filesOf(place.path() / "book");
    const auto verbs = verbsOn(place.path());
    const int rounds = std::getenv("SWARFBOOK_SHORT_TESTS") == nullptr ? 300 : 40;
    std::mt19937 random(20261129);
    RunOptions options;
    options.environment = {{"SWARFBOOK_BOOK", (place.path() / "book").string()}};
    options.folder = place.path();
    options.secondsAllowed = 60;
    int refused = 0;
    for (int round = 0; round < rounds; ++round) {
        const auto& verb = verbs[static_cast<std::size_t>(round) % verbs.size()];
        INFO("round " << round << ", " << verb[0]);
        replaceDatabase(place.path(), withBitsTurned(sound, random));
        const ProgramResult outcome = runAsUser(verb, options);
        requireContained(outcome, place.path());
        REQUIRE(filesOf(place.path() / "book") == files);
        refused += outcome.exit == 0 ? 0 : 1;
    }
    CHECK(refused > 0); // else no change was seen by anybody
}
