// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/plain_output.h"

#include "base/text.h"
#include "cli/terminal.h"

#include <algorithm>
#include <ostream>

namespace swarfbook::cli {
namespace {

/// Bytes at the end that may begin a character whose rest is still to come: three at most.
std::size_t unfinished(const std::string& text) {
    for (std::size_t back = 1; back <= 3 && back <= text.size(); ++back) {
        const auto byte = static_cast<unsigned char>(text[text.size() - back]);
        if (byte >= 0xC0) {
            const std::size_t length = byte >= 0xF0 ? 4 : byte >= 0xE0 ? 3 : 2;
            return length > back ? back : 0;
        }
        if (byte < 0x80)
            return back == 1 && (byte == '\r' || byte == markBegin) ? 1 : 0;
    }
    return 0;
}

/// As shown(); the line breaks of CSV (RFC 4180: a carriage return before each) stay as well.
std::string shownWithBreaks(std::string_view text) {
    std::string out;
    for (std::size_t at = text.find("\r\n"); at != std::string_view::npos; at = text.find("\r\n")) {
        out += shown(text.substr(0, at), Breaks::keep) + "\r\n";
        text.remove_prefix(at + 2);
    }
    return out + shown(text, Breaks::keep);
}

constexpr std::string_view styleOff = "\x1b[0m";

/// Number of characters that a terminal shows; its colours take no room.
std::size_t shownLength(std::string_view word) {
    std::size_t hidden = 0;
    for (std::size_t at = word.find('\x1b'); at != std::string_view::npos;
         at = word.find('\x1b', at + 1))
        hidden += std::min(word.find('m', at), word.size() - 1) - at + 1;
    return characterCount(word) - hidden;
}

} // namespace

PlainOutput::PlainOutput(std::ostream& stream, ShownOn where)
    : stream_(stream), to_(stream.rdbuf()), where_(where) {
    stream_.rdbuf(this);
}

PlainOutput::~PlainOutput() {
    handOn(true);
    const auto state = stream_.rdstate();
    stream_.rdbuf(to_); // this clears the state
    stream_.setstate(state);
}

bool PlainOutput::handOn(bool all) {
    const std::size_t keep = all ? 0 : unfinished(held_);
    const std::string_view whole = std::string_view(held_).substr(0, held_.size() - keep);
    std::string text = where_.colour ? inColour(whole) : shownWithBreaks(whole);
    if (where_.width > 0 && !linesStayWhole())
        text = broken(text);
    held_.erase(0, held_.size() - keep);
    const auto count = static_cast<std::streamsize>(text.size());
    return to_->sputn(text.data(), count) == count;
}

std::string PlainOutput::inColour(std::string_view text) {
    const std::string begin{markBegin}, stops{markEnd, '\n'};
    std::string out;
    while (!text.empty()) {
        const std::size_t plain =
            std::min(text.find_first_of(styled_ ? begin + stops : begin), text.size());
        out += shownWithBreaks(text.substr(0, plain));
        text.remove_prefix(plain);
        if (text.empty())
            break;
        const std::string_view style = text.size() > 1 ? styleOf(text[1]) : std::string_view();
        if (text.front() == markBegin) {
            out += style.empty() ? shown(text.substr(0, 1)) : std::string(style);
            styled_ = styled_ || !style.empty();
            text.remove_prefix(style.empty() ? 1 : 2);
            continue;
        }
        out += styleOff; // a style ends with its line at the latest
        out += text.front() == '\n' ? "\n" : "";
        styled_ = false;
        text.remove_prefix(1);
    }
    return out;
}

std::string PlainOutput::broken(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        if (text.front() == '\n') {
            out += '\n';
            text.remove_prefix(1);
            endLine();
            continue;
        }
        const std::size_t blanks = std::min(text.find_first_not_of(' '), text.size());
        blanks_.append(blanks, ' ');
        text.remove_prefix(blanks);
        const std::size_t word = std::min(text.find_first_of(" \n"), text.size());
        if (word > 0)
            addWord(out, text.substr(0, word));
        text.remove_prefix(word);
    }
    return out;
}

void PlainOutput::addWord(std::string& to, std::string_view word) {
    const std::size_t length = shownLength(word);
    if (atStart_) {
        indent_ = blanks_.size() + (word == "-" ? 2 : blanks_.empty() ? 0 : 2);
        whole_ = word == "swarfbook" || word == "usage:" || word.front() == '{';
        indent_ = std::min(indent_, where_.width / 2);
    }
    const bool mayBreak = !blanks_.empty() || blanksGone_;
    if (!whole_ && !atStart_ && mayBreak && column_ > indent_ &&
        column_ + blanks_.size() + length > where_.width) {
        to += '\n' + std::string(indent_, ' ');
        column_ = indent_;
        blanks_.clear();
    }
    atStart_ = false;
    to += blanks_;
    to += word;
    column_ += blanks_.size() + length;
    blanks_.clear();
    blanksGone_ = false;
}

void PlainOutput::endLine() {
    column_ = indent_ = 0;
    atStart_ = true;
    whole_ = blanksGone_ = false;
    blanks_.clear();
}

PlainOutput::int_type PlainOutput::overflow(int_type c) {
    if (traits_type::eq_int_type(c, traits_type::eof()))
        return traits_type::not_eof(c);
    held_ += traits_type::to_char_type(c);
    return handOn(false) ? c : traits_type::eof();
}

std::streamsize PlainOutput::xsputn(const char* text, std::streamsize count) {
    held_.append(text, static_cast<std::size_t>(count));
    return handOn(false) ? count : 0;
}

int PlainOutput::sync() {
    if (!handOn(true))
        return -1;
    // text waiting after a question must be visible before it is answered
    const auto waiting = static_cast<std::streamsize>(blanks_.size());
    const bool handed = to_->sputn(blanks_.data(), waiting) == waiting;
    column_ += blanks_.size();
    blanksGone_ = blanksGone_ || !blanks_.empty();
    blanks_.clear();
    return handed ? to_->pubsync() : -1;
}

} // namespace swarfbook::cli
