// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/typed_bench.h"
#include "record/verify_book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

/// A bench with two small photos of one colour, neither with a card in it, and a text file.
struct WorkBench : Bench {
    WorkBench() {
        cv::imwrite(at("old.jpg"), cv::Mat(120, 160, CV_8UC3, cv::Scalar(20, 40, 60)));
        cv::imwrite(at("new.png"), cv::Mat(120, 160, CV_8UC3, cv::Scalar(200, 210, 220)));
        writeText(at("letter.jpg"), "no photo at all");
    }
    [[nodiscard]] std::string at(const std::string& name) const {
        return (folder() / name).string();
    }
    [[nodiscard]] std::size_t originals() const {
        std::size_t files = 0;
        for (const auto& [name, content] : filesOf(folder() / "book"))
            files += name.starts_with("photos/") ? 1 : 0;
        return files;
    }
    [[nodiscard]] std::size_t observations() const {
        return json::parse(run({"visit", "show", "1", "--json"}).out).at("observations").size();
    }
};

} // namespace

TEST_CASE("photos of work go in with the line of work and are named by visit show and export") {
    const WorkBench bench;
    const auto did = bench.observe("did \"filter renewed, codes cleared\" --photo-before " +
                                   bench.at("old.jpg") + " --photo-after " + bench.at("new.png") +
                                   " --photo-after " + bench.at("old.jpg"));
    INFO(did.err);
    REQUIRE(did.exit == 0);
    CHECK_THAT(did.out, Contains("photos: before old.jpg, after new.png, after old.jpg"));
    CHECK_THAT(bench.run({"visit", "show", "1"}).out, // the table breaks its lines
               Contains("photos: before") && Contains("after new.png, after old.jpg"));
    CHECK_THAT(bench.run({"observe", "--visit", "1"}).out, Contains("after new.png"));
    const json shown = json::parse(bench.run({"visit", "show", "1", "--json"}).out);
    const json& photos = shown.at("observations").at(0).at("photos");
    REQUIRE(photos.size() == 3);
    CHECK(photos.at(0).at("shows") == "before");
    CHECK(photos.at(0).at("sha256") == sha256Hex(bytesOf(contentOf(bench.at("old.jpg")))));
    CHECK(shown.at("photos").empty()); // none of them is measured
    CHECK(bench.originals() == 2);
    const std::string rows = bench.run({"export", "work-photos"}).out;
    CHECK_THAT(rows, Contains("before,old.jpg") && Contains("after,new.png"));
    CHECK(bench.run({"book", "check"}).exit == 0);
    CHECK(bench.run({"backup", "--out", bench.at("copy")}).exit == 0);
    CHECK(Book::open(bench.folder() / "copy").check().sound());
    CHECK(filesOf(bench.folder() / "copy") == filesOf(bench.folder() / "book"));
}

TEST_CASE("a photo that is missing or is none is refused before anything is kept") {
    const WorkBench bench;
    for (const char* file : {"letter.jpg", "nowhere.jpg"}) {
        const auto refused =
            bench.observe("did \"filter renewed\" --photo-before " + bench.at("old.jpg") +
                          " --photo-after " + bench.at(file));
        CHECK(refused.exit == 1);
        CHECK_THAT(refused.err, Contains(file) && Contains("Nothing was kept."));
        CHECK(bench.observations() == 0);
        CHECK(bench.originals() == 0);
    }
    const auto other = bench.observe("codes P0733 --photo-before old.jpg");
    CHECK(other.exit == 2);
    CHECK_THAT(other.err, Contains("observe did") && Contains("swarfbook add"));
    CHECK(bench.observe("did \"filter renewed\" --photo-before \"\"").exit == 2);
    CHECK(bench.observations() == 0);
}

TEST_CASE("a photo goes out of the report with the work that it shows") {
    const WorkBench bench;
    REQUIRE(bench.observe("did \"filter renewed\" --photo-after " + bench.at("new.png")).exit == 0);
    const auto shows = [&] {
        return json::parse(bench.run({"report", "--visit", "1", "--json"}).out).at("work_photos");
    };
    REQUIRE(shows().size() == 1);
    CHECK(shows().at(0).at("work") == "Filter renewed.");
    CHECK(shows().at(0).at("after").size() == 1);
    REQUIRE(bench.observe("did \"magnet cleaned\" --corrects 1").exit == 0);
    CHECK(shows().empty());
    CHECK(bench.originals() == 1); // it stays in the book
    CHECK_THAT(bench.run({"export", "work-photos", "--as", "json-lines"}).out,
               Contains("\"stands\":false"));
}

TEST_CASE("a file of observations may name photos of work") {
    const WorkBench bench;
    writeText(bench.at("typed.txt"),
              "did \"filter renewed\" --photo-before=" + bench.at("old.jpg") + "\ncodes none\n");
    const auto kept = bench.run({"observe", "--visit", "1", "--file", bench.at("typed.txt")});
    INFO(kept.err);
    CHECK(kept.exit == 0);
    CHECK_THAT(kept.out, Contains("photos: before old.jpg"));
}

TEST_CASE("a HEIC photo of work is kept as it came from the phone") {
    const fs::path heic = fs::path(SWARFBOOK_SOURCE_DIR) / "tests/photo/turned.heic";
    const WorkBench bench;
    REQUIRE(bench.observe("did \"filter renewed\" --photo-after " + heic.string()).exit == 0);
    const std::vector<std::byte> bytes = bytesOf(contentOf(heic));
    const Book book = Book::open(bench.folder() / "book");
    REQUIRE(book.workPhotos(1).size() == 1);
    CHECK(book.originalBytes(book.workPhotos(1).front().sha256) == bytes);
    CHECK(book.originalPhoto(sha256Hex(bytes)).extension() == ".heic");
}
