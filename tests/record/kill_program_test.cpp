// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "record/killed_book.h"

#include <fmt/format.h>
#include <opencv2/core.hpp>
#include <opencv2/imgcodecs.hpp>

#include <random>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

/// The content of the book, one line per entry, without ids and times.
std::string contentsOf(const fs::path& folder) {
    std::string all;
    const Book book = Book::open(folder);
    for (const Vehicle& vehicle : book.vehicles()) {
        all += vehicle.label + "\n";
        for (const Visit& visit : book.visits(vehicle.id)) {
            all += fmt::format("  {} {}\n", visit.date, visit.odometerKm.value_or(-1.0));
            for (const StoredPhoto& photo : book.photos(visit.id))
                all += fmt::format("    {} {}\n", placeName(photo.place), photo.sha256);
        }
    }
    return all;
}

/// A small picture of noise. There is no card in it, so it is kept only on request.
fs::path noisePicture(const fs::path& folder, int seed) {
    cv::Mat picture(48, 64, CV_8UC3);
    cv::RNG(static_cast<std::uint64_t>(seed) + 1).fill(picture, cv::RNG::UNIFORM, 0, 256);
    const fs::path file = folder / fmt::format("noise-{}.png", seed);
    cv::imwrite(file.string(), picture);
    return file;
}

std::vector<std::string> commandOf(int round, const fs::path& folder) {
    switch (round % 4) {
    case 0:
        return {"vehicle", "add", fmt::format("DEMO-{}", round)};
    case 1:
        return {"visit",
                "add",
                "FIRST",
                "--date",
                "2025-03-14",
                "--odometer",
                fmt::format("{}", 1000 + round)};
    default:
        return {"add",
                "--visit",
                "1",
                "--place",
                "pan",
                "--keep-refused",
                noisePicture(folder, 2 * round).string(),
                noisePicture(folder, 2 * round + 1).string()};
    }
}

std::chrono::microseconds timeToRun(const std::vector<std::string>& command,
                                    const RunOptions& options) {
    const auto start = std::chrono::steady_clock::now();
    const ProgramResult outcome = runProgram(command, options);
    INFO(outcome.err);
    REQUIRE(outcome.exit == 0);
    return std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() -
                                                                 start);
}

} // namespace

TEST_CASE("the program killed again and again at random moments leaves the book before or after") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "book";
    RunOptions options;
    options.environment = {{"SWARFBOOK_BOOK", path.string()}};
    timeToRun({"vehicle", "add", "FIRST"}, options);
    timeToRun({"visit", "add", "FIRST", "--date", "2025-03-14"}, options);
    const fs::path copy = folder.path() / "copy"; // where each command may run to its end
    RunOptions onCopy = options;
    onCopy.environment["SWARFBOOK_BOOK"] = copy.string();
    std::mt19937 random(20260630);
    int before = 0, after = 0;
    for (int round = 0; round < timesToKill(); ++round) {
        const auto command = commandOf(round, folder.path());
        const std::string contentBefore = contentsOf(path);
        fs::remove_all(copy);
        fs::copy(path, copy, fs::copy_options::recursive);
        const auto whole = timeToRun(command, onCopy);
        const std::string contentAfter = contentsOf(copy);
        const auto moment = std::chrono::microseconds(
            std::uniform_int_distribution<std::int64_t>(0, whole.count() * 5 / 4)(random));
        INFO("round " << round << ", killed after " << moment.count() << " of " << whole.count());
        const auto become = [&] {
            const int nowhere = ::open("/dev/null", O_RDWR);
            becomeProgram(command, options, {nowhere, nowhere, nowhere});
        };
        runAndKill(become, moment);
        requireSound(path);
        const std::string content = contentsOf(path);
        REQUIRE((content == contentBefore || content == contentAfter));
        ++(content == contentAfter ? after : before);
    }
    CHECK(before > 0); // both kinds of moment were met
    CHECK(after > 0);
}
