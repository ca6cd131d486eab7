// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/run_program.h"
#include "record/photo_store.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

#include <csignal>
#include <sys/resource.h>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

// Source: first bytes of JPEG (ITU-T T.81 SOI and a marker), PNG (RFC 2083, 12.11), ISO base media
// (ISO/IEC 14496-12 file type box).
TEST_CASE("the kind of photo is recognised by its first bytes") {
    CHECK(photoExtension(bytesOf("\xFF\xD8\xFF\xE1....")) == "jpg");
    CHECK(photoExtension(bytesOf("\x89PNG\r\n\x1A\n....")) == "png");
    CHECK(photoExtension(bytesOf("....ftypheic")) == "heic");
    CHECK(photoExtension(bytesOf("BM......")) == "photo");
    CHECK(photoExtension({}) == "photo");
}

TEST_CASE("a photo is kept under its own digest, read-only, byte for byte") {
    const TemporaryFolder folder;
    const PhotoStore store(folder.path());
    const auto bytes = photoBytes(1);
    const std::string sha256 = sha256Hex(bytes);
    store.keep(sha256, "jpg", bytes);
    const fs::path file = store.fileOf(sha256, "jpg");
    CHECK(file == folder.path() / "photos" / sha256.substr(0, 2) / (sha256 + ".jpg"));
    CHECK(readWholeFile(file) == bytes);
    CHECK((fs::status(file).permissions() & fs::perms(0222)) == fs::perms::none);
    CHECK(fs::exists(folder.path() / "photos/incoming" / (sha256 + ".jpg.arriving")));
    store.settle({sha256, "jpg"}, true);
    CHECK(readWholeFile(file) == bytes);
    CHECK(fs::is_empty(folder.path() / "photos/incoming"));
}

TEST_CASE("an earlier whole file is used as it is, a wrong one is replaced") {
    const TemporaryFolder folder;
    const PhotoStore store(folder.path());
    const auto bytes = photoBytes(1);
    const std::string sha256 = sha256Hex(bytes);
    store.keep(sha256, "jpg", bytes);
    const fs::path file = store.fileOf(sha256, "jpg");
    const auto written = fs::last_write_time(file);
    store.keep(sha256, "jpg", bytes);
    CHECK(fs::last_write_time(file) == written);
    fs::remove(file);
    std::ofstream(file) << "half a photo";
    store.keep(sha256, "jpg", bytes);
    CHECK(readWholeFile(file) == bytes);
}

TEST_CASE("a file that a killed program left half written is cleared") {
    const TemporaryFolder folder;
    fs::create_directories(folder.path() / "photos/incoming");
    std::ofstream(folder.path() / "photos/incoming/half.jpg") << "half";
    const PhotoStore store(folder.path());
    store.keep(sha256Hex(photoBytes(1)), "jpg", photoBytes(1));
    store.settle({sha256Hex(photoBytes(1)), "jpg"}, true);
    CHECK(fs::is_empty(folder.path() / "photos/incoming"));
}

TEST_CASE("a photo that does not fit on the disk is reported and not half kept") {
    const TemporaryFolder folder;
    const auto bytes = photoBytes(1, 100000);
    const std::string sha256 = sha256Hex(bytes);
    // A limit on the size of files stands in for a full disk.
    rlimit before{};
    getrlimit(RLIMIT_FSIZE, &before);
    const auto handler = std::signal(SIGXFSZ, SIG_IGN);
    const rlimit small{50000, before.rlim_max};
    setrlimit(RLIMIT_FSIZE, &small);
    std::string message;
    try {
        PhotoStore(folder.path()).keep(sha256, "jpg", bytes);
    } catch (const ToolError& error) {
        message = error.what();
    }
    setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, handler);
    CHECK_THAT(message, Contains("could not be copied") && Contains("Nothing of this command"));
    CHECK_FALSE(fs::exists(PhotoStore(folder.path()).fileOf(sha256, "jpg")));
    PhotoStore(folder.path()).keep(sha256, "jpg", bytes);
    CHECK(readWholeFile(PhotoStore(folder.path()).fileOf(sha256, "jpg")) == bytes);
}

TEST_CASE("a file that cannot be read is reported by name") {
    CHECK_THROWS_WITH(readWholeFile("/nowhere/pan.jpg"), Contains("/nowhere/pan.jpg"));
    CHECK_THROWS_AS(readWholeFile("/"), ToolError);
}
