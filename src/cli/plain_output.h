// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <iosfwd>
#include <streambuf>
#include <string>
#include <string_view>

namespace swarfbook::cli {

/// How the destination shows text; the default is for a file or a pipe.
struct ShownOn {
    std::size_t width = 0; ///< lines are broken at blanks to this length; 0: not broken
    bool colour = false;   ///< the marks of terminal.h become colours
};

/// As long as it lives, text written to the stream is escaped as base/text.h's shown() does, with
/// line breaks and tabs kept, so that no file name, old entry or message can move the cursor,
/// reverse the writing direction or ring the bell. JSON stays the same JSON, because inside its
/// strings the escapes mean the characters that they stand for.
///
/// With a width, long lines continue in the next one with the same indent. Two kinds of line are
/// left whole, because a user copies them: an indented command ("swarfbook ..." or "usage: ...")
/// and JSON.
/// Checked: tests/cli/odd_text_test.cpp, tests/cli/terminal_test.cpp.
class PlainOutput : private std::streambuf {
  public:
    explicit PlainOutput(std::ostream& stream, ShownOn where = {});
    ~PlainOutput() override;
    PlainOutput(const PlainOutput&) = delete;
    PlainOutput& operator=(const PlainOutput&) = delete;

  private:
    int_type overflow(int_type c) override;
    std::streamsize xsputn(const char* text, std::streamsize count) override;
    int sync() override;
    /// Passes on whole characters; keeps the beginning of a character until its rest comes.
    bool handOn(bool all);
    /// The text with colours in place of marks.
    std::string inColour(std::string_view text);
    /// The text with line breaks in lines that are too long.
    std::string broken(std::string_view text);
    void addWord(std::string& to, std::string_view word);
    void endLine();

    std::ostream& stream_;
    std::streambuf* to_;
    ShownOn where_;
    std::string held_;
    bool styled_ = false; ///< a colour is on
    // the line that is being written
    std::size_t column_ = 0, indent_ = 0;
    bool atStart_ = true, whole_ = false;
    std::string blanks_;      ///< not written yet
    bool blanksGone_ = false; ///< blanks were written last, before the next word was there
};

} // namespace swarfbook::cli
