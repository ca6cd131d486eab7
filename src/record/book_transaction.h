// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <filesystem>

namespace swarfbook {

class Database;

/// All or nothing: what is written between its making and commit() is kept together or not at all.
/// Inside another one it belongs to that one. Rolls back unless committed.
class BookTransaction {
  public:
    /// @param bookFolder  where what killed commands left is cleared first; "" clears nothing.
    BookTransaction(Database& database, const std::filesystem::path& bookFolder = {});
    ~BookTransaction();
    BookTransaction(const BookTransaction&) = delete;
    BookTransaction& operator=(const BookTransaction&) = delete;
    /// Keeps what was written. Throws ToolError if the disk refuses; then nothing is kept.
    void commit();

  private:
    void settle(bool committed);

    Database& database_;
    int depth_; ///< 0 outermost
    std::size_t undecidedBefore_;
    bool open_ = true; ///< not committed yet
};

} // namespace swarfbook
