// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "record/database.h"
#include "record/trial_book.h"
#include "rendered/demo_photos.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// The program with a book of its own.
class BookAtHand {
  public:
    BookAtHand() { options_.environment["SWARFBOOK_BOOK"] = folder().string(); }
    [[nodiscard]] fs::path folder() const { return home_.path() / "book"; }
    [[nodiscard]] fs::path beside(const std::string& name) const { return home_.path() / name; }
    [[nodiscard]] ProgramResult run(const std::vector<std::string>& words) const {
        return runProgram(words, options_);
    }
    /// Must work. @return standard output.
    std::string done(const std::vector<std::string>& words) const {
        const ProgramResult outcome = run(words);
        INFO(outcome.err);
        REQUIRE(outcome.exit == 0);
        return outcome.out;
    }
    /// Must end with this exit code, say one sentence with this in it, and print no result.
    void refusedWith(int exit, const std::string& sentence,
                     const std::vector<std::string>& words) const {
        const ProgramResult outcome = run(words);
        INFO(outcome.err);
        CHECK(outcome.exit == exit);
        CHECK(outcome.out.empty());
        CHECK_THAT(outcome.err, Contains(sentence));
        CHECK(std::count(outcome.err.begin(), outcome.err.end(), '\n') == 1);
    }
    void addVehicleAndVisit() const {
        done({"vehicle", "add", "DEMO-03", "--unit", "Demo 5"});
        done({"visit", "add", "DEMO-03", "--date", "2025-03-14", "--odometer", "120000",
              "--since-clean", "30000"});
    }

  private:
    TemporaryFolder home_;
    RunOptions options_;
};

const std::string photo = (demoPhotos() / "history-1.jpg").string();

} // namespace

TEST_CASE("from a vehicle to a photo in its visit, each step one command") {
    const BookAtHand book;
    CHECK_THAT(book.done({"vehicle", "add", "DEMO-03"}), Contains("DEMO-03"));
    CHECK_THAT(
        book.done({"visit", "add", "DEMO-03", "--date", "2025-03-14", "--odometer", "120000"}),
        Contains("Visit 1:"));
    const std::string added =
        book.done({"add", "--visit", "1", photo, "--place", "pad", "--sampling", "whole pan"});
    CHECK_THAT(added, Contains("history-1.jpg: added to visit 1, place white card") &&
                          Contains("pieces of") && Contains("mm and larger"));
    CHECK_THAT(book.done({"add", "--visit", "1", photo, "--place", "pad"}),
               Contains("already in this book, visit 1, place white card"));
    const auto visit = nlohmann::json::parse(book.done({"visit", "show", "1", "--json"}));
    REQUIRE(visit["photos"].size() == 1);
    CHECK(visit["photos"][0]["sampling"] == "whole pan");
    const std::string sha256 = visit["photos"][0]["sha256"];
    const fs::path kept = book.folder() / "photos" / sha256.substr(0, 2) / (sha256 + ".jpg");
    CHECK(contentOf(kept) == contentOf(photo));
    CHECK_THAT(book.done({"visit", "list", "DEMO-03"}), Contains("white card 1"));
}

TEST_CASE("a photo for the wrong visit is refused and can be taken over", "[photos]") {
    const BookAtHand book;
    book.addVehicleAndVisit();
    book.done({"visit", "add", "DEMO-03", "--date", "2025-06-14", "--odometer", "130000"});
    book.done({"add", "--visit", "1", photo, "--place", "pad"});
    book.refusedWith(2, "at visit 1", {"add", "--visit", "2", photo, "--place", "pad"});
    book.refusedWith(2, "as place white card", {"add", "--visit", "1", photo, "--place", "filter"});
    CHECK_THAT(book.done({"add", "--visit", "2", photo, "--place", "filter", "--move"}),
               Contains("moved to visit 2, place filter"));
    const auto visit = nlohmann::json::parse(book.done({"visit", "show", "2", "--json"}));
    CHECK(visit["photos"][0]["measurement"]["place"] == "filter");
    CHECK_THAT(book.done({"visit", "measure", "2"}), Contains("place filter"));
}

TEST_CASE("a photo is added, a file that is not a photo is not, and the exit code shows it",
          "[photos]") {
    const BookAtHand book;
    book.addVehicleAndVisit();
    std::ofstream(book.beside("notes.txt")) << "notes";
    const ProgramResult outcome =
        book.run({"add", "--visit", "1", book.beside("notes.txt").string(), photo, "--place", "pad",
                  "--keep-refused"});
    CHECK(outcome.exit == 1);
    CHECK_THAT(outcome.out,
               Contains("notes.txt: refused and not added") && Contains("history-1.jpg: added"));
    CHECK(book.run({"add", "--visit", "1", "/nowhere.jpg", "--place", "pad"}).exit == 1);
    std::filesystem::create_directory(book.beside("empty"));
    CHECK(book.run({"add", "--visit", "1", book.beside("empty").string(), "--place", "pad"}).exit ==
          2);
    CHECK(nlohmann::json::parse(book.done({"visit", "show", "1", "--json"}))["photos"].size() == 1);
}

TEST_CASE("the card's measured bar comes from the book by its serial", "[photos]") {
    const BookAtHand book;
    book.addVehicleAndVisit();
    const auto add = [&](const std::string& serial) {
        return std::vector<std::string>{"add",     "--visit", "1",        photo,
                                        "--place", "pad",     "--serial", serial};
    };
    book.refusedWith(2, "no card C0007", add("C0007"));
    {
        Book direct = Book::open(book.folder());
        direct.saveCard({"C0007", "close", 79.6, ""});
        direct.saveCard({"W0001", "wide", 149.5, ""});
    }
    const ProgramResult wrong = book.run(add("W0001"));
    CHECK(wrong.exit == 2);
    CHECK_THAT(wrong.err, Contains("card W0001 is a wide one"));
    book.done(add("c0007"));
    const auto visit = nlohmann::json::parse(book.done({"visit", "show", "1", "--json"}));
    const auto& card = visit["photos"][0]["measurement"]["card"];
    CHECK(card["serial"] == "C0007");
    CHECK(card["print_scale"].get<double>() == Approx(79.6 / 80.0)); // bar drawn 80 mm long
    CHECK(card["print_scale_checked"] == true);
}

TEST_CASE("distances and dates that cannot be are answered with what to type instead") {
    const BookAtHand book;
    book.addVehicleAndVisit();
    const auto visit = [](std::vector<std::string> words) {
        std::vector<std::string> all{"visit", "add", "DEMO-03"};
        all.insert(all.end(), words.begin(), words.end());
        return all;
    };
    const std::string day = "2025-04-14";
    book.refusedWith(2, "cannot be -5", visit({"--date", day, "--odometer", "-5"}));
    book.refusedWith(2, "Check the digits", visit({"--date", day, "--odometer", "120000000"}));
    book.refusedWith(2, "--odometer-replaced", visit({"--date", day, "--odometer", "119999"}));
    book.refusedWith(2, "not a number", visit({"--date", day, "--odometer", "120.000,5"}));
    book.refusedWith(2, "--earlier", visit({"--date", "2025-03-13", "--odometer", "119000"}));
    book.refusedWith(2, "no day", visit({"--date", "2025-02-29"}));
    book.refusedWith(2, "in the future", visit({"--date", "2999-01-01"}));
    book.refusedWith(2, "year-month-day", visit({"--date", "14.04.25"}));
    book.refusedWith(2, "--date today", visit({"--odometer", "130000"}));
    book.refusedWith(2, "contradict",
                     visit({"--date", day, "--last-clean", "unknown", "--since-clean", "5"}));
    CHECK_THAT(book.done({"visit", "list", "DEMO-03"}), !Contains("visit 2"));
    book.done(visit({"--date", "2025-03-13", "--odometer", "119000", "--earlier"}));
    book.done(visit({"--date", day, "--odometer", "12", "--odometer-replaced"}));
    // 1 international mile = 1.609344 km exactly.
    book.done(visit({"--date", day, "--odometer", "10000", "--miles"}));
    const auto all = nlohmann::json::parse(book.done({"visit", "list", "DEMO-03", "--json"}));
    CHECK(all["visits"].back()["odometer_km"].get<double>() == Approx(16093.44));
}

TEST_CASE("a visit is put right by its number") {
    const BookAtHand book;
    book.addVehicleAndVisit();
    CHECK_THAT(book.done({"visit", "correct", "1", "--odometer", "121000", "--by", "M."}),
               Contains("121,000 km") && Contains("30,000 km") && Contains("M."));
    book.refusedWith(2, "no visit 9", {"visit", "correct", "9", "--odometer", "1"});
    book.refusedWith(2, "cannot be -1", {"visit", "correct", "1", "--odometer", "-1"});
}

TEST_CASE("labels that are not there, taken or no labels are answered") {
    const BookAtHand book;
    book.addVehicleAndVisit();
    book.refusedWith(2, "Did you mean DEMO-03?", {"vehicle", "show", "DEMO-3"});
    book.refusedWith(2, "Did you mean DEMO-03?", {"visit", "add", "DEMO-33", "--date", "today"});
    book.refusedWith(2, "already has a vehicle", {"vehicle", "add", "demo-03"});
    book.refusedWith(2, "needs a label", {"vehicle", "add", ""});
    book.refusedWith(2, "control character", {"vehicle", "add", "a\x1b[31m"});
    book.refusedWith(2, "UTF-8", {"vehicle", "add", "a\xFF"});
    book.refusedWith(2, "no visit 7", {"visit", "show", "7"});
    book.refusedWith(2, "no visit 7", {"add", "--visit", "7", photo, "--place", "pad"});
    book.refusedWith(2, "--place pan", {"add", "--visit", "1", photo});
    book.refusedWith(2, "takes no --json", {"vehicle", "add", "DEMO-09", "--json"});
    book.refusedWith(2, "Say what to do", {"vehicle"});
    book.refusedWith(2, "Say what to do", {"visit", "remove", "1"});
}

TEST_CASE("books that are missing, locked, newer, damaged or none at all are answered") {
    const BookAtHand book;
    book.refusedWith(2, "swarfbook vehicle add", {"vehicle", "list"});
    CHECK_FALSE(fs::exists(book.folder()));
    book.refusedWith(2, "is a file", {"vehicle", "add", "DEMO-03", "--book", photo});
    fs::create_directories(book.beside("odd"));
    std::ofstream(book.beside("odd") / "book.db") << std::string(5000, 'x');
    book.refusedWith(3, "not a database",
                     {"vehicle", "list", "--book", book.beside("odd").string()});
    book.refusedWith(3, "cannot be made", {"vehicle", "add", "DEMO-03", "--book", "/proc/book"});
    book.addVehicleAndVisit();
    {
        Database other(book.folder() / "book.db", "another program");
        const BookTransaction writing(other);
        book.refusedWith(3, "in use by another program", {"vehicle", "add", "DEMO-04"});
        CHECK_THAT(book.done({"vehicle", "list"}), Contains("DEMO-03"));
    }
    {
        Database newer(book.folder() / "book.db", "a newer program");
        newer.run("PRAGMA user_version = 99");
    }
    book.refusedWith(3, "newer swarfbook", {"vehicle", "list"});
    book.refusedWith(3, "newer swarfbook", {"vehicle", "add", "DEMO-05"});
}

TEST_CASE("a backup is a book and overwrites nothing") {
    const BookAtHand book;
    book.addVehicleAndVisit();
    const std::string copy = book.beside("copy").string();
    CHECK_THAT(book.done({"backup", copy}), Contains("0 photos"));
    CHECK_THAT(book.done({"vehicle", "list", "--book", copy}), Contains("DEMO-03"));
    book.refusedWith(2, "overwrites nothing", {"backup", "--out", copy});
    book.refusedWith(2, "Name the new folder", {"backup"});
    book.refusedWith(2, "\"other\" belongs to no option", {"backup", copy, "other"});
}
