// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/database.h"
#include "record/folder.h"

#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace swarfbook {

/// One thing that is wrong with a book: what it is and what the user should do, a sentence or two
/// each. Files are named from the book's folder on.
struct BookFault {
    std::string what, advice;
    bool ofDatabase = false; ///< book.db itself is damaged, not only what one entry says
    bool notRead = false;    ///< this account may not read it; it may be whole
};

/// What was looked at, all of it, and what is wrong.
struct BookState {
    std::size_t photos = 0; ///< originals: photos, clean references, photos of work
    std::size_t findings = 0, observations = 0, charts = 0;
    std::vector<BookFault> faults;

    [[nodiscard]] bool sound() const { return faults.empty(); }
};

/// Reads everything that a book consists of: SQLite's own checks of book.db, the digest and size of
/// every original, every finding, every observation, every chart. Changes nothing.
///
/// @param book        its folder.
/// @param database    its book.db, of the present version.
/// @param passedOver  SHA-256 of originals whose trouble the caller has told already.
/// Throws nothing but std::bad_alloc: whatever goes wrong is a fault.
/// Checked: tests/record/verify_book_test.cpp.
BookState verifyBook(const Folder& book, Database& database,
                     const std::set<std::string>& passedOver = {});

} // namespace swarfbook
