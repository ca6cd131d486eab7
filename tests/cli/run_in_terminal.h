// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/run_program.h"

#include <cerrno>
#include <functional>
#include <pty.h>
#include <sys/ioctl.h>

namespace swarfbook::test {

/// What the user and the terminal type in answer to all that the terminal was sent so far.
using TypedInTerminal = std::function<std::string(const std::string& sent)>;

/// Runs the program in a terminal of so many columns, which its standard input, output and error
/// are. @return its exit code, and as `out` all that the terminal was sent, line ends as "\n".
inline ProgramResult runInTerminal(const std::vector<std::string>& words, unsigned short columns,
                                   RunOptions options = {}, const TypedInTerminal& typed = {}) {
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
         (count = ::read(terminal, part, sizeof part)) > 0 || (count < 0 && errno == EINTR);) {
        all.append(part, static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
        const std::string answer = typed && count > 0 ? typed(all) : "";
        if (!answer.empty() && ::write(terminal, answer.data(), answer.size()) < 0)
            throw std::runtime_error("the terminal takes nothing");
    }
    ::close(terminal);
    int status = 0;
    waitpid(child, &status, 0);
    for (std::size_t at = all.find("\r\n"); at != std::string::npos; at = all.find("\r\n", at))
        all.erase(at, 1);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status), all, ""};
}

} // namespace swarfbook::test
