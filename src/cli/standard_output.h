// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <streambuf>
#include <string>

namespace swarfbook::cli {

/// Standard output while a verb runs: std::cout writes through it, and what the system says when
/// that fails is kept. On a terminal every line appears at once.
/// Checked: tests/cli/standard_output_test.cpp.
class StandardOutput : public std::streambuf {
  public:
    /// Takes std::cout over; gives it back at its end.
    StandardOutput();
    ~StandardOutput() override;
    StandardOutput(const StandardOutput&) = delete;
    StandardOutput& operator=(const StandardOutput&) = delete;

    /// Writes what is left. @return the system's number of the first error (errno), 0 for none.
    int finish();

  protected:
    int_type overflow(int_type c) override;
    std::streamsize xsputn(const char* text, std::streamsize count) override;
    int sync() override;

  private:
    std::streambuf* before_;
    std::string waiting_;
    bool isTerminal_;
    int error_ = 0;
};

/// Gives the standard streams that the program was started without a place of their own, so that
/// no file of a book is opened in their place. Writing to one that was closed fails.
void openMissingStreams();

} // namespace swarfbook::cli
