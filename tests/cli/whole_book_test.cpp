// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"
#include "record/ordinary_user.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

/// A shop whose book has something in every table and folder.
struct WholeShop : Shop {
    WholeShop() {
        fillWholeBook(folder.path() / "book");
        (void)Book::open(book()); // closes to others what was put into it past the book
    }
    [[nodiscard]] fs::path book() const { return folder.path() / "book"; }
};

} // namespace

TEST_CASE("a book goes to a backup and comes back, and is whole", "[hostile]") {
    const WholeShop shop;
    const ProgramResult backup = shop.run({"backup", "--out", "copy"});
    CHECK(backup.exit == 0);
    CHECK(backup.err.empty());
    CHECK_THAT(backup.out, Contains("4 photos and 1 chart"));
    const ProgramResult back = shop.run({"restore", "copy", "--book", "again"});
    CHECK(back.exit == 0);
    CHECK_THAT(back.out, Contains("is a book again") && Contains("4 photos, 1 chart"));
    const ProgramResult check = shop.run({"book", "check", "--book", "again"});
    CHECK(check.exit == 0);
    CHECK_THAT(check.out, Contains("is whole") && Contains("3 findings"));
    CHECK(tablesOf(shop.folder.path() / "again") == tablesOf(shop.book()));
    CHECK(filesOf(shop.folder.path() / "again") == filesOf(shop.book()));
}

TEST_CASE("a backup that is not whole says what is missing and ends with 3", "[hostile]") {
    const WholeShop shop;
    fs::remove(Book::open(shop.book()).originalPhoto(sha256Hex(photoBytes(1))));
    const ProgramResult backup = shop.run({"backup", "--out", "copy"});
    CHECK(backup.exit == 3);
    CHECK_THAT(backup.out, Contains("3 photos"));
    CHECK_THAT(backup.err, Contains("pan.jpg") && Contains("is missing") &&
                               Contains("The backup is not whole"));
    const ProgramResult back = shop.run({"restore", "copy", "--book", "again"});
    CHECK(back.exit == 3);
    CHECK_THAT(back.err, Contains("is missing") && Contains("The rest of it came back"));
    CHECK(tablesOf(shop.folder.path() / "again") == tablesOf(shop.book()));
}

TEST_CASE("a photo that this account may not read is not called damaged, and chmod is advised") {
    const WholeShop shop;
    fs::permissions(Book::open(shop.book()).originalPhoto(sha256Hex(photoBytes(1))),
                    fs::perms::none);
    giveToOrdinaryUser(shop.folder.path());
    const OrdinaryUser user;
    const ProgramResult check = runWordsHere({"book", "check", "--book", shop.book().string()}, {});
    CHECK(check.exit == 3);
    CHECK_THAT(check.out, Contains("it is not known whether it is whole") && Contains("pan.jpg") &&
                              Contains("chmod -R u+rX") && !Contains("is not whole") &&
                              !Contains("backup"));
}

TEST_CASE("the check says what is wrong, mends what is left over and speaks JSON", "[hostile]") {
    const WholeShop shop;
    const std::string orphan = sha256Hex(photoBytes(9));
    writeText(shop.book() / "photos" / orphan.substr(0, 2) / (orphan + ".jpg"), "an orphan");
    const ProgramResult check = shop.run({"book", "check"});
    CHECK(check.exit == 3);
    CHECK_THAT(check.out, Contains("is not whole") && Contains(orphan) && Contains("--mend"));
    const auto state = nlohmann::json::parse(shop.run({"book", "check", "--json"}).out);
    CHECK(state.at("format") == "swarfbook book check 1");
    CHECK(state.at("whole") == false);
    CHECK(state.at("photos") == 4);
    CHECK(state.at("wrong").size() == 1);
    CHECK(state.at("wrong").at(0).contains("advice"));
    const ProgramResult mend = shop.run({"book", "check", "--mend"});
    CHECK(mend.exit == 0);
    CHECK_THAT(mend.out, Contains("moved to set-aside/") && Contains("is whole"));
    CHECK(contentOf(shop.book() / "set-aside" / (orphan + ".jpg")) == "an orphan");
}

TEST_CASE("the check reports a book that cannot be opened, in JSON too", "[hostile]") {
    const WholeShop shop;
    fs::resize_file(shop.book() / "book.db", 0);
    const ProgramResult check = shop.run({"book", "check"});
    CHECK(check.exit == 3);
    CHECK_THAT(check.err, Contains("has lost its entries") && Contains("swarfbook restore"));
    const ProgramResult asJson = shop.run({"book", "check", "--json"});
    CHECK(asJson.exit == 3);
    CHECK(nlohmann::json::parse(asJson.out).at("whole") == false);
    CHECK(shop.run({"vehicle", "add", "NEW"}).exit == 3);
    CHECK(shop.run({"book"}).exit == 2);
    CHECK(shop.run({"book", "burn"}).exit == 2);
    CHECK(shop.run({"restore"}).exit == 2);
    CHECK(shop.run({"restore", "nothing-there"}).exit == 2);
}
