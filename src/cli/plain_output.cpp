// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/plain_output.h"

#include "base/text.h"

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
            return 0;
    }
    return 0;
}

} // namespace

PlainOutput::PlainOutput(std::ostream& stream) : stream_(stream), to_(stream.rdbuf()) {
    stream_.rdbuf(this);
}

PlainOutput::~PlainOutput() {
    handOn(true);
    const auto state = stream_.rdstate();
    stream_.rdbuf(to_); // which clears the state
    stream_.setstate(state);
}

bool PlainOutput::handOn(bool all) {
    const std::size_t keep = all ? 0 : unfinished(held_);
    const std::string text =
        shown(std::string_view(held_).substr(0, held_.size() - keep), Breaks::keep);
    held_.erase(0, held_.size() - keep);
    const auto count = static_cast<std::streamsize>(text.size());
    return to_->sputn(text.data(), count) == count;
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
    return handOn(true) ? to_->pubsync() : -1;
}

} // namespace swarfbook::cli
