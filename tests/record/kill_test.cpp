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

/// Every entry of record_worker is whole, and their number is right: those it reported as done, and
/// at most the one in progress.
void requireWholeEntries(const std::filesystem::path& folder, std::size_t before,
                         std::size_t told) {
    if (!std::filesystem::exists(folder / "book.db")) {
        REQUIRE(told == 0);
        return;
    }
    const Book book = Book::open(folder);
    const std::size_t count = book.vehicles().size();
    const JudgedCases judged = book.judgedCases("fluid", std::string(64, 'a'));
    REQUIRE(judged.kept.size() + judged.missing.size() == count);
    if (told > 0) // each was judged before it was reported, including what the last kill left
        REQUIRE(judged.kept.size() >= before + told);
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

/// In the child: becomes record_worker on this folder, its talk going to a file.
void becomeWorker(const std::filesystem::path& folder, const std::filesystem::path& talk) {
    const int out = ::open(talk.c_str(), O_WRONLY | O_CREAT, 0600);
    dup2(out, STDOUT_FILENO);
    execl(RECORD_WORKER, RECORD_WORKER, folder.c_str(), nullptr);
}

/// How long record_worker takes here from its start to its third entry.
std::chrono::microseconds timeToThirdEntry() {
    const TemporaryFolder folder;
    const auto talk = folder.path() / "talk";
    const auto start = std::chrono::steady_clock::now();
    const pid_t child = fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        becomeWorker(folder.path() / "book", talk);
        _exit(127);
    }
    const auto passed = [&] { return std::chrono::steady_clock::now() - start; };
    while (contentOf(talk).size() < 3 && passed() < std::chrono::seconds(60))
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    const auto took = std::chrono::duration_cast<std::chrono::microseconds>(passed());
    kill(child, SIGKILL);
    waitpid(child, nullptr, 0);
    REQUIRE(contentOf(talk).size() >= 3);
    return took;
}

} // namespace

TEST_CASE("a writer killed again and again at random moments leaves whole entries only") {
    std::mt19937 random(20250314);
    std::uniform_int_distribution<std::int64_t> moment(0, timeToThirdEntry().count());
    auto folder = std::make_unique<TemporaryFolder>();
    std::size_t entries = 0;
    int killedAtWork = 0;
    for (int round = 0; round < timesToKill(); ++round) {
        if (round % 5 == 0) // a book's very start is killed too
            folder = std::make_unique<TemporaryFolder>();
        const auto path = folder->path() / "book";
        const auto talk = folder->path() / "talk";
        std::filesystem::remove(talk);
        const std::size_t before = entriesIn(path);
        const auto after = std::chrono::microseconds(moment(random));
        INFO("round " << round << ", killed after " << after.count() << " us");
        killedAtWork += runAndKill([&] { becomeWorker(path, talk); }, after) ? 1 : 0;
        const std::size_t told = contentOf(talk).size();
        requireSound(path);
        requireWholeEntries(path, before, told);
        entries += told;
    }
    CHECK(killedAtWork == timesToKill());
    CHECK(entries > 0); // otherwise nothing was killed while writing
}
