// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/terminal_picture.h"

#include "base/errors.h"

#include <opencv2/imgproc.hpp>

#include <chrono>
#include <cstdlib>
#include <memory>
#include <poll.h>
#include <sixel.h>
#include <string_view>
#include <termios.h>
#include <unistd.h>

namespace swarfbook::cli {
namespace {

/// Keys come one by one and unseen as long as it lives.
class UnseenKeys {
  public:
    UnseenKeys() {
        termios now{};
        if (::tcgetattr(STDIN_FILENO, &now) != 0)
            return;
        before_ = now;
        now.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO);
        changed_ = ::tcsetattr(STDIN_FILENO, TCSANOW, &now) == 0;
    }
    ~UnseenKeys() {
        if (changed_)
            ::tcsetattr(STDIN_FILENO, TCSANOW, &before_);
    }
    UnseenKeys(const UnseenKeys&) = delete;
    UnseenKeys& operator=(const UnseenKeys&) = delete;

  private:
    termios before_{};
    bool changed_ = false;
};

/// What the terminal answers, up to and with the letter; "" where it does not within half a second.
std::string answerTo(std::string_view question, char lastLetter) {
    using namespace std::chrono;
    const UnseenKeys keys;
    writeToTerminal(question);
    const auto until = steady_clock::now() + milliseconds(500);
    for (std::string answer; answer.empty() || answer.back() != lastLetter;) {
        const auto left = duration_cast<milliseconds>(until - steady_clock::now()).count();
        pollfd input{STDIN_FILENO, POLLIN, 0};
        char byte = 0;
        if (left <= 0 || ::poll(&input, 1, static_cast<int>(left)) <= 0 ||
            ::read(STDIN_FILENO, &byte, 1) != 1)
            return "";
        answer += byte;
        if (answer.back() == lastLetter)
            return answer;
    }
    return "";
}

/// Whether "\x1b[?62;4;22c" holds an attribute.
bool holds(std::string_view answer, std::string_view attribute) {
    const std::size_t begin = answer.find("\x1b[?");
    if (begin == std::string_view::npos)
        return false;
    answer.remove_prefix(begin + 3);
    while (!answer.empty()) {
        const std::size_t end = answer.find_first_of(";c");
        if (answer.substr(0, end) == attribute)
            return true;
        answer.remove_prefix(end == std::string_view::npos ? answer.size() : end + 1);
    }
    return false;
}

void must(SIXELSTATUS status) {
    if (SIXEL_FAILED(status))
        throw ToolError(std::string("The picture cannot be shown in the terminal: ") +
                        sixel_helper_format_error(status) + ".");
}

int append(char* bytes, int count, void* to) {
    static_cast<std::string*>(to)->append(bytes, static_cast<std::size_t>(count));
    return count;
}

} // namespace

void writeToTerminal(std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t count = ::write(STDOUT_FILENO, bytes.data(), bytes.size());
        if (count <= 0)
            return; // what is said next finds out as well, and reports it
        bytes.remove_prefix(static_cast<std::size_t>(count));
    }
}

bool terminalShowsPictures() {
    const char* const kind = std::getenv("TERM");
    if (::isatty(STDIN_FILENO) == 0 || ::isatty(STDOUT_FILENO) == 0 ||
        (kind != nullptr && std::string_view(kind) == "dumb"))
        return false;
    return holds(answerTo("\x1b[c", 'c'), "4");
}

std::string sixelsOf(const cv::Mat& bgr) {
    cv::Mat rgb;
    cv::cvtColor(bgr, rgb, cv::COLOR_BGR2RGB);
    std::string sixels;
    sixel_output_t* to = nullptr;
    must(sixel_output_new(&to, append, &sixels, nullptr));
    const std::unique_ptr<sixel_output_t, decltype(&sixel_output_unref)> output(to,
                                                                                sixel_output_unref);
    sixel_dither_t* colours = nullptr;
    must(sixel_dither_new(&colours, SIXEL_PALETTE_MAX, nullptr));
    const std::unique_ptr<sixel_dither_t, decltype(&sixel_dither_unref)> dither(colours,
                                                                                sixel_dither_unref);
    must(sixel_dither_initialize(colours, rgb.data, rgb.cols, rgb.rows, SIXEL_PIXELFORMAT_RGB888,
                                 SIXEL_LARGE_AUTO, SIXEL_REP_AUTO, SIXEL_QUALITY_AUTO));
    must(sixel_encode(rgb.data, rgb.cols, rgb.rows, 3, colours, to));
    return "\r" + sixels + "\r\n";
}

void showInTerminal(const cv::Mat& bgr) {
    writeToTerminal(sixelsOf(bgr));
}

} // namespace swarfbook::cli
