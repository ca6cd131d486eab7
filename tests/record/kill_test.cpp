// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "record/killed_book.h"

#include <fmt/format.h>

#include <memory>
#include <random>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// Every entry of record_worker is whole, and there are as many as told: those it said were done,
/// and at most the one it was at.
void requireWholeEntries(const std::filesystem::path& folder, std::size_t before,
                         std::size_t told) {
    if (!std::filesystem::exists(folder / "book.db")) {
        REQUIRE(told == 0);
        return;
    }
    const Book book = Book::open(folder);
    const std::size_t count = book.vehicles().size();
    REQUIRE(count >= before + told);
    REQUIRE(count <= before + told + 1);
    for (std::size_t number = 0; number < count; ++number) {
        const Vehicle vehicle = book.vehicleByLabel(fmt::format("DEMO-{}", number));
        const std::vector<Visit> visits = book.visits(vehicle.id);
        REQUIRE(visits.size() == 1);
        REQUIRE(visits[0].odometerKm == 1000.0 * static_cast<double>(number));
        const auto photos = book.photos(visits[0].id);
        REQUIRE(photos.size() == 2);
        for (std::size_t i = 0; i < 2; ++i)
            REQUIRE(book.originalBytes(photos[i].sha256) ==
                    photoBytes(static_cast<int>(2 * number + i)));
        REQUIRE(book.observations(visits[0].id).size() == 2);
    }
}

std::size_t entriesIn(const std::filesystem::path& folder) {
    return std::filesystem::exists(folder / "book.db") ? Book::open(folder).vehicles().size() : 0;
}

} // namespace

TEST_CASE("a writer killed 100 times at random moments leaves whole entries only") {
    std::mt19937 random(20250314);
    auto folder = std::make_unique<TemporaryFolder>();
    std::size_t killedAtWork = 0, entries = 0;
    for (int round = 0; round < 100; ++round) {
        if (round % 5 == 0) // a book's very start is killed too
            folder = std::make_unique<TemporaryFolder>();
        const auto path = folder->path() / "book";
        const auto talk = folder->path() / "talk";
        std::filesystem::remove(talk);
        const std::size_t before = entriesIn(path);
        const int longest = round % 5 == 0 ? 20000 : 80000;
        const auto after =
            std::chrono::microseconds(std::uniform_int_distribution(500, longest)(random));
        const auto become = [&] {
            const int out = ::open(talk.c_str(), O_WRONLY | O_CREAT, 0600);
            dup2(out, STDOUT_FILENO);
            execl(RECORD_WORKER, RECORD_WORKER, path.c_str(), nullptr);
        };
        INFO("round " << round << ", killed after " << after.count() << " us");
        killedAtWork += runAndKill(become, after) ? 1 : 0;
        const std::size_t told = contentOf(talk).size();
        requireSound(path);
        requireWholeEntries(path, before, told);
        entries += told;
    }
    CHECK(killedAtWork == 100);
    CHECK(entries > 0); // else nothing was killed in the midst of writing
}
