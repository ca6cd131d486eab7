// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <iosfwd>
#include <streambuf>
#include <string>

namespace swarfbook::cli {

/// As long as it lives, what is written to the stream is shown as base/text.h's shown() does, line
/// breaks and tabs kept: no name of a file, no old entry and no message can move the cursor, turn
/// the writing round or ring the bell. JSON stays the same JSON, because inside its strings the
/// escapes mean the characters that they stand for.
/// Checked: tests/cli/odd_text_test.cpp.
class PlainOutput : private std::streambuf {
  public:
    explicit PlainOutput(std::ostream& stream);
    ~PlainOutput() override;
    PlainOutput(const PlainOutput&) = delete;
    PlainOutput& operator=(const PlainOutput&) = delete;

  private:
    int_type overflow(int_type c) override;
    std::streamsize xsputn(const char* text, std::streamsize count) override;
    int sync() override;
    /// Hands on what is whole; keeps the beginning of a character until its rest comes.
    bool handOn(bool all);

    std::ostream& stream_;
    std::streambuf* to_;
    std::string held_;
};

} // namespace swarfbook::cli
