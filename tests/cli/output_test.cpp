// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"
#include "record/book.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A shop with a copy of a demo photo beside it.
struct BenchOfOutputs {
    Shop shop;
    std::string content = contentOf(demoPhotos() / "history-1.jpg");

    BenchOfOutputs() { fs::copy_file(demoPhotos() / "history-1.jpg", at("o.jpg")); }
    [[nodiscard]] fs::path at(const std::string& name) const { return shop.folder.path() / name; }
    /// Must be refused with this text before anything is measured.
    void refused(const std::string& sentence, const std::vector<std::string>& words) const {
        const ProgramResult outcome = shop.run(words);
        INFO(outcome.err);
        CHECK(outcome.exit == 2);
        CHECK(outcome.out.empty());
        CHECK_THAT(outcome.err, Contains(sentence));
    }
    void keepVisit() const {
        REQUIRE(shop.run({"vehicle", "add", "DEMO-03"}).exit == 0);
        REQUIRE(shop.run({"visit", "add", "DEMO-03", "--date", "today"}).exit == 0);
        REQUIRE(shop.run({"add", "--visit", "1", "o.jpg", "--place", "pad"}).exit == 0);
    }
    /// The original in the book.
    [[nodiscard]] fs::path original() const {
        for (const auto& entry : fs::recursive_directory_iterator(at("book/photos")))
            if (entry.is_regular_file())
                return entry.path();
        throw std::runtime_error("the book holds no photo");
    }
};

} // namespace

TEST_CASE("an annotated photo never replaces a photo that is read, by whatever name", "[program]") {
    const BenchOfOutputs bench;
    fs::create_hard_link(bench.at("o.jpg"), bench.at("hard.jpg"));
    fs::create_symlink("o.jpg", bench.at("soft.jpg"));
    fs::create_directory(bench.at("sub"));
    fs::copy_file(bench.at("o.jpg"), bench.at("blank.jpg"));
    for (const std::string name :
         {"o.jpg", "./o.jpg", "sub/../o.jpg", "hard.jpg", "soft.jpg", "blank.jpg"})
        bench.refused("reads",
                      {"measure", "o.jpg", "--blank", "blank.jpg", "--annotated", name, "--force"});
    CHECK(contentOf(bench.at("o.jpg")) == bench.content);
}

TEST_CASE("an annotated photo replaces another file only with --force", "[program]") {
    const BenchOfOutputs bench;
    const std::vector<std::string> words{"measure", "o.jpg", "--annotated", "a.jpg"};
    REQUIRE(bench.shop.run(words).exit == 0);
    CHECK(fs::status(bench.at("a.jpg")).permissions() == fs::perms(0600));
    std::ofstream(bench.at("a.jpg")) << "other";
    bench.refused("--force", words);
    std::ofstream(bench.at("o-annotated.jpg")) << "other";
    bench.refused("--force", {"measure", "o.jpg", "a.jpg", "--annotated", "."});
    CHECK(contentOf(bench.at("o-annotated.jpg")) == "other");
    CHECK(contentOf(bench.at("a.jpg")) == "other");
    CHECK(bench.shop.run({"measure", "o.jpg", "--annotated", "a.jpg", "--force"}).exit == 0);
    CHECK(contentOf(bench.at("a.jpg")).substr(0, 2) == "\xFF\xD8");
}

TEST_CASE("two photos of one name are annotated under two names", "[program]") {
    const BenchOfOutputs bench;
    fs::create_directory(bench.at("sub"));
    fs::copy_file(demoPhotos() / "history-2.jpg", bench.at("sub/O.jpg"));
    fs::create_directory(bench.at("drawn"));
    const ProgramResult both =
        bench.shop.run({"measure", "o.jpg", "sub/O.jpg", "--annotated", "drawn"});
    INFO(both.err);
    CHECK(both.exit == 0);
    CHECK(bench.shop.has("drawn/o-annotated.jpg"));
    CHECK(bench.shop.has("drawn/O-2-annotated.jpg"));
    CHECK_THAT(both.err, Contains("drawn/O-2-annotated.jpg"));
}

TEST_CASE("no output is written among the files of a book, not even with --force", "[program]") {
    const BenchOfOutputs bench;
    bench.keepVisit();
    const fs::path original = bench.original();
    const std::string in = "is in the folder of a book";
    bench.refused("reads",
                  {"measure", original.string(), "--annotated", original.string(), "--force"});
    bench.refused(in, {"measure", "o.jpg", "--annotated", original.string(), "--force"});
    bench.refused(in, {"measure", "o.jpg", "--annotated", original.parent_path().string()});
    bench.refused(in, {"report", "--visit", "1", "--picture", original.string(), "--force"});
    bench.refused(in, {"report", "--visit", "1", "--out", "book/report.pdf"});
    bench.refused(in, {"card", "--layout", "close", "--out", "book/units.pdf"});
    fs::create_directory(bench.at("book/set-aside"));
    writeText(bench.at("book/set-aside/orphan.jpg"), "a photo set aside");
    bench.refused(in, {"measure", "o.jpg", "--annotated", "book/set-aside/orphan.jpg", "--force"});
    CHECK(contentOf(bench.at("book/set-aside/orphan.jpg")) == "a photo set aside");
    fs::create_hard_link(original, bench.at("hard.jpg"));
    bench.refused("of the book", {"report", "--visit", "1", "--picture", "hard.jpg", "--force"});
    CHECK(contentOf(original) == bench.content);
}

TEST_CASE("reports, pictures, sheets and cards replace nothing without --force", "[program]") {
    const BenchOfOutputs bench;
    bench.keepVisit();
    const std::vector<std::vector<std::string>> all{
        {"report", "--visit", "1", "--out", "a.pdf"},
        {"report", "--visit", "1", "--picture", "o.jpg"},
        {"report", "--work-sheet", "--out", "a.pdf"},
        {"card", "--layout", "close", "--out", "a.pdf"}};
    for (std::vector<std::string> words : all) {
        const fs::path file = bench.at(words.back());
        std::ofstream(file) << "other";
        bench.refused("is there already", words);
        CHECK(contentOf(file) == "other");
        words.emplace_back("--force");
        CHECK(bench.shop.run(words).exit == 0);
        CHECK(contentOf(file) != "other");
        CHECK(fs::status(file).permissions() == fs::perms(0600));
    }
    // A refused card is not in the book, so the one in it is the card printed last.
    CHECK(swarfbook::Book::open(bench.at("book"), swarfbook::IfNoBook::refuse).cards().size() == 1);
}
