// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "files/temporary_folder.h"

#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <stdexcept>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace swarfbook::test {

inline std::string contentOf(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

struct ProgramResult {
    int exit = 0; ///< exit code; -N when signal N ended the program
    std::string out, err;
};

struct RunOptions {
    std::string program = SWARFBOOK_PROGRAM;
    std::filesystem::path folder;                   ///< to run in; empty: where the test runs
    std::map<std::string, std::string> environment; ///< set on top of the test's own
    std::string input;                              ///< on standard input
    unsigned secondsAllowed = 300;                  ///< a longer run is ended by SIGALRM
};

/// In the child: becomes the program. Never returns.
[[noreturn]] inline void becomeProgram(const std::vector<std::string>& arguments,
                                       const RunOptions& options, const int (&streams)[3]) {
    const auto [in, out, err] = streams;
    dup2(in, STDIN_FILENO);
    dup2(out, STDOUT_FILENO);
    dup2(err, STDERR_FILENO);
    if (!options.folder.empty() && chdir(options.folder.c_str()) != 0)
        _exit(126);
    // Looking for leaks takes half of a short run. Each verb is checked once, in frame_test.cpp,
    // which runs every verb's example in the shell.
    const char* const asked = std::getenv("ASAN_OPTIONS");
    setenv("ASAN_OPTIONS",
           ((asked == nullptr ? "" : std::string(asked) + ":") + "detect_leaks=0").c_str(), 1);
    for (const auto& [name, value] : options.environment)
        setenv(name.c_str(), value.c_str(), 1);
    std::vector<char*> words{const_cast<char*>(options.program.c_str())};
    for (const std::string& argument : arguments)
        words.push_back(const_cast<char*>(argument.c_str()));
    words.push_back(nullptr);
    alarm(options.secondsAllowed);
    execvp(words[0], words.data());
    _exit(127);
}

/// Runs the program with these words and waits for it; its standard input is empty unless the
/// options say otherwise.
inline ProgramResult runProgram(const std::vector<std::string>& arguments,
                                const RunOptions& options = {}) {
    const TemporaryFolder talk;
    const auto outFile = talk.path() / "out", errFile = talk.path() / "err",
               inFile = talk.path() / "in";
    std::ofstream(inFile) << options.input;
    const int in = ::open(inFile.c_str(), O_RDONLY | O_CLOEXEC);
    const int out = ::open(outFile.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600);
    const int err = ::open(errFile.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600);
    std::cout.flush();
    std::fflush(nullptr); // otherwise the child would write it again
    const pid_t child = fork();
    if (child < 0)
        throw std::runtime_error("no process can be started");
    if (child == 0)
        becomeProgram(arguments, options, {in, out, err});
    ::close(in);
    ::close(out);
    ::close(err);
    int status = 0;
    waitpid(child, &status, 0);
    const int code = WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
    return {code, contentOf(outFile), contentOf(errFile)};
}

} // namespace swarfbook::test
