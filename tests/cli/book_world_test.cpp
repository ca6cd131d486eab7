// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"
#include "cli/small_disk.h"
#include "record/database.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <memory>
#include <sys/stat.h>
#include <thread>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// "38 pieces of", as a visit's text has it.
std::string countIn(const std::string& text) {
    const auto words = text.find(" pieces of");
    REQUIRE(words != std::string::npos);
    const auto number = text.find_last_of(' ', words - 1) + 1;
    return text.substr(number, words - number) + " pieces of";
}

/// A shop with two visits of one vehicle, a photo in each.
struct ShopOfTwoVisits : Shop {
    ShopOfTwoVisits() = default;
    /// Does what it takes to have one.
    void begin() const {
        done({"vehicle", "add", "DEMO-03", "--unit", "Demo 5"});
        for (const std::string number : {"1", "2"}) {
            done({"visit", "add", "DEMO-03", "--date", "2025-0" + number + "-10", "--odometer",
                  "5" + number + "000", "--since-clean", "20000"});
            done({"add", "--visit", number,
                  (demoPhotos() / ("history-" + number + ".jpg")).string(), "--place", "pad",
                  "--sampling", "washed"});
        }
        done({"observe", "--visit", "2", "gear", "3", "slip"});
    }
    /// One of its own, its photos measured only once for all.
    static ShopOfTwoVisits copy() {
        static const ShopOfTwoVisits first;
        if (!fs::exists(first.book()))
            first.begin();
        return {first};
    }
    ShopOfTwoVisits(const ShopOfTwoVisits& other) : Shop() {
        fs::copy(other.book(), book(), fs::copy_options::recursive);
    }
    ShopOfTwoVisits& operator=(const ShopOfTwoVisits&) = delete;
    /// Must work. @return what it said on standard output and, after it, on standard error.
    std::string done(const std::vector<std::string>& words) const {
        const ProgramResult outcome = run(words);
        INFO(words[0] << ": " << outcome.err);
        REQUIRE(outcome.exit == 0);
        return outcome.out + outcome.err;
    }
    [[nodiscard]] fs::path book() const { return folder.path() / "book"; }
    [[nodiscard]] std::size_t photoFiles() const {
        std::size_t count = 0;
        for (const auto& entry : fs::recursive_directory_iterator(book() / "photos"))
            count += entry.is_regular_file() ? 1 : 0;
        return count;
    }
};

/// Every verb that only reads a book.
const std::vector<std::vector<std::string>> readingVerbs{
    {"vehicle", "list"},
    {"vehicle", "show", "DEMO-03", "--json"},
    {"visit", "list", "DEMO-03"},
    {"visit", "show", "1"},
    {"observe", "--visit", "2"},
    {"compare", "--visit", "2", "--with", "1"},
    {"eliminate", "--visit", "2"},
    {"suggest", "--visit", "2"},
    {"report", "--visit", "2", "--text", "--full", "--out", "r.pdf", "--picture", "r.png",
     "--force"},
    {"report", "--work-sheet", "--visit", "1", "--text"},
    {"check", "--list", "--json"},
    {"track-record"},
    {"unit", "show"}};

} // namespace

TEST_CASE("every reading verb works on a book that cannot be written", "[program]") {
    const auto shop = ShopOfTwoVisits::copy();
    {
        const ReadOnlyFolder closed(shop.book());
        if (!closed.isThere()) {
            WARN("nothing can be mounted here: passed over");
            return;
        }
        for (const auto& words : readingVerbs)
            shop.done(words);
        const ProgramResult written = shop.run({"vehicle", "add", "DEMO-04"});
        CHECK(written.exit == 3);
        CHECK(std::count(written.err.begin(), written.err.end(), '\n') == 1);
    }
    CHECK_THAT(shop.done({"vehicle", "list"}), !Contains("DEMO-04"));
}

TEST_CASE("a damaged finding locks no verb, each verb reports it, and it is mended", "[hostile]") {
    const auto shop = ShopOfTwoVisits::copy();
    const std::string first = countIn(shop.done({"visit", "show", "1"}));
    const std::string second = countIn(shop.done({"visit", "show", "2"}));
    {
        Database database(shop.book() / "book.db", "a test");
        database.run("UPDATE finding SET measurement = '{}' WHERE photo_id = 2");
    }
    const std::string told = "swarfbook visit measure 2";
    // It counts photos and reads no finding, so it has none to leave out.
    CHECK_THAT(shop.done({"vehicle", "show", "DEMO-03"}), Contains("white card 1"));
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{"visit", "show", "2"},
                                               {"visit", "show", "2", "--json"},
                                               {"suggest", "--visit", "2"},
                                               {"report", "--visit", "2", "--text", "--full",
                                                "--out", "r.pdf", "--picture", "r.png"}}) {
        const std::string said = shop.done(words);
        CHECK_THAT(said, Contains("history-2.jpg (visit 2, place white card)") && Contains(told));
    }
    const std::string report = shop.run({"report", "--visit", "2", "--text", "--full"}).out;
    CHECK_THAT(report, Contains("can no longer be read in the workshop's book"));
    CHECK_THAT(shop.done({"visit", "show", "1"}), Contains(first));
    const ProgramResult compared = shop.run({"compare", "--visit", "2", "--with", "1"});
    CHECK(compared.exit == 1);
    CHECK_THAT(compared.err, Contains(told));
    CHECK_THAT(shop.done({"visit", "measure", "2"}), Contains(second));
    CHECK_THAT(shop.done({"visit", "show", "2"}), Contains(second) && !Contains("damaged"));
}

TEST_CASE("a photo with a damaged finding is measured anew when it is added again", "[program]") {
    const auto shop = ShopOfTwoVisits::copy();
    const std::string first = countIn(shop.done({"visit", "show", "1"}));
    {
        Database database(shop.book() / "book.db", "a test");
        database.run("UPDATE finding SET measurement = '{}' WHERE photo_id = 1");
    }
    shop.done({"add", "--visit", "1", (demoPhotos() / "history-1.jpg").string(), "--place", "pad"});
    CHECK_THAT(shop.done({"visit", "show", "1"}), Contains(first) && !Contains("damaged"));
}

TEST_CASE("one lost original keeps no other photo of its visit from being measured", "[program]") {
    const auto shop = ShopOfTwoVisits::copy();
    shop.done({"add", "--visit", "1", (demoPhotos() / "history-3.jpg").string(), "--place", "pad"});
    const auto visit = nlohmann::json::parse(shop.run({"visit", "show", "1", "--json"}).out);
    const std::string sha256 = visit["photos"][0]["sha256"];
    fs::remove(shop.book() / "photos" / sha256.substr(0, 2) / (sha256 + ".jpg"));
    const ProgramResult measured = shop.run({"visit", "measure", "1"});
    CHECK(measured.exit == 3);
    CHECK_THAT(measured.out, Contains("history-1.jpg: place white card: not measured again") &&
                                 Contains("history-3.jpg: place white card:") &&
                                 Contains("pieces"));
}

TEST_CASE("a photo that was measured waits for another program that writes", "[program]") {
    const auto shop = ShopOfTwoVisits::copy();
    auto other = std::make_unique<Database>(shop.book() / "book.db", "another program");
    auto writing = std::make_unique<BookTransaction>(*other);
    const fs::path talk = shop.folder.path() / "talk";
    std::thread later([&] { // until the program says that it waits
        for (int i = 0; i < 3000 && contentOf(talk).find("waits") == std::string::npos; ++i)
            std::this_thread::sleep_for(std::chrono::milliseconds(100));
        writing.reset();
    });
    RunOptions shell;
    shell.program = "/bin/sh";
    shell.environment["SWARFBOOK_BOOK"] = shop.book().string();
    const ProgramResult added =
        runProgram({"-c", std::string(SWARFBOOK_PROGRAM) + " add --visit 2 --place pad " +
                              (demoPhotos() / "history-4.jpg").string() + " 2> " + talk.string()},
                   shell);
    later.join();
    CHECK(added.exit == 0);
    CHECK_THAT(contentOf(talk), Contains("waits for it, up to 60 seconds"));
    CHECK_THAT(added.out, Contains("history-4.jpg: added to visit 2"));
}

TEST_CASE("photos of an add that fails are not left in the book", "[program]") {
    const auto shop = ShopOfTwoVisits::copy();
    const std::size_t before = shop.photoFiles();
    // The second photo is in the book for another visit, which shows only once the first is in.
    const ProgramResult failed =
        shop.run({"add", "--visit", "1", (demoPhotos() / "history-3.jpg").string(),
                  (demoPhotos() / "history-2.jpg").string(), "--place", "pad"});
    CHECK(failed.exit == 2);
    CHECK(shop.photoFiles() == before);
}

TEST_CASE("what the program writes is its owner's alone, and an open book is closed", "[program]") {
    const mode_t before = umask(0);
    const ShopOfTwoVisits shop;
    shop.begin();
    shop.done({"report", "--visit", "1", "--out", "r.pdf", "--picture", "r.png"});
    std::ofstream(shop.folder.path() / "table.csv") << contentOf(demoPhotos() / "README.md");
    (void)shop.run({"unit", "new", "Other 9", "--from-table", "table.csv"});
    umask(before);
    for (const fs::path& file : {fs::path("r.pdf"), fs::path("r.png"), fs::path("book/book.db")})
        CHECK(fs::status(shop.folder.path() / file).permissions() == fs::perms(0600));
    CHECK(fs::status(shop.book()).permissions() == fs::perms(0700));
    CHECK(fs::status(shop.book() / "units").permissions() == fs::perms(0700));
    fs::permissions(shop.book(), fs::perms(0755));
    fs::permissions(shop.book() / "book.db", fs::perms(0644));
    const std::string said = shop.done({"visit", "correct", "1", "--by", "Demo"});
    CHECK_THAT(said, Contains("Other users of this machine could read the book"));
    CHECK_THAT(shop.done({"visit", "correct", "1", "--by", "Demo"}), !Contains("Other users"));
    CHECK(fs::status(shop.book() / "book.db").permissions() == fs::perms(0600));
}

TEST_CASE("a report prints no path: it says plainly what it leaves out, and standard error says it "
          "in full",
          "[program]") {
    const auto shop = ShopOfTwoVisits::copy();
    fs::create_directories(shop.book() / "units");
    std::ofstream(shop.book() / "units/demo-5.json") << "{";
    for (const auto& entry : fs::recursive_directory_iterator(shop.book() / "photos"))
        if (entry.is_regular_file())
            std::ofstream(entry.path(), std::ios::trunc) << "spoiled";
    const ProgramResult text = shop.run({"report", "--visit", "2", "--text", "--full"});
    const ProgramResult json = shop.run({"report", "--visit", "2", "--json"});
    for (const ProgramResult& outcome : {text, json}) {
        INFO(outcome.out << outcome.err);
        CHECK(outcome.exit == 0);
        CHECK_THAT(outcome.out, !Contains(shop.folder.path().string()) && !Contains("photos/") &&
                                    !Contains("units/") && !Contains("history-2.jpg"));
        CHECK_THAT(outcome.out, Contains("no longer in the workshop's book as it was put in") &&
                                    Contains("not shown side by side") &&
                                    Contains("chart of Demo 5 cannot be read or is not sound"));
        CHECK_THAT(outcome.err, Contains((shop.book() / "photos").string()) &&
                                    Contains((shop.book() / "units/demo-5.json").string()));
    }
}
