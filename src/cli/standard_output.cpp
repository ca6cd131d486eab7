// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/standard_output.h"

#include <cerrno>
#include <fcntl.h>
#include <iostream>
#include <unistd.h>

namespace swarfbook::cli {

constexpr std::size_t mostWaiting = 1U << 16U;

StandardOutput::StandardOutput()
    : before_(std::cout.rdbuf(this)), isTerminal_(::isatty(STDOUT_FILENO) != 0) {}

StandardOutput::~StandardOutput() {
    finish();
    std::cout.rdbuf(before_);
}

int StandardOutput::finish() {
    sync();
    return error_;
}

StandardOutput::int_type StandardOutput::overflow(int_type c) {
    if (traits_type::eq_int_type(c, traits_type::eof()))
        return traits_type::not_eof(c);
    const char one = traits_type::to_char_type(c);
    return xsputn(&one, 1) == 1 ? c : traits_type::eof();
}

std::streamsize StandardOutput::xsputn(const char* text, std::streamsize count) {
    waiting_.append(text, static_cast<std::size_t>(count));
    const bool lineEnds = isTerminal_ && waiting_.find('\n') != std::string::npos;
    if ((lineEnds || waiting_.size() >= mostWaiting) && sync() != 0)
        return 0;
    return count;
}

int StandardOutput::sync() {
    std::size_t done = 0;
    while (error_ == 0 && done < waiting_.size()) {
        const ssize_t written =
            ::write(STDOUT_FILENO, waiting_.data() + done, waiting_.size() - done);
        if (written >= 0)
            done += static_cast<std::size_t>(written);
        else if (errno != EINTR)
            error_ = errno;
    }
    waiting_.clear();
    return error_ == 0 ? 0 : -1;
}

void openMissingStreams() {
    for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; ++stream) {
        if (::fcntl(stream, F_GETFD) != -1 || errno != EBADF)
            continue;
        // The system gives the lowest free number, which is this one. Standard output is opened for
        // reading, so writing to it still fails.
        (void)::open("/dev/null", stream == STDERR_FILENO ? O_WRONLY : O_RDONLY);
    }
}

} // namespace swarfbook::cli
