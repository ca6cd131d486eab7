// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/run_program.h"

#include <cerrno>
#include <pty.h>
#include <sys/ioctl.h>

namespace swarfbook::test {

/// Runs the program in a terminal with this many columns, as its standard input, output and error.
/// @return its exit code, and in `out` everything sent to the terminal, line ends as "\n".
inline ProgramResult runInTerminal(const std::vector<std::string>& words, unsigned short columns,
                                   RunOptions options = {}) {
    winsize size{};
    size.ws_row = 50;
    size.ws_col = columns;
    int terminal = -1;
    if (options.environment.count("TERM") == 0)
        options.environment["TERM"] = "xterm";
    if (options.environment.count("NO_COLOR") == 0)
        options.environment["NO_COLOR"] = "";
    std::cout.flush();
    std::fflush(nullptr);
    const pid_t child = forkpty(&terminal, nullptr, nullptr, &size);
    if (child < 0)
        throw std::runtime_error("no terminal can be made");
    if (child == 0)
        becomeProgram(words, options, {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO});
    std::string all;
    char part[4096];
    for (ssize_t count = 0;
         (count = ::read(terminal, part, sizeof part)) > 0 || (count < 0 && errno == EINTR);)
        all.append(part, static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
    ::close(terminal);
    int status = 0;
    waitpid(child, &status, 0);
    for (std::size_t at = all.find("\r\n"); at != std::string::npos; at = all.find("\r\n", at))
        all.erase(at, 1);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status), all, ""};
}

} // namespace swarfbook::test
