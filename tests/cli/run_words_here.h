// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"
#include "cli/run_program.h"

#include <csignal>
#include <optional>
#include <sstream>
#include <sys/stat.h>

namespace swarfbook::test {

/// Standard output as a file, as long as it lives.
class OutputInFile {
  public:
    explicit OutputInFile(const std::filesystem::path& file) {
        std::cout.flush();
        std::fflush(stdout);
        const int to = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
        if (before_ < 0 || to < 0 || dup2(to, STDOUT_FILENO) < 0)
            throw std::runtime_error("standard output cannot be led into a file");
        ::close(to);
    }
    ~OutputInFile() {
        dup2(before_, STDOUT_FILENO);
        ::close(before_);
    }
    OutputInFile(const OutputInFile&) = delete;
    OutputInFile& operator=(const OutputInFile&) = delete;

  private:
    int before_ = ::fcntl(STDOUT_FILENO, F_DUPFD_CLOEXEC, 3);
};

/// Redirects a stream to this, as long as it lives.
template <typename Stream> class StreamWith {
  public:
    StreamWith(Stream& stream, std::streambuf* buffer)
        : stream_(stream), before_(stream.rdbuf(buffer)), format_(nullptr) {
        format_.copyfmt(stream);
    }
    ~StreamWith() {
        stream_.rdbuf(before_); // also clears errors
        stream_.copyfmt(format_);
    }
    StreamWith(const StreamWith&) = delete;
    StreamWith& operator=(const StreamWith&) = delete;

  private:
    Stream& stream_;
    std::streambuf* before_;
    std::ios format_;
};

/// The folder, the environment, the rights of new files and the answer to a closed pipe that a
/// program would have, as long as it lives.
class AsInProcess {
  public:
    explicit AsInProcess(const RunOptions& options) {
        for (const auto& [name, value] : options.environment) {
            const char* old = std::getenv(name.c_str());
            environment_[name] = old == nullptr ? std::nullopt : std::optional<std::string>(old);
            setenv(name.c_str(), value.c_str(), 1);
        }
        if (!options.folder.empty())
            std::filesystem::current_path(options.folder);
    }
    ~AsInProcess() {
        std::error_code ignored;
        std::filesystem::current_path(folder_, ignored);
        ::umask(rights_);
        std::signal(SIGPIPE, closedPipe_);
        for (const auto& [name, value] : environment_) {
            if (value)
                setenv(name.c_str(), value->c_str(), 1);
            else
                unsetenv(name.c_str());
        }
    }
    AsInProcess(const AsInProcess&) = delete;
    AsInProcess& operator=(const AsInProcess&) = delete;

  private:
    std::filesystem::path folder_ = std::filesystem::current_path();
    mode_t rights_ = ::umask(0022);
    void (*closedPipe_)(int) = std::signal(SIGPIPE, SIG_DFL);
    std::map<std::string, std::optional<std::string>> environment_;
};

/// As runProgram, but in the test's own process, which saves starting one: for tests that type many
/// commands. A hang or a crash ends the test program.
inline ProgramResult runWordsHere(const std::vector<std::string>& words,
                                  const RunOptions& options = {}) {
    const TemporaryFolder talk;
    std::istringstream in(options.input);
    std::ostringstream err;
    int code = 0;
    {
        const AsInProcess process(options);
        const OutputInFile out(talk / "out");
        const StreamWith results(std::cout, std::cout.rdbuf());
        const StreamWith typed(std::cin, in.rdbuf());
        const StreamWith said(std::cerr, err.rdbuf());
        alarm(options.secondsAllowed);
        code = cli::runWords(words);
        alarm(0);
    }
    return {code, contentOf(talk / "out"), err.str()};
}

} // namespace swarfbook::test
