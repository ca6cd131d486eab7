// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <streambuf>
#include <string>

namespace swarfbook::cli {

/// Standard output while a verb runs: std::cout writes through it, and it keeps the system's error
/// if that fails. On a terminal every line appears at once.
/// Checked: tests/cli/standard_output_test.cpp.
class StandardOutput : public std::streambuf {
  public:
    /// Takes std::cout over; gives it back at its end.
    StandardOutput();
    ~StandardOutput() override;
    StandardOutput(const StandardOutput&) = delete;
    StandardOutput& operator=(const StandardOutput&) = delete;

    /// Writes the rest. @return the system's number of the first error (errno), 0 for none.
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

/// Opens the standard streams that the program was started without, so that no file of a book gets
/// their numbers. Writing to a stream that was closed fails.
void openMissingStreams();

} // namespace swarfbook::cli
