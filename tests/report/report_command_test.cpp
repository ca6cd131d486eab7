// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "record/book.h"
#include "report/pdf_reader.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>

#include <algorithm>
#include <fstream>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// A book whose visit 1 has one observation and whose visit 2 is empty.
void makeBook(const std::filesystem::path& folder) {
    Book book = Book::open(folder);
    Vehicle vehicle;
    vehicle.label = "DEMO-09";
    vehicle.plate = "INVENTED 9";
    Visit visit;
    visit.vehicleId = book.addVehicle(vehicle).id;
    visit.date = "2025-01-10";
    visit.odometerKm = 50000.0;
    const std::int64_t first = book.addVisit(visit).id;
    visit.date = "2025-02-10";
    visit.odometerKm = 51000.0;
    book.addVisit(visit);
    StoredObservation observation;
    observation.visitId = first;
    observation.kind = "finger";
    observation.json = R"({"feel": "not-felt"})";
    book.addObservation(observation);
}

/// Runs `swarfbook report --book FOLDER words...` in the folder.
test::ProgramResult report(const TemporaryFolder& folder, std::vector<std::string> words) {
    words.insert(words.begin(), {"report", "--book", (folder.path() / "book").string()});
    RunOptions options;
    options.folder = folder.path();
    return runProgram(words, options);
}

std::vector<unsigned char> bytesOf(const std::filesystem::path& file) {
    const std::string content = contentOf(file);
    return {content.begin(), content.end()};
}

} // namespace

TEST_CASE("report names options that are missing or make no sense, and exits with 2") {
    const TemporaryFolder folder;
    makeBook(folder.path() / "book");
    const std::vector<std::vector<std::string>> wrong{
        {"--visit", "1"},
        {"--visit", "one", "--text"},
        {"--visit", "77", "--text"},
        {"--visit", "1", "--text", "--json"},
        {"--visit", "1", "--out", "report.txt"},
        {"--visit", "1", "--picture", "report.pdf"},
        {"--visit", "1", "--out", "report.pdf", "--paper", "a5"},
        {"--visit", "1", "--out", "report.pdf", "--for", "insurer"},
        {"--visit", "1", "--text", "--for", "customer"},
        {"--visit", "1", "--json", "--full"},
    };
    for (const auto& words : wrong) {
        const test::ProgramResult outcome = report(folder, words);
        INFO(outcome.err);
        CHECK(outcome.exit == 2);
        CHECK(outcome.out.empty());
        CHECK(outcome.err.find("swarfbook: ") == 0);
    }
    CHECK_FALSE(std::filesystem::exists(folder.path() / "report.pdf"));
    const test::ProgramResult newest = report(folder, {"--text"}); // that visit is empty
    CHECK(newest.exit == 1);
    CHECK(newest.err.find("the newest of the vehicle last used") != std::string::npos);
}

TEST_CASE("a visit without evidence is refused with 1 and nothing is written") {
    const TemporaryFolder folder;
    makeBook(folder.path() / "book");
    const test::ProgramResult outcome = report(folder, {"--visit", "2", "--out", "report.pdf"});
    CHECK(outcome.exit == 1);
    CHECK(outcome.err.find("neither a photo nor an observation") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(folder.path() / "report.pdf"));
}

TEST_CASE("one call writes PDF, picture and text") {
    const TemporaryFolder folder;
    makeBook(folder.path() / "book");
    const test::ProgramResult outcome =
        report(folder, {"--visit", "1", "--out", "report.pdf", "--picture", "report.png", "--text",
                        "--paper", "letter", "--workshop", "Kestrel Lane Transmissions"});
    INFO(outcome.err);
    REQUIRE(outcome.exit == 0);
    CHECK(outcome.out.find("vehicle DEMO-09") != std::string::npos);
    CHECK(outcome.out.find("INVENTED") == std::string::npos);
    const ReadPdf pdf = readPdf(bytesOf(folder.path() / "report.pdf"));
    CHECK(pdf.pages.size() > 1);
    CHECK(pdf.pages.front().width == Approx(612.0));
    CHECK(pdf.text.find("Kestrel Lane Transmissions") != std::string::npos);
    CHECK(pdf.text.find("INVENTED") == std::string::npos);
    CHECK(cv::imread((folder.path() / "report.png").string()).cols == 1080);
}

TEST_CASE("the customer's PDF is the shorter one, and the full text the longer one") {
    const TemporaryFolder folder;
    makeBook(folder.path() / "book");
    REQUIRE(report(folder, {"--visit", "1", "--out", "c.pdf", "--for", "customer"}).exit == 0);
    REQUIRE(report(folder, {"--visit", "1", "--out", "w.pdf", "--for", "workshop"}).exit == 0);
    const auto customer = readPdf(bytesOf(folder.path() / "c.pdf")).pages.size();
    CHECK(customer <= 3);
    CHECK(readPdf(bytesOf(folder.path() / "w.pdf")).pages.size() > customer);
    const std::string text = report(folder, {"--visit", "1", "--text"}).out;
    CHECK(std::count(text.begin(), text.end(), '\n') <= 15);
    CHECK_THAT(report(folder, {"--visit", "1", "--text", "--full"}).out,
               Catch::Matchers::Contains("OBSERVED") && Catch::Matchers::Contains("finger"));
}

TEST_CASE("the JSON is one document with its version, plate only when asked for") {
    const TemporaryFolder folder;
    makeBook(folder.path() / "book");
    const auto plain = nlohmann::json::parse(report(folder, {"--visit", "1", "--json"}).out);
    CHECK(plain["format"] == "swarfbook report 2");
    CHECK_FALSE(plain["job"].contains("plate"));
    const auto asked =
        nlohmann::json::parse(report(folder, {"--visit", "1", "--json", "--with-plate"}).out);
    CHECK(asked["job"]["plate"] == "INVENTED 9");
}

TEST_CASE("a report that cannot be written leaves the one that was there") {
    const TemporaryFolder folder;
    makeBook(folder.path() / "book");
    const test::ProgramResult outcome =
        report(folder, {"--visit", "1", "--out", "no such folder/report.pdf"});
    CHECK(outcome.exit == 2);
    CHECK(outcome.err.find("There is no folder no such folder") != std::string::npos);
    CHECK(report(folder, {"--visit", "1", "--out", "/proc/report.pdf"}).exit == 3);
    std::ofstream(folder.path() / "report.pdf") << "old";
    CHECK(report(folder, {"--visit", "2", "--out", "report.pdf", "--force"}).exit == 1);
    CHECK(contentOf(folder.path() / "report.pdf") == "old");
}
