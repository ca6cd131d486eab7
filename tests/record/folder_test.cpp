// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/sha256.h"
#include "record/folder.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

TEST_CASE("a file is written for its owner alone, whatever the umask, and read back") {
    const TemporaryFolder place;
    for (const mode_t mask : {0000U, 0022U, 0777U}) {
        const mode_t before = ::umask(mask);
        const Folder inner = Folder::open(place.path()).makeChild(fmt::format("m{:o}", mask));
        inner.write("a", bytesOf("content"), 0600);
        ::umask(before);
        CHECK(openToOthers(inner.path()).empty());
        CHECK(inner.read("a", 100) == bytesOf("content"));
        CHECK(inner.digestOf("a").sha256 == sha256Hex(bytesOf("content")));
        CHECK(inner.digestOf("a").byteCount == 7);
        CHECK((fs::status(inner.path()).permissions() & fs::perms::owner_all) ==
              fs::perms::owner_all);
    }
}

TEST_CASE("existing files are not overwritten") {
    const TemporaryFolder place;
    const Folder folder = Folder::open(place.path());
    folder.write("a", bytesOf("first"), 0600);
    CHECK_THROWS_AS(folder.write("a", bytesOf("second"), 0600), WriteTrouble);
    CHECK(contentOf(place.path() / "a") == "first");
    const Folder other = folder.makeChild("other");
    other.write("a", bytesOf("third"), 0600);
    CHECK_THROWS_AS(folder.copyInto(other, "a", 0600, 100), WriteTrouble);
    CHECK(contentOf(place.path() / "other/a") == "third");
}

TEST_CASE("a link in the place of a folder or file is never followed") {
    const TemporaryFolder place, elsewhere;
    writeText(elsewhere.path() / "file", "not of this folder");
    fs::create_directory_symlink(elsewhere.path(), place.path() / "folder");
    fs::create_symlink(elsewhere.path() / "file", place.path() / "link");
    fs::create_symlink(elsewhere.path() / "new", place.path() / "dangling");
    const Folder folder = Folder::open(place.path());
    CHECK_THROWS_WITH(folder.child("folder"), Contains("symbolic link"));
    CHECK_THROWS_WITH(folder.makeChild("folder"), Contains("symbolic link"));
    CHECK_THROWS_WITH(folder.maybeChild("folder"), Contains("symbolic link"));
    CHECK_THROWS_WITH(folder.digestOf("link"), Contains("symbolic link"));
    CHECK_THROWS_WITH(folder.read("link", 100), Contains("symbolic link"));
    CHECK_THROWS_AS(folder.write("dangling", bytesOf("x"), 0600), WriteTrouble);
    CHECK(folder.kindOf("link") == EntryKind::link);
    CHECK_FALSE(folder.kindOf("nothing"));
    CHECK_FALSE(folder.maybeChild("nothing"));
    CHECK(namesIn(elsewhere.path()) == std::vector<std::string>{"file"});
}

TEST_CASE("a pipe is not taken for a file and is not waited for") {
    const TemporaryFolder place;
    REQUIRE(::mkfifo((place.path() / "pipe").c_str(), 0600) == 0);
    CHECK_THROWS_WITH(Folder::open(place.path()).digestOf("pipe"), Contains("ordinary file"));
}

TEST_CASE("a file that is too large is refused and not half copied") {
    const TemporaryFolder place;
    const Folder folder = Folder::open(place.path());
    const Folder target = folder.makeChild("target");
    folder.write("large", photoBytes(1, 5000), 0600);
    CHECK_THROWS_WITH(folder.read("large", 4999), Contains("larger"));
    CHECK_THROWS_WITH(folder.copyInto(target, "large", 0600, 4999), Contains("larger"));
    CHECK(namesIn(target.path()).empty());
    const FileDigest digest = folder.copyInto(target, "large", 0600, 5000);
    CHECK(digest.byteCount == 5000);
    CHECK(digest.sha256 == sha256Hex(photoBytes(1, 5000)));
    CHECK(folder.entries().size() == 2);
}
