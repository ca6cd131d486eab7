// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
//
// Makes a book of 50,000 photos' entries and times every reading verb on it. What a verb takes is
// measured beside starting the same program, and in starts of `swarfbook --version`, in the same
// run: another machine, or a busy one, changes both alike.
#include "benchmark/make_large_book.h"
#include "files/temporary_folder.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <spawn.h>
#include <string>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace {

using namespace swarfbook;
namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;
using Words = std::vector<std::string>;

// The bar is 50 ms beside the start, and 10 ns for every byte printed, on a machine where
// `swarfbook --version` takes 5 ms of processor time.
constexpr double allowedStarts = 10.0;
constexpr double allowedStartsPerMegabyte = 2.0;
constexpr int rounds = 5;

double milliseconds(Clock::duration time) {
    return std::chrono::duration<double, std::milli>(time).count();
}

struct Run {
    double ms = 0.0;     ///< of processor time, which other programs disturb least
    double wallMs = 0.0; ///< from start to end
    std::uintmax_t bytes = 0;
    int exit = 0;
};

/// The program, and where a run of it puts what it writes.
struct Trial {
    std::string program;
    fs::path book, out;

    [[nodiscard]] fs::path printed() const { return out / "printed"; }
};

/// A verb as typed; `writes`, where it is not empty, names the file that it makes.
struct Verb {
    Words words;
    fs::path writes{};
    bool full = false; ///< it becomes the full program, which takes longer to start
    int exit = 0;      ///< as it should end
};

Run runOnce(const std::string& program, const Words& words, const fs::path& out) {
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
    const int failed =
        posix_spawn(&child, program.c_str(), &actions, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    int status = 0;
    rusage used{};
    if (failed != 0 || wait4(child, &status, 0, &used) < 0)
        return {.exit = -1};
    const double ms = milliseconds(Clock::now() - start);
    const auto worked = [](const timeval& t) {
        return 1e3 * static_cast<double>(t.tv_sec) + 1e-3 * static_cast<double>(t.tv_usec);
    };
    return {worked(used.ru_utime) + worked(used.ru_stime), ms, fs::file_size(out),
            WIFEXITED(status) ? WEXITSTATUS(status) : -1};
}

/// The run of median processor time.
Run timed(const Trial& trial, const Verb& verb) {
    std::vector<Run> runs;
    for (int i = 0; i < rounds; ++i) {
        runs.push_back(runOnce(trial.program, verb.words, trial.printed()));
        if (!verb.writes.empty() && runs.back().exit == 0)
            runs.back().bytes += fs::file_size(verb.writes);
    }
    std::sort(runs.begin(), runs.end(), [](const Run& a, const Run& b) { return a.ms < b.ms; });
    return runs[rounds / 2];
}

std::vector<Verb> readingVerbs(const test::LargeBook& size, const Trial& trial) {
    // A visit of the last round, so that its vehicle has a history.
    const std::string visit = std::to_string(size.vehiclesWithHistory * (size.visitsEach - 1) + 7);
    const std::string before = std::to_string(size.vehiclesWithHistory * (size.visitsEach - 2) + 7);
    const fs::path pdf = trial.out / "report.pdf", picture = trial.out / "report.png";
    std::vector<Verb> verbs{
        {{"vehicle", "list"}},
        {{"vehicle", "list", "--json"}},
        {{"vehicle", "show", "DEMO-00007"}},
        {{"vehicle", "show", "DEMO-0007"}, {}, false, 2}, // mistyped: near labels are sought
        {{"visit", "list", "DEMO-00007"}},
        {{"visit", "list", "DEMO-00007", "--json"}},
        {{"visit", "show", visit}},
        {{"visit", "show", visit, "--json"}},
        {{"observe", "--visit", visit}},
        {{"compare", "--visit", before, "--with", visit}},
        {{"compare", "--visit", before, "--with", visit, "--json"}},
        {{"suggest", "--visit", visit}},
        {{"suggest", "--visit", visit, "--why"}},
        {{"suggest", "--visit", visit, "--json"}},
        {{"eliminate", "--visit", visit}},
        {{"track-record"}},
        {{"unit", "show"}},
        {{"check", "--list"}, {}, true, 1}, // there is none
        {{"report", "--visit", visit, "--text"}, {}, true},
        {{"report", "--visit", visit, "--json"}, {}, true},
        {{"report", "--visit", visit, "--out", pdf.string(), "--force"}, pdf, true},
        {{"report", "--visit", visit, "--picture", picture.string(), "--force"}, picture, true}};
    for (Verb& verb : verbs)
        verb.words.insert(verb.words.end(), {"--book", trial.book.string()});
    return verbs;
}

std::string nameOf(const Verb& verb) {
    std::string name;
    for (std::size_t i = 0; i + 2 < verb.words.size(); ++i)
        if (const std::string& word = verb.words[i]; word != "--force")
            name += (name.empty() ? "" : " ") + fs::path(word).filename().string();
    return name;
}

/// What starting takes: of the program that is typed, and of the full one.
struct Starts {
    Run quick, full;
};

/// Prints what a verb took. @return whether that is allowed.
bool judge(const std::string& name, const Verb& verb, const Run& run, const Starts& starts) {
    const double own = (run.ms - (verb.full ? starts.full.ms : starts.quick.ms)) / starts.quick.ms;
    const double allowed =
        allowedStarts + allowedStartsPerMegabyte * 1e-6 * static_cast<double>(run.bytes);
    const bool holds = own <= allowed && run.exit == verb.exit;
    fmt::print("{:<46} {:>7.1f} {:>7.1f} {:>8.1f} {:>8.1f} {:>9}{}\n", name, run.ms, run.wallMs,
               own, allowed, run.bytes,
               run.exit != verb.exit ? fmt::format("  ends with {}", run.exit)
               : holds               ? ""
                                     : "  TOO LONG");
    return holds;
}

bool timeVerbs(const Trial& trial, const test::LargeBook& size) {
    const Starts starts{timed(trial, {{"--version"}}), timed(trial, {{"report", "--help"}})};
    fmt::print(
        "start: --version {:.1f} ms, the full program's --help {:.1f} ms\n{:<46} {:>7} {:>7} "
        "{:>8} {:>8} {:>9}\n",
        starts.quick.ms, starts.full.ms, "beside that, in starts", "ms", "wall ms", "starts",
        "allowed", "bytes");
    const std::vector<Verb> verbs = readingVerbs(size, trial);
    const auto learn = std::find_if(verbs.begin(), verbs.end(), [](const Verb& verb) {
        return verb.words[0] == "track-record";
    });
    const Run first = runOnce(trial.program, learn->words, trial.printed());
    fmt::print("{:<46} {:>7.1f} {:>7.1f}  once: it judges every visit with an outcome\n",
               "learn, the first time", first.ms, first.wallMs);
    bool all = true;
    for (const Verb& verb : verbs)
        all = judge(nameOf(verb), verb, timed(trial, verb), starts) && all;
    return all;
}

} // namespace

int main(int count, char** words) {
    test::LargeBook size;
    if (count > 1)
        size.photos = std::max(1, std::atoi(words[1]));
    const test::TemporaryFolder place, out;
    const auto start = Clock::now();
    makeLargeBook(place.path(), size);
    fmt::print("a book of {} vehicles, {} visits and {} photos, {} MiB, made in {:.1f} s\n",
               size.vehicles, size.visits(), size.photos, fs::file_size(place / "book.db") >> 20U,
               milliseconds(Clock::now() - start) / 1000.0);
    return timeVerbs({SWARFBOOK_PROGRAM, place.path(), out.path()}, size) ? 0 : 1;
}
