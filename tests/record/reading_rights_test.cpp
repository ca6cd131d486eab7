// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/ordinary_user.h"
#include "record/photo_store.h"
#include "record/verify_book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

#include <cstdlib>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// The first original of a whole book, by its path in the book's folder.
std::string originalName() {
    const PhotoName name{sha256Hex(photoBytes(1)), "jpg"};
    return fmt::format("photos/{}/{}", name.folder(), name.file());
}

/// A whole book of an ordinary user: the user who runs the tests, unless that is the superuser.
struct OrdinaryBook {
    TemporaryFolder folder;
    fs::path original = folder / originalName();

    OrdinaryBook() {
        { const Book book = fillWholeBook(folder.path()); }
        giveToOrdinaryUser(folder.path());
    }
    [[nodiscard]] std::vector<BookFault> faults() const {
        return Book::open(folder.path(), IfNoBook::refuse).check().faults;
    }
};

/// The part of a sentence that a user pastes: the command at its end.
std::string commandIn(const std::string& advice, const std::string& program) {
    const auto at = advice.rfind(program);
    REQUIRE(at != std::string::npos);
    return advice.substr(at);
}

} // namespace

TEST_CASE("a file that this account may not read is named, and the advised command corrects that") {
    using TakenFrom = std::pair<std::string, std::string>; // the file, and its name
    const auto [file, what] =
        GENERATE(TakenFrom{originalName(), "the original photos/"},
                 TakenFrom{fs::path(originalName()).parent_path().string(), "the original photos/"},
                 TakenFrom{"units/demo-5.json", "the chart units/demo-5.json"},
                 TakenFrom{"units", "the folder units"});
    const OrdinaryBook ordinary;
    INFO(file);
    fs::permissions(ordinary.folder / file, fs::perms::none);
    const OrdinaryUser user;
    const std::vector<BookFault> faults = ordinary.faults();
    REQUIRE_FALSE(faults.empty());
    for (const BookFault& fault : faults)
        CHECK(fault.notRead);
    CHECK_THAT(faults[0].what, Contains("may not read " + what) && Contains("may be whole"));
    CHECK_THAT(faults[0].advice, !Contains("backup") && !Contains("Type it in again"));
    REQUIRE(std::system(commandIn(faults[0].advice, "chmod -R").c_str()) == 0);
    for (const BookFault& left : ordinary.faults())
        FAIL_CHECK(left.what);
}

TEST_CASE("a photo that belongs to another account is reported, with how to take it over") {
    const OrdinaryBook ordinary;
    if (geteuid() != 0) {
        WARN("Passed over: only the superuser can give a file to another account.");
        return;
    }
    REQUIRE(chown(ordinary.original.c_str(), 0, 0) == 0);
    const OrdinaryUser user;
    const std::vector<BookFault> faults = ordinary.faults();
    REQUIRE(faults.size() == 1);
    CHECK_THAT(faults[0].what, Contains("The account nobody may not read the original photos/"));
    CHECK_THAT(faults[0].advice,
               Contains(ordinary.original.string() + " belongs to the account root") &&
                   Contains("sudo chown -R 'nobody' '" + ordinary.folder.path().string() + "'"));
}

TEST_CASE("a report and a backup say how to get access to a photo that may not be read") {
    const OrdinaryBook ordinary;
    fs::permissions(ordinary.original, fs::perms::none);
    const TemporaryFolder elsewhere;
    fs::permissions(elsewhere.path(), fs::perms(0777));
    const OrdinaryUser user;
    Book book = Book::open(ordinary.folder.path(), IfNoBook::refuse);
    const std::string advised = "chmod -R u+rX '" + ordinary.folder.path().string() + "'";
    CHECK_THROWS_WITH(book.originalBytes(sha256Hex(photoBytes(1))),
                      Contains(advised) && !Contains("backup"));
    const Book::Copied copied = book.backUp(elsewhere / "backup");
    REQUIRE(copied.troubles.size() == 1);
    CHECK_THAT(copied.troubles[0], Contains("pan.jpg was not copied") && Contains(advised));
}
