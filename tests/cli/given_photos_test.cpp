// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/given_photos.h"
#include "cli/shop.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fstream>

using namespace swarfbook;
using namespace swarfbook::cli;
using namespace swarfbook::test;
using Catch::Contains;
namespace fs = std::filesystem;

TEST_CASE("a folder means the photos in it, in the order of their numbers") {
    const TemporaryFolder folder;
    for (const char* name : {"p10.jpg", "p2.JPG", "b.heic", "c.png", "note.txt", ".hidden.jpg"})
        std::ofstream(folder / name) << "x";
    fs::create_directories(folder / "deeper.jpg");
    const GivenPhotos given({"first.jpg", folder.path().string()});
    std::vector<std::string> names;
    for (const fs::path& file : given.files())
        names.push_back(GivenPhotos::nameOf(file));
    CHECK(names == std::vector<std::string>{"first.jpg", "b.heic", "c.png", "p2.JPG", "p10.jpg"});
    CHECK_THROWS_AS(GivenPhotos({(folder / "deeper.jpg").string()}), UsageError);
    CHECK_THROWS_AS(GivenPhotos({"-", "-"}), UsageError);
}

TEST_CASE("a folder of photos and a photo that is piped in are measured", "[program]") {
    const Shop shop;
    fs::create_directories(shop.folder.path() / "photos");
    fs::copy_file(demoPhoto(), shop.folder.path() / "photos" / "one.jpg");
    fs::copy_file(demoPhoto(), shop.folder.path() / "photos" / "two.jpg");
    const ProgramResult both = shop.run({"measure", "photos", "--same-sample"});
    INFO(both.err);
    CHECK(both.exit == 0);
    CHECK_THAT(both.out, Contains("one.jpg (white card)") && Contains("two.jpg (white card)"));
    const ProgramResult empty = shop.run({"measure", "."});
    CHECK(empty.exit == 2);
    CHECK_THAT(empty.err, Contains("no photo in the folder"));
    RunOptions options;
    options.input = contentOf(demoPhoto());
    const ProgramResult piped = runProgram({"measure", "-", "--json"}, options);
    CHECK(piped.exit == 0);
    const auto document = nlohmann::json::parse(piped.out);
    CHECK(document.at("photo").at("file") == "standard-input");
    CHECK(document.at("photo").at("sha256") ==
          nlohmann::json::parse(shop.run({"measure", demoPhoto(), "--json"}).out)
              .at("photo")
              .at("sha256"));
    options.input = "";
    const ProgramResult nothing = runProgram({"measure", "-"}, options);
    CHECK(nothing.exit == 1);
    CHECK_THAT(nothing.err, Contains("Nothing was piped in"));
}

TEST_CASE("a piped photo is kept in the book as it came", "[program]") {
    const Shop shop;
    REQUIRE(shop.run({"vehicle", "add", "DEMO-03"}).exit == 0);
    REQUIRE(shop.run({"visit", "add", "DEMO-03", "--date", "2025-03-01"}).exit == 0);
    RunOptions options;
    options.environment["SWARFBOOK_BOOK"] = (shop.folder.path() / "book").string();
    options.input = contentOf(demoPhoto());
    const ProgramResult added = runProgram({"add", "--visit", "1", "-", "--place", "pad"}, options);
    INFO(added.err);
    CHECK(added.exit == 0);
    CHECK_THAT(added.out, Contains("standard-input: added to visit 1"));
    CHECK(shop.run({"book", "check"}).exit == 0);
}
