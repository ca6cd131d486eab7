// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/run_program.h"
#include "record/database.h"
#include "record/ordinary_user.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <thread>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

void startBook(const fs::path& folder) {
    Book::open(folder).addVehicle(labelled("DEMO-01"));
    fs::permissions(folder, fs::perms(0755));
}

/// The error with a first vehicle, in the words for the user; nothing if it went well.
std::string troubleOfStarting(const fs::path& folder, const std::string& label) {
    try {
        Book::open(folder).addVehicle(labelled(label));
        return {};
    } catch (const std::exception& error) {
        return error.what();
    }
}

} // namespace

TEST_CASE(
    "a book that another program writes to is reported after a few seconds, nothing is lost") {
    const TemporaryFolder folder;
    startBook(folder.path());
    Book book = Book::open(folder.path());
    Database other(folder.path() / "book.db", "another program");
    BookTransaction writing(other);
    const auto start = std::chrono::steady_clock::now();
    CHECK_THROWS_WITH(book.addVehicle(labelled("DEMO-02")),
                      Contains("in use by another program") && Contains("Nothing was changed"));
    const auto waited = std::chrono::steady_clock::now() - start;
    CHECK(waited > std::chrono::milliseconds(busyTimeoutMs - 500));
    CHECK(waited < std::chrono::milliseconds(busyTimeoutMs + 5000));
    CHECK(book.vehicles().size() == 1); // reading still works meanwhile
    writing.commit();
    CHECK_NOTHROW(book.addVehicle(labelled("DEMO-02")));
}

TEST_CASE("a short wait for another program is no error") {
    const TemporaryFolder folder;
    startBook(folder.path());
    Book book = Book::open(folder.path());
    std::thread other([&] {
        Database database(folder.path() / "book.db", "another program");
        BookTransaction writing(database);
        std::this_thread::sleep_for(std::chrono::milliseconds(300));
        writing.commit();
    });
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    CHECK_NOTHROW(book.addVehicle(labelled("DEMO-02")));
    other.join();
}

TEST_CASE("two programs may start the same book at the same moment") {
    for (int round = 0; round < 10; ++round) {
        const TemporaryFolder folder;
        std::string troubleOfOther;
        std::thread other([&] { troubleOfOther = troubleOfStarting(folder.path(), "DEMO-01"); });
        CHECK(troubleOfStarting(folder.path(), "DEMO-02") == "");
        other.join();
        CHECK(troubleOfOther == "");
        CHECK(Book::open(folder.path()).vehicles().size() == 2);
    }
}

TEST_CASE("a read-only book and a read-only folder are reported, and nothing changes") {
    const TemporaryFolder folder;
    startBook(folder.path());
    const std::string before = contentOf(folder.path() / "book.db");
    fs::permissions(folder.path() / "book.db", fs::perms(0444));
    {
        const OrdinaryUser user;
        CHECK_THROWS_WITH(Book::open(folder.path()), Contains("read-only") && Contains("--book"));
        CHECK_THROWS_AS(Book::open(folder.path(), IfNoBook::refuse), ToolError);
    }
    fs::permissions(folder.path() / "book.db", fs::perms(0666));
    fs::permissions(folder.path(), fs::perms(0555));
    {
        const OrdinaryUser user;
        CHECK_THROWS_AS(Book::open(folder.path()), ToolError);
        CHECK_THROWS_WITH(Book::open(folder.path() / "new"), Contains("cannot be made"));
    }
    fs::permissions(folder.path(), fs::perms(0755));
    CHECK(contentOf(folder.path() / "book.db") == before);
}

TEST_CASE("a book without access is reported") {
    const TemporaryFolder folder;
    startBook(folder.path() / "book");
    fs::permissions(folder.path(), fs::perms(0755));
    fs::permissions(folder.path() / "book", fs::perms(0000));
    {
        const OrdinaryUser user;
        CHECK_THROWS_AS(Book::open(folder.path() / "book", IfNoBook::refuse), ToolError);
    }
    fs::permissions(folder.path() / "book", fs::perms(0755));
}

TEST_CASE("a folder that is a file, a book.db that is a folder and a missing book are reported") {
    const TemporaryFolder folder;
    std::ofstream(folder.path() / "notes.txt") << "notes";
    CHECK_THROWS_WITH(Book::open(folder.path() / "notes.txt"), Contains("is a file"));
    CHECK_THROWS_AS(Book::open(folder.path() / "notes.txt"), UsageError);
    CHECK_THROWS_AS(Book::open(folder.path() / "notes.txt/book"), ToolError);
    fs::create_directories(folder.path() / "odd/book.db");
    CHECK_THROWS_WITH(Book::open(folder.path() / "odd"), Contains("cannot be opened"));
    CHECK_THROWS_WITH(Book::open(folder.path() / "none", IfNoBook::refuse),
                      Contains("swarfbook vehicle add"));
    CHECK_THROWS_AS(Book::open(folder.path() / "none", IfNoBook::refuse), UsageError);
    CHECK_FALSE(fs::exists(folder.path() / "none"));
}

TEST_CASE("a book whose start was cut off cannot be read but can be started anew") {
    const TemporaryFolder folder;
    std::ofstream(folder.path() / "book.db").flush();
    CHECK_THROWS_WITH(Book::open(folder.path(), IfNoBook::refuse), Contains("no book"));
    CHECK_NOTHROW(Book::open(folder.path()).addVehicle(labelled("DEMO-01")));
}

TEST_CASE("a damaged book is reported and left as it is") {
    const TemporaryFolder folder;
    startBook(folder.path());
    const fs::path file = folder.path() / "book.db";
    std::string content = contentOf(file);
    std::fill(content.begin() + 4096, content.end(), '\x5a');
    std::ofstream(file, std::ios::binary) << content;
    CHECK_THROWS_WITH(Book::open(folder.path()).vehicles(),
                      Contains("damaged") && Contains("backup"));
    std::ofstream(file, std::ios::binary) << "SQLite format 3 and then nothing of the kind";
    CHECK_THROWS_AS(Book::open(folder.path()), ToolError);
}
