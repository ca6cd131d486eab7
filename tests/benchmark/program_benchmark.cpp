// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "benchmark/timing.h"
#include "files/temporary_folder.h"

#include <fmt/format.h>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include <cstdlib>
#include <exception>
#include <fcntl.h>
#include <filesystem>
#include <iostream>
#include <spawn.h>
#include <stdexcept>
#include <string>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

// Times the program as its user starts it: how soon it answers, eight measurements at once against
// the same eight one after the other, and the peak memory of a photo of 48 megapixels. Exit code 1
// when one of them is beyond its limit.
namespace {

namespace fs = std::filesystem;
using Words = std::vector<std::string>;
using swarfbook::test::secondsOf;
using swarfbook::test::secondsOfBoth;

constexpr double mostStartMs = 15.0;
constexpr double mostAtOnce = 1.0;      // times one after the other
constexpr double mostMegabytes = 400.0; // of 10^6 bytes
constexpr int atOnce = 8;

/// A process that runs the program, its talk thrown away.
class Run {
  public:
    explicit Run(const Words& words) {
        std::vector<char*> all;
        for (const std::string& word : words)
            all.push_back(const_cast<char*>(word.c_str()));
        all.push_back(nullptr);
        posix_spawn_file_actions_t talk;
        posix_spawn_file_actions_init(&talk);
        for (const int stream : {STDOUT_FILENO, STDERR_FILENO})
            posix_spawn_file_actions_addopen(&talk, stream, "/dev/null", O_WRONLY, 0);
        const int failed = posix_spawn(&process_, all[0], &talk, nullptr, all.data(), environ);
        posix_spawn_file_actions_destroy(&talk);
        if (failed != 0)
            throw std::runtime_error("the program cannot be started");
    }
    /// Waits for its end. @return its peak memory, megabytes.
    [[nodiscard]] double peakAtEnd() const {
        int status = 0;
        rusage usage{};
        if (wait4(process_, &status, 0, &usage) < 0 || !WIFEXITED(status) ||
            WEXITSTATUS(status) != 0)
            throw std::runtime_error("the program did not do what it was told");
        return static_cast<double>(usage.ru_maxrss) * 1024.0 / 1e6;
    }

  private:
    pid_t process_ = 0;
};

/// Prints a figure beside its limit. @return whether it keeps it.
bool judge(const std::string& what, double figure, double most, const std::string& unit) {
    const bool keeps = figure <= most;
    std::cout << fmt::format("  {:<44} {:>7.2f} {} ({}: at most {:g} allowed)\n", what, figure,
                             unit, keeps ? "good" : "TOO MUCH", most);
    return keeps;
}

bool startsSoon(const std::string& program) {
    constexpr int repeats = 41;
    const double seconds = secondsOf(
        [&] {
            (void)Run({program, "--version"}).peakAtEnd();
        },
        repeats);
    return judge("start, --version", 1e3 * seconds, mostStartMs, "ms");
}

bool worksAtOnce(const std::string& program, const fs::path& photo) {
    constexpr int repeats = 5;
    const Words words{program, "measure", photo.string()};
    const auto atTheSameTime = [&] {
        std::vector<Run> runs;
        for (int k = 0; k < atOnce; ++k)
            runs.emplace_back(words);
        for (const Run& run : runs)
            (void)run.peakAtEnd();
    };
    const auto oneByOne = [&] {
        for (int k = 0; k < atOnce; ++k)
            (void)Run(words).peakAtEnd();
    };
    const auto [together, inTurn] = secondsOfBoth(atTheSameTime, oneByOne, repeats);
    return judge("eight measurements at once", together / inTurn, mostAtOnce,
                 "x one after the other");
}

/// The photo with twice as many pixels a side, made in a process of its own: what a process has
/// held counts as its children's peak too.
void enlarge(const fs::path& photo, const fs::path& large) {
    const pid_t child = fork();
    if (child == 0) {
        const cv::Mat small = cv::imread(photo.string(), cv::IMREAD_COLOR);
        cv::Mat twice;
        cv::resize(small, twice, {}, 2.0, 2.0, cv::INTER_CUBIC);
        _exit(cv::imwrite(large.string(), twice) ? 0 : 1);
    }
    int status = 0;
    waitpid(child, &status, 0);
    if (status != 0)
        throw std::runtime_error("the photo could not be enlarged");
}

bool takesLittleMemory(const std::string& program, const fs::path& photo) {
    const swarfbook::test::TemporaryFolder folder;
    const std::string large = (folder / "large.jpg").string();
    const std::string drawn = (folder / "drawn.jpg").string();
    enlarge(photo, large);
    const double plain = Run({program, "measure", large}).peakAtEnd();
    const double annotated = Run({program, "measure", large, "--annotated", drawn}).peakAtEnd();
    const bool isLittle = judge("48 megapixels, peak memory", plain, mostMegabytes, "MB");
    return judge("48 megapixels, annotated, peak memory", annotated, mostMegabytes, "MB") &&
           isLittle;
}

} // namespace

int main(int argc, char** argv) {
    try {
        if (argc != 3) {
            std::cerr << "usage: program_benchmark PROGRAM PHOTO\n"
                         "PHOTO: a pad of 12 megapixels\n";
            return 2;
        }
        const std::string program = argv[1];
        std::cout << "the program as its user starts it\n";
        const bool soon = startsSoon(program);
        const bool together = worksAtOnce(program, argv[2]);
        const bool little = takesLittleMemory(program, argv[2]);
        return soon && together && little ? 0 : 1;
    } catch (const std::exception& e) {
        std::cerr << "program_benchmark: " << e.what() << "\n";
        return 3;
    }
}
