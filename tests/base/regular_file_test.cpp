// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/regular_file.h"
#include "files/temporary_folder.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

using namespace swarfbook;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

TEST_CASE("only regular files are read, and any other kind has its own sentence") {
    const swarfbook::test::TemporaryFolder place;
    const fs::path& folder = place.path();
    std::ofstream(folder / "file") << "x";
    fs::create_symlink("file", folder / "link");
    fs::create_symlink("nothing", folder / "dangling");
    REQUIRE(mkfifo((folder / "pipe").c_str(), 0600) == 0);
    CHECK(whyNotReadable(folder / "file").empty());
    CHECK(whyNotReadable(folder / "link").empty());
    CHECK_THAT(whyNotReadable(folder / "dangling"), Contains("There is no file"));
    CHECK_THAT(whyNotReadable(folder / "pipe"), Contains("a pipe or a device"));
    CHECK_THAT(whyNotReadable("/dev/null"), Contains("a pipe or a device"));
    CHECK_THAT(whyNotReadable(folder), Contains("is a folder"));
    CHECK_THAT(whyNotReadable(folder / std::string(300, 'x')), Contains("cannot be read"));
}
