// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
//
// Makes a book of 50,000 photos' entries (without the photo files) and times every reading verb on
// it, beside `--version`, which shows what starting the program takes. A verb may take 50 ms of
// processor time more than that, plus 10 ns for every byte that it prints.
#include "base/sha256.h"
#include "bench/observation.h"
#include "files/temporary_folder.h"
#include "record/book.h"
#include "record/database.h"
#include "record/finding_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <fcntl.h>
#include <random>
#include <span>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

using namespace swarfbook;
namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

constexpr double allowedMs = 50.0;
constexpr double allowedNsPerByte = 10.0;
constexpr int rounds = 5;

/// How large the book is.
struct Size {
    int vehicles = 3000;
    int visitsEach = 4;
    int photos = 50'000;
};

double milliseconds(Clock::duration time) {
    return std::chrono::duration<double, std::milli>(time).count();
}

/// A finding as of a pad with some thirty pieces.
Measurement plausibleFinding(std::mt19937& random) {
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    Measurement finding;
    finding.photo = {"pan.jpg", std::string(64, '0'), 4000, 3000, 1, "2025-03-14T10:12:00", 26.0};
    finding.place = Place::pad;
    CardFacts card;
    card.layout = "close";
    card.serial = "C0001";
    card.printScale = {0.995, 0.001, true};
    card.markersUsed = 10;
    card.residual = Pixels(0.25);
    card.scale = PixelsPerMillimetre(38.5);
    card.mapping.h = cv::Matx33d(0.01, 0.001, 0.2, -0.002, 0.011, 0.3, 1e-5, 2e-5, 1.0);
    card.mapping.focal = 3200.0;
    finding.card = card;
    finding.edgeWidth = Pixels(2.0);
    finding.edgeWidthOnCard = Millimetres(0.05);
    DebrisFinding debris;
    debris.sizeFloor = Millimetres(0.21);
    debris.windowArea = SquareCentimetres(24.0);
    debris.measuredArea = SquareCentimetres(23.0);
    const int pieces = static_cast<int>(between(15.0, 45.0));
    for (int id = 1; id <= pieces; ++id) {
        Particle piece;
        piece.id = id;
        piece.centre = {between(22.0, 80.0), between(20.0, 60.0)};
        const double size = between(0.2, 2.0);
        piece.maxFeret = {Millimetres(size), Millimetres(0.03)};
        piece.minFeret = {Millimetres(0.6 * size), Millimetres(0.03)};
        for (int corner = 0; corner < 12; ++corner)
            piece.outline.push_back({piece.centre.x + size * std::cos(0.52 * corner) / 2.0,
                                     piece.centre.y + size * std::sin(0.52 * corner) / 2.0});
        debris.particles.push_back(piece);
    }
    finding.debris = debris;
    return finding;
}

/// The sum that a photo of this number is said to have.
std::string sumOf(int photo) {
    const std::string text = fmt::format("photo {}", photo);
    return sha256Hex(std::as_bytes(std::span(text)));
}

/// Sixty findings as stored, each to stand for many photos.
std::vector<FindingText> someFindings() {
    std::mt19937 random(20260801);
    std::vector<FindingText> all;
    for (int i = 0; i < 60; ++i)
        all.push_back(findingText(plausibleFinding(random)));
    return all;
}

void addVehicles(Database& book, const Size& size) {
    for (int i = 0; i < size.vehicles; ++i)
        book.prepare("INSERT INTO vehicle (label, plate, vin, note, unit, added_at) "
                     "VALUES (?, '', '', 'invented', 'Demo 5', '2025-01-01T00:00:00Z')")
            .with(fmt::format("DEMO-{:05}", i + 1))
            .run();
}

void addObservations(Database& book, std::int64_t visit) {
    const auto add = [&](const Observation& observation) {
        book.prepare("INSERT INTO observation (visit_id, kind, json, recorded_at) "
                     "VALUES (?, ?, ?, '2025-03-14T10:00:00Z')")
            .with(visit, observationKind(observation), toJson(observation).dump())
            .run();
    };
    Codes codes;
    codes.codes = {"P0733"};
    add(codes);
    SolenoidReadings solenoid;
    solenoid.name = "A";
    solenoid.resistance = Typed<Ohms>{Ohms(12.6), "12.6 ohm"};
    add(solenoid);
    RepairOutcome outcome;
    outcome.held = Held::fixed;
    if (visit % 20 == 0)
        add(outcome);
}

void addVisits(Database& book, const Size& size) {
    for (int visit = 0; visit < size.vehicles * size.visitsEach; ++visit) {
        const int vehicle = visit % size.vehicles + 1, round = visit / size.vehicles;
        book.prepare("INSERT INTO visit (vehicle_id, date, odometer_km, odometer_replaced, "
                     "complaint, looked_by, since_clean_km, last_clean, added_at) "
                     "VALUES (?, ?, ?, 0, 'slips when warm', 'A. Example', 15000, '', "
                     "'2025-03-14T10:00:00Z')")
            .with(static_cast<std::int64_t>(vehicle), fmt::format("20{:02}-03-14", 20 + round),
                  std::optional<double>(60000.0 + 20000.0 * round))
            .run();
        addObservations(book, visit + 1);
    }
}

void addPhotos(Database& book, const Size& size) {
    const std::vector<FindingText> findings = someFindings();
    const int visits = size.vehicles * size.visitsEach;
    for (int photo = 0; photo < size.photos; ++photo) {
        const std::string sum = sumOf(photo);
        book.prepare("INSERT INTO photo (visit_id, place, sha256, extension, byte_count, "
                     "file_name, sampling, added_at) VALUES (?, 'pad', ?, 'jpg', 4000000, "
                     "'pan.jpg', 'floor wiped', '2025-03-14T10:00:00Z')")
            .with(static_cast<std::int64_t>(photo % visits + 1), sum)
            .run();
        const FindingText& finding = findings[static_cast<std::size_t>(photo) % findings.size()];
        std::string measurement = finding.measurement;
        measurement.replace(measurement.find(std::string(64, '0')), 64, sum);
        book.prepare("INSERT INTO finding (photo_id, measurement, mapping, options, "
                     "program_version, measured_at) VALUES (?, ?, ?, '{\"place\":\"pad\"}', "
                     "'0.1.0', '2025-03-14T10:00:00Z')")
            .with(book.lastInsertedId(), measurement, finding.mapping)
            .run();
    }
}

void makeBook(const fs::path& folder, const Size& size) {
    { const Book made = Book::open(folder, IfNoBook::startOne); }
    Database book(folder / "book.db", "the large book");
    BookTransaction transaction(book);
    addVehicles(book, size);
    addVisits(book, size);
    addPhotos(book, size);
    transaction.commit();
}

struct Run {
    double ms = 0.0;     ///< of processor time, which other programs disturb least
    double wallMs = 0.0; ///< from start to end
    std::uintmax_t bytes = 0;
    int exit = 0;
};

Run runOnce(const std::string& program, const std::vector<std::string>& words,
            const fs::path& out) {
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, out.c_str(),
                                     O_WRONLY | O_CREAT | O_TRUNC, 0600);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    std::vector<char*> arguments{const_cast<char*>(program.c_str())};
    for (const std::string& word : words)
        arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    const auto start = Clock::now();
    pid_t child = 0;
    posix_spawn(&child, program.c_str(), &actions, nullptr, arguments.data(), environ);
    int status = 0;
    rusage used{};
    wait4(child, &status, 0, &used);
    const double ms = milliseconds(Clock::now() - start);
    const auto worked = [](const timeval& t) {
        return 1e3 * static_cast<double>(t.tv_sec) + 1e-3 * static_cast<double>(t.tv_usec);
    };
    posix_spawn_file_actions_destroy(&actions);
    return {worked(used.ru_utime) + worked(used.ru_stime), ms, fs::file_size(out),
            WIFEXITED(status) ? WEXITSTATUS(status) : -1};
}

/// The run of median time.
Run timed(const std::string& program, std::vector<std::string> words, const fs::path& folder) {
    if (words[0] != "--version")
        words.insert(words.end(), {"--book", folder.string()});
    std::vector<Run> runs;
    for (int i = 0; i < rounds; ++i)
        runs.push_back(runOnce(program, words, folder / "printed"));
    std::sort(runs.begin(), runs.end(), [](const Run& a, const Run& b) { return a.ms < b.ms; });
    return runs[rounds / 2];
}

std::vector<std::vector<std::string>> readingVerbs(const Size& size) {
    // A visit of the last round, so that its vehicle has a history.
    const std::string visit = std::to_string(size.vehicles * (size.visitsEach - 1) + 7);
    const std::string before = std::to_string(size.vehicles * (size.visitsEach - 2) + 7);
    return {{"vehicle", "list"},
            {"vehicle", "list", "--json"},
            {"vehicle", "show", "DEMO-00007"},
            {"vehicle", "show", "DEMO-0007"}, // mistyped: near labels are sought
            {"visit", "list", "DEMO-00007"},
            {"visit", "list", "DEMO-00007", "--json"},
            {"visit", "show", visit},
            {"visit", "show", visit, "--json"},
            {"observe", "--visit", visit},
            {"compare", "--visit", before, "--with", visit},
            {"suggest", "--visit", visit},
            {"suggest", "--visit", visit, "--why"},
            {"eliminate", "--visit", visit},
            {"report", "--visit", visit, "--text"},
            {"report", "--visit", visit, "--json"},
            {"learn"},
            {"unit", "show"}};
}

bool timeVerbs(const std::string& program, const fs::path& folder, const Size& size) {
    const Run start = timed(program, {"--version"}, folder);
    fmt::print("{:<36} {:>7.1f} ms\n", "--version: starting the program", start.ms);
    bool all = true;
    for (const auto& words : readingVerbs(size)) {
        const Run run = timed(program, words, folder);
        std::string name;
        for (const std::string& word : words)
            name += (name.empty() ? "" : " ") + word;
        const double allowed = allowedMs + allowedNsPerByte * 1e-6 * static_cast<double>(run.bytes);
        const double own = run.ms - start.ms;
        const bool holds = own <= allowed;
        all = all && holds;
        fmt::print("{:<36} {:>7.1f} ms, {:>7.1f} beside the start ({:.0f} by the clock), prints {} "
                   "bytes, exit {}{}\n",
                   name, run.ms, own, run.wallMs, run.bytes, run.exit,
                   holds ? "" : fmt::format(": over the {:.0f} ms allowed", allowed));
    }
    return all;
}

} // namespace

int main(int count, char** words) {
    Size size;
    if (count > 1)
        size.photos = std::max(1, std::atoi(words[1]));
    const test::TemporaryFolder place;
    const fs::path& folder = place.path();
    const auto start = Clock::now();
    makeBook(folder, size);
    fmt::print("a book of {} vehicles, {} visits and {} photos, {} MiB, made in {:.1f} s\n",
               size.vehicles, size.vehicles * size.visitsEach, size.photos,
               fs::file_size(folder / "book.db") >> 20U,
               milliseconds(Clock::now() - start) / 1000.0);
    return timeVerbs(SWARFBOOK_PROGRAM, folder, size) ? 0 : 1;
}
