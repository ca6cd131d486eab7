// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/shown_units.h"
#include "record/book.h"

#include <filesystem>
#include <functional>
#include <mutex>
#include <set>
#include <string>
#include <utility>

namespace swarfbook::web {

/// The book of the pages, opened anew for each use, so that what the command line changed meanwhile
/// is seen, and by one use at a time: the units in which everything is shown are the program's own.
/// What is slow and needs no units, such as measuring, is done outside.
/// Checked: tests/web/pages_test.cpp, tests/web/upload_test.cpp.
class BookAccess {
  public:
    /// @param say  gets each sentence that the book has to say once.
    BookAccess(std::filesystem::path folder, std::function<void(const std::string&)> say)
        : folder_(std::move(folder)), say_(std::move(say)) {}

    /// @param use  is called with `const Book&`; what it gives is given back.
    template <class Use> auto read(const Use& use) {
        const std::lock_guard lock(mutex_);
        const Book book = talking(Book::openForReading(folder_));
        return use(book);
    }
    /// @param use  is called with `Book&`.
    template <class Use> auto write(const Use& use) {
        const std::lock_guard lock(mutex_);
        Book book = talking(Book::open(folder_, IfNoBook::refuse));
        return use(book);
    }
    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

  private:
    Book talking(Book book) {
        book.talkTo([this](const std::string& sentence) {
            if (said_.insert(sentence).second)
                say_(sentence);
        });
        showIn(shownBy(book.settings()));
        return book;
    }

    std::filesystem::path folder_;
    std::function<void(const std::string&)> say_;
    std::mutex mutex_;
    std::set<std::string> said_;
};

} // namespace swarfbook::web
