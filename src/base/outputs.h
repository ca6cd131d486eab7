// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/output_file.h"

#include <filesystem>
#include <set>
#include <span>
#include <string>
#include <sys/types.h>
#include <utility>
#include <vector>

namespace swarfbook {

/// The files that one command writes for its user. None of them replaces a file that the command
/// reads, anything of a book or, unless the user says so, any existing file. Files are compared by
/// device and inode, not by name. Checked: tests/base/output_file_test.cpp,
/// tests/cli/output_test.cpp.
class Outputs {
  public:
    explicit Outputs(IfThere ifThere = IfThere::refuse) : ifThere_(ifThere) {}

    /// A file that the command reads. A missing file is ignored.
    void addInput(const std::filesystem::path& file);
    /// The folder of the book that the command uses. Other books are known by their book.db.
    void addBook(const std::filesystem::path& folder);

    /// Refuses a file that write() would refuse. Call it before any work is done. Refuses a name
    /// that one command plans twice as well. Throws UsageError or ToolError, each saying what to do
    /// instead.
    void plan(const std::filesystem::path& file);
    /// Writes a file as writeFile does, after the same checks as plan().
    void write(const std::filesystem::path& file, std::span<const unsigned char> bytes) const;

  private:
    using Inode = std::pair<dev_t, ino_t>;
    void requireAllowed(const std::filesystem::path& file) const;
    void requireOutsideBooks(const std::filesystem::path& file) const;
    [[nodiscard]] bool isFileOfBook(const std::filesystem::path& file) const;

    IfThere ifThere_;
    std::set<Inode> inputs_;
    std::vector<std::filesystem::path> books_;
    std::set<std::string> planned_;
};

} // namespace swarfbook
