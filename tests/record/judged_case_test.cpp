// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/small_disk.h"
#include "record/judged_book.h"
#include "record/judged_case.h"
#include "record/schema.h"
#include "record/verify_book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

TEST_CASE("a judged case is given back word for word, but only to the rules that judged it") {
    const JudgedBook judged;
    const JudgedCases found = judged.book.judgedCases("outcome", rules);
    REQUIRE(found.kept.size() == 3);
    CHECK(found.missing.empty());
    CHECK(found.kept[1].outcome == "clean and refit");
    CHECK(found.kept[1].pattern == "no code, slips, fines");
    CHECK(found.kept[1].held == "fixed");
    CHECK(found.kept[0].asSuggested);
    CHECK_FALSE(found.kept[1].asSuggested);
    CHECK(judged.book.judgedCases("outcome", otherRules).missing ==
          std::vector<std::int64_t>{1, 2, 3});
    CHECK(judged.book.judgedCases("fluid", rules).missing.empty());
}

TEST_CASE("a case judged by other rules is dropped when these rules' judgement is kept") {
    const JudgedBook judged;
    judged.book.keepJudgedCases(judged.book.judgedCases("outcome", otherRules), {caseOf(2)});
    CHECK(keptIn(judged.book, otherRules) == std::vector<std::int64_t>{2});
    CHECK(keptIn(judged.book).empty());
}

TEST_CASE("a changed observation drops the judged case of its visit, and of no other") {
    JudgedBook judged;
    Book& book = judged.book;
    SECTION("an observation") {
        book.addObservation({0, 2, "fluid", R"({"colour":"brown"})", ""});
    }
    SECTION("an outcome entered again") {
        book.addObservation({0, 2, "outcome", R"({"held":"came-back"})", ""});
    }
    SECTION("an observation corrected") {
        book.addObservation({0, 2, "outcome", R"({"held":"came-back"})", "", "", 2});
    }
    SECTION("an outcome taken back") {
        book.addObservation({0, 2, "taken-back", R"({"why":"typed in for another"})", "", "", 2});
        CHECK(book.judgedCases("outcome", rules).missing.empty());
    }
    CHECK(keptIn(book) == std::vector<std::int64_t>{1, 3});
}

TEST_CASE(
    "a changed visit drops its judged case, and a changed unit drops those of all its visits") {
    JudgedBook judged;
    Book& book = judged.book;
    std::vector<std::int64_t> left{1, 3};
    SECTION("the visit corrected") {
        Visit visit = book.visit(2);
        visit.complaint = "slips when warm";
        book.correctVisit(visit);
    }
    SECTION("the visit withdrawn") {
        book.withdrawVisit(2, {"", "wrong vehicle"});
        CHECK(book.judgedCases("outcome", rules).missing.empty());
    }
    SECTION("the visit withdrawn and brought back") {
        book.withdrawVisit(2, {"", "wrong vehicle"});
        book.bringBackVisit(2, {});
        CHECK(book.judgedCases("outcome", rules).missing == std::vector<std::int64_t>{2});
    }
    SECTION("the vehicle's unit corrected changes all of its visits") {
        Vehicle vehicle = book.vehicle(book.visit(2).vehicleId);
        vehicle.unit = "Demo 5";
        book.correctVehicle(vehicle, {});
        left = {};
    }
    CHECK(keptIn(book) == left);
}

TEST_CASE("a changed photo drops the judged case of its visit, and of no other") {
    JudgedBook judged;
    Book& book = judged.book;
    std::vector<std::int64_t> left{1, 3};
    SECTION("a photo withdrawn") {
        book.withdrawPhoto(book.photos(2).at(0).id, {"", "blurred"});
    }
    SECTION("a photo added") {
        book.addPhoto(newPhoto(2), photoBytes(9), findingOf(photoBytes(9)));
    }
    SECTION("a photo measured again") {
        book.addFinding(book.photos(2).at(0).id, findingOf(photoBytes(2)), "{}", "0.1.0");
    }
    SECTION("a photo moved to another place") {
        book.movePhoto(sha256Hex(photoBytes(2)), 2, Place::tray);
    }
    SECTION("pieces of a photo joined by hand, and taken apart") {
        const std::int64_t photo =
            book.addPhoto(newPhoto(2), photoBytes(9), inWindow(findingOf(photoBytes(9)))).photo.id;
        judgeAll(book);
        book.regroupPieces(photo, {{{31.0, 20.0}, {32.0, 20.0}}, {}, ""});
        REQUIRE(keptIn(book) == left);
        judgeAll(book);
        book.undoRegrouping(photo, {30.7, 20.3}, {});
    }
    SECTION("a photo marked as a pass of a flush") {
        const std::int64_t photo =
            book.addPhoto(newPhoto(2, Place::tray), photoBytes(9), findingOf(photoBytes(9)))
                .photo.id;
        judgeAll(book);
        REQUIRE(keptIn(book) == std::vector<std::int64_t>{1, 2, 3});
        book.addFlushPass(book.startFlush({2, "solenoid A"}).id, photo, FlushStep::wash);
    }
    SECTION("a photo moved to another visit changes both") {
        book.movePhoto(sha256Hex(photoBytes(2)), 3, Place::pan);
        left = {1};
    }
    CHECK(keptIn(book) == left);
}

TEST_CASE("a change that is rolled back leaves the judged case") {
    JudgedBook judged;
    {
        const BookTransaction transaction = judged.book.begin();
        judged.book.addObservation({0, 2, "fluid", R"({"colour":"brown"})", ""});
        CHECK(keptIn(judged.book) == std::vector<std::int64_t>{1, 3});
    }
    CHECK(keptIn(judged.book) == std::vector<std::int64_t>{1, 2, 3});
}

TEST_CASE("a judged case is not kept if the book changed in the meantime") {
    JudgedBook judged;
    const Book reader = Book::openForReading(judged.folder.path());
    judged.book.addObservation({0, 2, "fluid", R"({"colour":"brown"})", ""});
    const JudgedCases asked = reader.judgedCases("outcome", rules);
    REQUIRE(asked.missing == std::vector<std::int64_t>{2});
    SECTION("by an observation of the same visit") {
        judged.book.addObservation({0, 2, "fluid", R"({"colour":"black"})", ""});
    }
    SECTION("by a photo measured again") {
        judged.book.addFinding(1, findingOf(photoBytes(1)), "{}", "0.1.0");
    }
    SECTION("by a photo moved") {
        judged.book.movePhoto(sha256Hex(photoBytes(1)), 2, Place::pan);
    }
    SECTION("by a visit corrected") {
        judged.book.correctVisit(judged.book.visit(1));
    }
    reader.keepJudgedCases(asked, {caseOf(2)});
    for (const std::int64_t visit : keptIn(reader))
        CHECK(visit != 2);
    judgeAll(reader);
    CHECK(keptIn(reader) == std::vector<std::int64_t>{1, 2, 3});
}

TEST_CASE("a row with a changed bit is not used; the check reports it and mending removes it") {
    JudgedBook judged;
    for (const char* change :
         {"pattern = 'no code, slips, finds'", "outcome = 'replace unit'", "held = 'came-back'",
          "as_suggested = 1 - as_suggested", "rules = replace(rules, 'a', 'c')",
          "sum = replace(sum, substr(sum, 1, 1), '0') || ''"}) {
        CAPTURE(change);
        judgeAll(judged.book);
        judged.spoil("UPDATE judged_case SET sum = 'f' || substr(sum, 2) WHERE visit_id = 2;");
        judged.spoil(fmt::format("UPDATE judged_case SET {} WHERE visit_id = 2", change));
        CHECK(keptIn(judged.book) == std::vector<std::int64_t>{1, 3});
        const auto faults = judged.book.check().faults;
        REQUIRE(faults.size() == 1);
        CHECK_THAT(faults[0].what, Contains("judgement of visit 2 is damaged"));
        CHECK_FALSE(faults[0].ofDatabase);
        CHECK_THAT(judged.book.mend().at(0), Contains("visit 2"));
        CHECK(judged.book.check().sound());
    }
}

TEST_CASE("a table of judged cases that cannot be read blocks nothing: all cases are judged anew") {
    JudgedBook judged;
    judged.spoil("PRAGMA wal_checkpoint(TRUNCATE)");
    const auto page = [&](const char* sql) {
        return static_cast<std::streamoff>(
            Database(judged.folder / "book.db", "the book in a test").number(sql));
    };
    const std::streamoff root =
        page("SELECT rootpage FROM sqlite_schema WHERE name = 'judged_case'");
    const std::streamoff size = page("PRAGMA page_size");
    judged.book = Book::inMemory(); // closed: what it read of the file before is forgotten
    std::fstream(judged.folder / "book.db", std::ios::in | std::ios::out | std::ios::binary)
        .seekp((root - 1) * size)
        .write("\xff\xff\xff\xff", 4);
    const Book book = Book::openForReading(judged.folder.path());
    const JudgedCases asked = book.judgedCases("outcome", rules);
    CHECK(asked.kept.empty());
    CHECK(asked.missing == std::vector<std::int64_t>{1, 2, 3});
    CHECK_NOTHROW(book.keepJudgedCases(asked, {caseOf(1)}));
}

TEST_CASE("a backup and the restored book keep the judged cases, without damaged ones") {
    JudgedBook judged;
    judged.spoil("UPDATE judged_case SET held = 'came-back' WHERE visit_id = 2");
    const TemporaryFolder place;
    CHECK(judged.book.backUp(place / "copy").troubles.empty());
    CHECK(keptIn(Book::openForReading(place / "copy")) == std::vector<std::int64_t>{1, 3});
    CHECK(Book::openForReading(place / "copy").check().sound());
}

TEST_CASE("a book opened for reading keeps judged cases if it can be written, and says nothing") {
    JudgedBook judged;
    judged.spoil("DELETE FROM judged_case");
    SECTION("it can be written") {
        judgeAll(Book::openForReading(judged.folder.path()));
        CHECK(keptIn(judged.book) == std::vector<std::int64_t>{1, 2, 3});
    }
    SECTION("another program is writing: it is not waited for") {
        const BookTransaction writing = judged.book.begin();
        const Book reader = Book::openForReading(judged.folder.path());
        CHECK_NOTHROW(judgeAll(reader));
        CHECK(keptIn(reader).empty());
    }
    SECTION("its folder cannot be written") {
        const ReadOnlyFolder closed(judged.folder.path());
        if (!closed.isThere()) {
            WARN("nothing can be mounted here: passed over");
            return;
        }
        const Book reader = Book::openForReading(judged.folder.path());
        CHECK_NOTHROW(judgeAll(reader));
        CHECK(keptIn(reader).empty());
    }
    SECTION("its database is gone: no new one is made") {
        const Book reader = Book::openForReading(judged.folder.path());
        const JudgedCases asked = reader.judgedCases("outcome", rules);
        fs::remove(judged.folder / "book.db");
        CHECK_NOTHROW(reader.keepJudgedCases(asked, {caseOf(1)}));
        CHECK_FALSE(fs::exists(judged.folder / "book.db"));
    }
}

TEST_CASE("an old book that is read stays old, and its visits are still judged") {
    const TemporaryFolder folder;
    fs::copy_file(fs::path(SWARFBOOK_SOURCE_DIR) / "tests/record/old-books/version-5.db",
                  folder / "book.db");
    fs::permissions(folder / "book.db", fs::perms(0600));
    const std::string before = contentOf(folder / "book.db");
    const Book book = Book::openForReading(folder.path());
    const JudgedCases asked = book.judgedCases("fluid", rules);
    CHECK(asked.missing == std::vector<std::int64_t>{1});
    CHECK_NOTHROW(book.keepJudgedCases(asked, {caseOf(1)}));
    CHECK(contentOf(folder / "book.db") == before);
}

TEST_CASE("a row beside a foreign table is not written") {
    const JudgedBook judged;
    judged.spoil("DELETE FROM judged_case; CREATE TABLE extra (x)");
    const JudgedCases asked = judged.book.judgedCases("outcome", rules);
    judged.book.keepJudgedCases(asked, {caseOf(1)});
    CHECK(keptIn(judged.book).empty());
}
