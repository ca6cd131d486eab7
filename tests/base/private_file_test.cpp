// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/private_file.h"
#include "cli/run_program.h"

#include <catch2/catch.hpp>

#include <sys/stat.h>
#include <system_error>

using namespace swarfbook;
namespace fs = std::filesystem;

namespace {

/// As long as it lives new files get only these rights.
class Umask {
  public:
    explicit Umask(mode_t mask) : before_(umask(mask)) {}
    ~Umask() { umask(before_); }
    Umask(const Umask&) = delete;
    Umask& operator=(const Umask&) = delete;

  private:
    mode_t before_;
};

unsigned modeOf(const fs::path& file) {
    return static_cast<unsigned>(fs::symlink_status(file).permissions());
}

} // namespace

TEST_CASE("private folders and files are the owner's alone, whatever the umask") {
    for (const mode_t mask : {mode_t{0}, mode_t{022}, mode_t{0777}}) {
        INFO(mask);
        const test::TemporaryFolder folder;
        const Umask set(mask);
        makePrivateFolder(folder.path() / "book/photos");
        CHECK(modeOf(folder.path() / "book") == 0700);
        CHECK(modeOf(folder.path() / "book/photos") == 0700);
        CHECK(makePrivateFile(folder.path() / "book/book.db"));
        CHECK(modeOf(folder.path() / "book/book.db") == 0600);
    }
}

TEST_CASE("existing files keep their content and their rights") {
    const test::TemporaryFolder folder;
    fs::permissions(folder.path(), fs::perms(0755));
    makePrivateFolder(folder.path());
    CHECK(modeOf(folder.path()) == 0755);
    std::ofstream(folder.path() / "book.db") << "content";
    CHECK_FALSE(makePrivateFile(folder.path() / "book.db"));
    CHECK(test::contentOf(folder.path() / "book.db") == "content");
    CHECK_THROWS_AS(makePrivateFolder(folder.path() / "book.db/photos"), std::system_error);
}

TEST_CASE("an open folder is closed to others with everything in it, and no link is followed") {
    const test::TemporaryFolder folder;
    const fs::path book = folder.path() / "book", outside = folder.path() / "outside.txt";
    fs::create_directories(book / "photos/ab");
    std::ofstream(book / "photos/ab/original.jpg") << "photo";
    std::ofstream(outside) << "not of the book";
    fs::create_symlink(outside, book / "photos/link");
    for (const fs::path& file :
         {book, book / "photos", book / "photos/ab", book / "photos/ab/original.jpg", outside})
        fs::permissions(file, fs::perms(0755));
    CHECK(isOpenToOthers(book));
    CHECK_FALSE(isOpenToOthers(book / "photos/link"));
    closeToOthers(book);
    CHECK_FALSE(isOpenToOthers(book));
    CHECK(modeOf(book / "photos/ab") == 0700);
    CHECK(modeOf(book / "photos/ab/original.jpg") == 0700);
    CHECK(modeOf(outside) == 0755);
}
